"""Random whole requests of walls, garages and rooms, of which much is not stated."""

from random import Random
from typing import Any

from tests.checks.clearance.requests import (
    CONFIRMED,
    HANGING,
    JOB,
    UNIT,
    WAY_IN,
    Body,
    without_none,
)


def random_body(seed: int) -> Body:
    """Return a request that is not refused; every fact of it is absent now and then."""
    rng = Random(seed)
    kinds = rng.choice([1, 1, 2])
    makers = (_wall, _wall, _garage, _room)
    places = [rng.choice(makers)(rng, f"place-{at}") for at in range(rng.choice([1, 1, 2]))]
    made = JOB | {
        "units": [_unit(rng, f"kind-{at}") for at in range(kinds)],
        "places": places,
        "home": rng.choice(["one_family"] * 5 + ["townhouse", "multi_family", None]),
        "state": rng.choice(["CA"] * 7 + ["OH"]),
        "permit_date": rng.choice(["2026-11-01", "2024-05-01", "2026-11-01", None]),
        "anchorage": rng.choice([JOB["anchorage"], None]),
        "confirmed_rules": rng.choice([CONFIRMED, CONFIRMED, []]),
    }
    if rng.random() < 0.3:
        made["existing"] = [{"where": "exterior_wall", "energy": rng.choice([10, 40, 70])}]
    return without_none(made)


def _maybe(rng: Random, value: Any, part: float = 0.7) -> Any:
    return value if rng.random() < part else None


def _unit(rng: Random, name: str) -> Body:
    floor = rng.random() < 0.2
    size = {"width": rng.randint(12, 34), "height": rng.randint(24, 48)}
    made = UNIT | size | {
        "id": name,
        "count": rng.randint(1, 3),
        "mount": "floor" if floor else "wall",
        "depth": rng.randint(6, 14),
        "standoff": _maybe(rng, rng.choice([0, 1, 4])),
        "bottom": _maybe(rng, rng.choice([6, 12]) if floor else rng.choice([12, 18, 36, 50])),
        "energy": _maybe(rng, rng.choice([4, 4, 5, 6, 6, 9, 9, 14, 22]), 0.9),
        "mass": _maybe(rng, 180),
        "listed": _maybe(rng, True, 0.9),
        "worked_on_live": _maybe(rng, rng.random() < 0.6),
        "volts_to_ground": _maybe(rng, rng.choice([120, 120, 400])),
        "handle": _maybe(rng, 10),
        "clearances": _maybe(rng, rng.choice([{}, {"left": 6, "right": 4, "top": 12}])),
        "listed_spacing": rng.choice([None, None, 6]),
    }  # fmt: skip
    return without_none(made)


def _objects(rng: Random, length: int, corners: bool) -> list[Body]:
    """Return what is on a wall, from left to right and apart from each other."""
    found: list[Body] = []
    at = rng.randint(0, 60)
    while at < length - 50 and len(found) < 5:
        width = rng.randint(6, 40)
        found.append(without_none(_object(rng, at, width)))
        at += width + rng.randint(2, 90)
    if corners and rng.random() < 0.3:
        found.append(
            {"kind": "corner_opening", "end": rng.choice(["left", "right"]), "width": 30,
             "out": rng.randint(0, 50), "bottom": rng.choice([0, 40, 70]), "height": 40}
        )  # fmt: skip
    return found


