"""Requests of an invented unit on walls, in garages and in rooms, to vary, and their answers."""

import json
from copy import deepcopy
from typing import Any

from service.checks.clearance import CHECK
from service.checks.clearance.answer import ClearanceAnswer, PlaceAnswer
from service.checks.clearance.request import ClearanceRequest
from service.findings import Finding
from service.http.answering import Answering

Body = dict[str, Any]

ANSWERING = Answering(CHECK)
#: The unit of the hand cases: its front is 11 in from the wall, its top 58 in above the ground.
UNIT: Body = {
    "id": "unit-a",
    "count": 1,
    "width": 26,
    "height": 40,
    "depth": 10,
    "standoff": 1,
    "bottom": 18,
    "energy": 12,
    "mass": 180,
    "listed": True,
    "worked_on_live": True,
    "volts_to_ground": 120,
    "handle": 30,
    "clearances": {},
}
HANGING: Body = {"build": "wood_stud", "services_in_wall": False, "confirmed": True}
WAY_IN: Body = {"narrowest": 48, "steps": 0, "people": 6}
#: Every rule that a licensed person can confirm as adopted.
CONFIRMED = [
    "opening-distance", "unit-spacing", "unit-energy", "location-energy", "working-space",
    "walkway", "gas-vent-distance", "equipment-space", "vehicle-protection", "handle-height",
    "room-use", "fire-detection", "flood-height", "pool-distance",
]  # fmt: skip
JOB: Body = {
    "home": "one_family",
    "state": "CA",
    "permit_date": "2026-11-01",
    "anchorage": {"sds": 1.5, "designed": True},
    "confirmed_rules": CONFIRMED,
}


def without_none(made: Body) -> Body:
    """Return an object without the fields that are None."""
    return {name: value for name, value in made.items() if value is not None}


def way(*clears: tuple[float, float, float], opposite: str | None = "wood_fence") -> list[Body]:
    """Return the way before a wall: (from, to, clear) of each part [in]."""
    parts = [{"left": a, "length": b - a, "clear": clear} for a, b, clear in clears]
    return [part if opposite is None else part | {"opposite": opposite} for part in parts]


def unit(**more: Any) -> Body:
    """Return the unit with facts otherwise; None leaves one out."""
    return without_none(deepcopy(UNIT) | more)


def wall(*objects: Body, **more: Any) -> Body:
    """Return a wall of 240 in of which everything is known to the last sixteenth."""
    long = more.get("length", 240)
    end = long["value"] if isinstance(long, dict) else long
    made = {
        "kind": "wall", "id": "wall", "length": 240, "left_end": "wall", "right_end": "wall",
        "objects": list(objects), "way": way((0, end, 60)), "route": True,
        "escape_way": False, "vehicles": False, "flood": -60, "measured_by": "tape",
        "hanging": HANGING, "way_in": WAY_IN,
    }  # fmt: skip
    return without_none(deepcopy(made) | more)


def garage(*objects: Body, side: str = "back", **more: Any) -> Body:
    """Return a garage of 240 by 240 in with one wall to try."""
    on_wall = {name: more.pop(name) for name in ("placed", "barriers") if name in more}
    walls = [{"side": side, "objects": list(objects), "hanging": HANGING} | on_wall]
    made = {
        "kind": "garage", "id": "garage", "width": 240, "depth": 240, "attached": True,
        "separated": True, "detection": True, "measured_by": "tape", "way_in": WAY_IN,
        "vehicle_opening": {"left": 24, "width": 192, "height": 96}, "walls": walls,
    }  # fmt: skip
    return without_none(deepcopy(made) | more)


def room(use: str = "utility_room", **more: Any) -> Body:
    """Return a room of which everything is known."""
    made = {
        "kind": "room", "id": "room", "use": use, "length": 120, "finish": "gypsum_type_x",
        "opens_into_bedroom": False, "door_self_closing": True, "detection": True,
        "way": way((0, 120, 60), opposite="drywall"), "measured_by": "tape", "hanging": HANGING,
        "way_in": WAY_IN,
    }  # fmt: skip
    return without_none(deepcopy(made) | more)


def exactly(place: Body) -> Body:
    """Return a place with every bare length stated to be free of error."""
    lengths = ("length", "left", "width", "bottom", "height", "depth", "clear", "clear_right",
               "out", "narrowest", "eave", "flood", "from_wall", "vehicle_length")  # fmt: skip

    def told(name: str, value: Any) -> Any:
        if isinstance(value, dict):
            return {inner: told(inner, one) for inner, one in value.items()}
        if isinstance(value, list):
            return [told("", one) for one in value]
        bare = isinstance(value, int | float | str) and not isinstance(value, bool)
        return {"value": value, "within": 0} if bare and name in lengths else value

    return {name: told(name, value) for name, value in place.items()}


def body(*places: Body, units: list[Body] | None = None, **more: Any) -> Body:
    """Return a request; None leaves a field out."""
    made = JOB | {"units": units or [UNIT], "places": list(places) or [wall()]} | more
    return deepcopy(without_none(made))


def opening(left: float, width: float, **more: Any) -> Body:
    """Return a window of the dwelling from 36 to 84 in above the ground."""
    made: Body = {"kind": "opening", "what": "window", "left": left, "width": width}
    return without_none(made | {"bottom": 36, "height": 48, "leads_to": "dwelling"} | more)


def door(left: float, width: float, **more: Any) -> Body:
    """Return a door of the dwelling 80 in high."""
    made = {"what": "door", "bottom": 0, "height": 80, "swing": "in"} | more
    return opening(left, width, **made)


def request_of(made: Body) -> ClearanceRequest:
    """Return the request as it comes in."""
    request, _ = ANSWERING.take(json.dumps(made).encode())
    assert isinstance(request, ClearanceRequest)
    return request


def answer_of(request: ClearanceRequest, *includes: str) -> ClearanceAnswer:
    """Return the answer to a request that came in."""
    found: ClearanceAnswer = CHECK.run(request, frozenset(includes))
    return found


def answer(made: Body, *includes: str) -> ClearanceAnswer:
    """Return the answer to a request."""
    return answer_of(request_of(made), *includes)


def first(made: Body) -> PlaceAnswer:
    """Return how the first place stands."""
    return answer(made).places[0]


def permitted(place: PlaceAnswer) -> list[tuple[float, float]]:
    """Return the permitted left edges of the first kind [in]."""
    return [(one.from_in, one.to_in) for one in place.units[0].permitted]


def lefts(place: PlaceAnswer) -> list[float]:
    """Return the left edges of the arrangement [in]."""
    return [one.left_in for one in place.arrangement]


def finding(found: ClearanceAnswer, rule: str) -> Finding:
    """Return the finding of a rule."""
    return next(one for one in found.findings if one.rule == rule)


def rules(found: ClearanceAnswer) -> dict[str, str]:
    """Return the verdict of every rule."""
    return {one.rule: str(one.verdict) for one in found.findings}
