"""Random requests for one kind of unit on one outside wall, in half or whole inches."""

from random import Random
from typing import Any, Final

Facts = dict[str, Any]

MATERIALS: Final = (
    *("concrete", "block", "brick", "stucco", "wood_fence", "vinyl_fence", "metal_fence"),
    *("chain_link", "hedge", "drywall", "glass", "live_equipment", "open"),
)
EQUIPMENT: Final = (
    *("panel", "electric_meter", "disconnect", "gas_meter", "hose_bib", "downspout"),
    *("vent_outlet", "light", "other"),
)


class Drawn:
    """Draws the lengths of one request: multiples of a step, and straight or not.

    Parameters
    ----------
    rng : Random
    straight : bool
        Whether all that bounds a place is a whole length along the wall.
    """

    def __init__(self, rng: Random, *, straight: bool) -> None:
        self.rng, self.straight = rng, straight
        self.step = 1.0 if straight else 0.5

    def length(self, low: float, high: float) -> float:
        return self.rng.randint(int(low / self.step), int(high / self.step)) * self.step

    def maybe(self, share: float) -> bool:
        return self.rng.random() < share

    def some(self, facts: Facts, share: float) -> Facts:
        """Return facts of which each is stated or not."""
        return {name: value for name, value in facts.items() if self.maybe(share)}

    def request(self) -> Facts:
        wall = self.length(90, 260)
        readings = self.some(
            {
                "opening_distance": self.rng.choice(["straight", "any_height"]),
                "garage_openings": self.rng.choice(["do_not_count", "count"]),
                "working_space": self.rng.choice(["every_unit", "serviced_live"]),
                "gas_distance": self.length(20, 60),
                "walkway": self.length(20, 48),
            },
            0.3,
        )
        if self.straight:
            readings["opening_distance"] = "any_height"
        return {"units": [self.unit()], "places": [self.wall(wall)], "readings": readings}

    def unit(self) -> Facts:
        rng = self.rng
        clearances = {side: self.length(0, 14) for side in ("left", "right", "top")}
        facts: Facts = {
            "standoff": self.length(0, 7),
            "bottom": self.length(0, 50),
            "mount": rng.choice(["wall", "floor"]),
            "worked_on_live": rng.choice([True, False]),
            "volts_to_ground": rng.choice([48, 120, 150, 151, 400, 600, 601, 1000]),
            "listed_spacing": self.length(0, 20),
        }
        facts = self.some(facts, 0.6)
        if self.maybe(0.4):
            facts["clearances"] = self.some({**clearances, "front": self.length(0, 60)}, 0.6)
        if self.maybe(0.2):
            facts["conduit_entry"] = rng.choice(["left", "right", "top", "bottom", "rear"])
            facts["conduit_room"] = self.length(0, 12)
        if self.maybe(0.2):
            stack: Facts = {"levels": 2, "one_cabinet": rng.choice([True, False])}
            facts["stack"] = stack | self.some({"gap": self.length(0, 20)}, 0.5)
        size = {"width": self.length(8, 44), "height": self.length(12, 50)}
        return {"id": "unit-a", **size, "depth": self.length(4, 14), **facts}

    def wall(self, length: float) -> Facts:
        rng = self.rng
        facts: Facts = {
            "left_end": rng.choice(["open", "wall"]),
            "right_end": rng.choice(["open", "wall"]),
            "eave": self.length(80, 110),
            "route": rng.choice([True, False]),
            "escape_way": rng.choice([True, False]),
        }
        facts = self.some(facts, 0.4)
        if self.maybe(0.3):
            facts["height"] = self.length(110, 140)
        ends = [end for end in ("left", "right") if facts.get(f"{end}_end") != "open"]
        objects = [self.thing(length, ends) for _ in range(rng.randint(0, 5))]
        place = {"kind": "wall", "id": "side", "length": length, "measured_by": "tape"}
        return {**place, "objects": objects, "way": self.way(length), **facts}

    def way(self, length: float) -> list[Facts]:
        found, x = [], self.length(0, 20)
        while x < length - 8 and self.maybe(0.8):
            long = min(self.length(20, 140), length - x)
            clear = self.length(36, 90) if self.maybe(0.4) else self.length(56, 90)
            part = {"left": x, "length": long, "clear": clear}
            part |= self.some({"opposite": self.rng.choice(MATERIALS)}, 0.7)
            if not self.straight:
                part |= self.some({"clear_right": self.length(40, 90)}, 0.3)
            found.append(part)
            x += long + self.rng.choice([0, 0, 9])
        return found

    def thing(self, wall: float, ends: list[str]) -> Facts:
        kinds = ["door", "window", "equipment", "equipment", "condenser", "pool"]
        if ends and not self.straight:
            kinds.append("corner_opening")
        if not self.straight:
            kinds.append("gas_vent")
        kind = self.rng.choice(kinds)
        made: Facts = getattr(self, kind)(wall, ends)
        return made

    def _along(self, wall: float, width: tuple[float, float]) -> Facts:
        wide = self.length(*width)
        return {"left": self.length(0, max(wall - wide, 1)), "width": wide}

    def door(self, wall: float, _ends: list[str]) -> Facts:
        facts: Facts = {
            "leads_to": self.rng.choice(["dwelling", "garage", "other", "other"]),
            "swing": self.rng.choice(["in", "slides"] if self.straight else ["out"]),
            "hinge": self.rng.choice(["left", "right"]),
            "opens_degrees": self.rng.choice([90, 110, 135, 160, 180]),
            "height": self.length(78, 96),
        }
        along = self._along(wall, (28, 42))
        return {"kind": "opening", "what": "door", **along, **self.some(facts, 0.8)}

    def window(self, wall: float, _ends: list[str]) -> Facts:
        made = {"kind": "opening", "what": "window", **self._along(wall, (18, 60))}
        made |= {"bottom": self.length(20, 100), "height": self.length(12, 40)}
        return made | self.some({"leads_to": self.rng.choice(["garage", "other"])}, 0.5)

    def equipment(self, wall: float, _ends: list[str]) -> Facts:
        # What keeps a distance every way bounds places in a curve.
        curved = ("hose_bib", "downspout") if self.straight else ()
        what = self.rng.choice([one for one in EQUIPMENT if one not in ("vent_outlet", *curved)])
        if not self.straight and self.maybe(0.1):
            what = "vent_outlet"
        facts = {"bottom": self.length(0, 90), "height": self.length(4, 40)}
        facts["depth"] = self.length(2, 14)
        if self.maybe(0.3):
            # A little above or below many a unit.
            facts["bottom"], facts["height"] = self.length(40, 76), self.length(2, 12)
        made = {"kind": "equipment", "what": what, **self._along(wall, (2, 18))}
        return made | self.some(facts, 0.8)

    def condenser(self, wall: float, _ends: list[str]) -> Facts:
        facts: Facts = {"height": self.length(24, 44)}
        facts["service_side"] = self.rng.choice(["left", "right", "front"])
        out = self.length(6, 18) if self.maybe(0.5) else self.length(40, 62)
        made = {"kind": "condenser", **self._along(wall, (24, 36)), "out": out}
        return made | {"depth": self.length(24, 36)} | self.some(facts, 0.7)

    def pool(self, wall: float, _ends: list[str]) -> Facts:
        # Farther out than the unit it bounds places in a curve.
        out = 0.0 if self.straight else self.length(30, 90)
        return {"kind": "pool", **self._along(wall, (24, 120)), "out": out}

    def corner_opening(self, _wall: float, ends: list[str]) -> Facts:
        made: Facts = {"kind": "corner_opening", "end": self.rng.choice(ends)}
        made |= {"out": self.length(0, 50), "width": self.length(18, 48)}
        heights: Facts = {"bottom": self.length(0, 90), "height": self.length(12, 60)}
        made |= self.some(heights, 0.8)
        return made | self.some({"leads_to": self.rng.choice(["garage", "other"])}, 0.2)

    def gas_vent(self, wall: float, _ends: list[str]) -> Facts:
        made = {"kind": "gas_vent", "left": self.length(0, wall)}
        return made | {"out": self.length(2, 30), "height": self.length(0, 100)}