def _object(rng: Random, left: int, width: int) -> Body:
    along: Body = {"left": left, "width": width}
    leads = _maybe(rng, rng.choice(["dwelling", "dwelling", "garage", "other"]))
    kind = rng.choice(["window", "window", "door", "panel", "bib", "condenser", "vent"])
    if kind == "window":
        heights = {"bottom": rng.choice([20, 40, 70, 90]), "height": 24}
        return along | heights | {"kind": "opening", "what": "window", "leads_to": leads}
    if kind == "door":
        swing = _maybe(rng, rng.choice(["in", "out", "slides"]))
        hinge = _maybe(rng, rng.choice(["left", "right"]))
        return along | {"kind": "opening", "what": "door", "height": 80, "leads_to": leads,
                        "swing": swing, "hinge": hinge, "opens_degrees": 90}  # fmt: skip
    if kind in ("panel", "bib"):
        what = "panel" if kind == "panel" else "hose_bib"
        heights = {"bottom": rng.choice([12, 40]), "height": 20, "depth": _maybe(rng, 5)}
        return along | heights | {"kind": "equipment", "what": what}
    if kind == "condenser":
        side = _maybe(rng, rng.choice(["left", "right", "front"]))
        return along | {"kind": "condenser", "out": 12, "depth": 30, "service_side": side}
    return {"kind": "gas_vent", "left": left, "out": rng.randint(0, 12), "height": 30}


def _way(rng: Random, length: int) -> list[Body]:
    if rng.random() < 0.15:
        return []
    cut = rng.choice([length, length // 2])
    parts = [(0, cut), (cut, length)] if cut < length else [(0, length)]
    return [
        without_none(
            {
                "left": a,
                "length": b - a,
                "clear": rng.choice([46, 50, 54, 60, 72, 90]),
                "opposite": _maybe(rng, rng.choice(["block", "wood_fence", "open"])),
            }
        )
        for a, b in parts
    ]


def _hanging(rng: Random) -> Body:
    return rng.choice([HANGING, {"build": "stucco_on_stud", "stud_spacing": 16}])


def _wall(rng: Random, name: str) -> Body:
    length = rng.randint(100, 330)
    ends = {end: _maybe(rng, rng.choice(["wall", "open"])) for end in ("left_end", "right_end")}
    corners = "open" not in ends.values()
    made = ends | {
        "kind": "wall",
        "id": name,
        "length": length,
        "height": _maybe(rng, 116),
        "objects": _objects(rng, length, corners),
        "way": _way(rng, length),
        "route": _maybe(rng, rng.random() < 0.7),
        "escape_way": _maybe(rng, False),
        "vehicles": _maybe(rng, False, 0.8),
        "flood": _maybe(rng, -60, 0.8),
        "measured_by": _maybe(rng, rng.choice(["tape", "tape", "photo", "drawing"]), 0.9),
        "hanging": _hanging(rng),
        "way_in": rng.choice([WAY_IN, WAY_IN, {}]),
    }
    return without_none(made)


def _garage(rng: Random, name: str) -> Body:
    left, width, depth = rng.choice([24, 50]), rng.randint(230, 270), rng.randint(230, 280)
    opening = {"left": left, "width": 160, "height": _maybe(rng, rng.choice([84, 96]))}
    sides = rng.sample(["back", "left", "right"], rng.choice([1, 2]))
    walls = [
        {"side": side, "objects": _objects(rng, 230, False), "hanging": _hanging(rng)}
        for side in sides
    ]
    made = {
        "kind": "garage",
        "id": name,
        "width": width,
        "depth": depth,
        "attached": _maybe(rng, rng.random() < 0.7),
        "separated": _maybe(rng, True),
        "detection": _maybe(rng, True),
        "vehicle_opening": _maybe(rng, without_none(opening), 0.8),
        "walls": walls,
        "measured_by": _maybe(rng, "tape", 0.8),
        "way_in": rng.choice([WAY_IN, {}]),
    }
    return without_none(made)


def _room(rng: Random, name: str) -> Body:
    length = rng.randint(90, 200)
    made = {
        "kind": "room",
        "id": name,
        "use": rng.choice(["utility_room", "storage", "closet", "bedroom", "hallway"]),
        "length": length,
        "finish": _maybe(rng, "gypsum"),
        "opens_into_bedroom": _maybe(rng, False),
        "door_self_closing": _maybe(rng, True),
        "detection": _maybe(rng, True),
        "way": _way(rng, length),
        "measured_by": _maybe(rng, "tape", 0.8),
        "hanging": _hanging(rng),
        "way_in": rng.choice([WAY_IN, {}]),
    }
    return without_none(made)
