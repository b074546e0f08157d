"""What forbids a place: each reason of the lane as a rule, an object and words."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.spots import Spot
from service.checks.clearance.vehicle_zone import VEHICLE
from service.checks.clearance.wall_lane import (
    CEILING,
    FRONT,
    PARTS,
    SIDE,
    WALKWAY,
    WALL_END,
    WORKING_SPACE,
)
from service.checks.clearance.wall_objects import DISTANCE, SWEEP
from service.codes.siting_equipment import siting_equipment
from service.facts.siting_objects import (
    Condenser,
    CornerOpening,
    GasVent,
    Opening,
    PoolEdge,
    WallEquipment,
    WallObject,
)


class Reason(NamedTuple):
    """What forbids a place.

    Attributes
    ----------
    rule : str
    pointer : str or None
        Of the object; None: the wall, the ground or the unit.
    words : str
        After "too near to", or as they stand.
    """

    rule: str
    pointer: str | None
    words: str


_OF_THE_LANE = {
    WALKWAY: Reason("walkway", None, "the way before the wall would be too narrow"),
    WORKING_SPACE: Reason("working-space", None, "its working space would not fit"),
    CEILING: Reason("under-eave", None, "it would reach above the wall, the eave or the ceiling"),
    WALL_END: Reason("wall-length", None, "the wall is shorter than the unit"),
    FRONT: Reason("maker-clearance", None, "the room before it that its maker asks would not fit"),
    SIDE: Reason("maker-clearance", None, "the room at its side that its maker asks would not fit"),
    VEHICLE: Reason("vehicle-protection", None, "vehicles reach there"),
}


#: What is kept at a distance, and by which rule.
_TOO_NEAR: Final[dict[type, str]] = {
    GasVent: "gas-vent-distance",
    PoolEdge: "pool-distance",
    CornerOpening: "opening-distance",
    Opening: "opening-distance",
}


def reason_of(spot: Spot, code: int) -> Reason:
    """Return what a reason of the lane stands for."""
    if code < 0:
        return _OF_THE_LANE[code]
    index, part = divmod(code, PARTS)
    thing = spot.objects[index]
    pointer, named = f"{spot.pointer}/objects/{index}", name_of(thing)
    if part == SWEEP:
        return Reason("door-swing", pointer, f"{named} opens into it")
    if part == DISTANCE and type(thing) in _TOO_NEAR:
        return Reason(_TOO_NEAR[type(thing)], pointer, f"{named} is too near")
    if isinstance(thing, CornerOpening):
        return Reason("opening-overlap", pointer, f"{named} is there, with the landing before it")
    if isinstance(thing, Opening):
        return Reason("opening-overlap", pointer, f"{named} is there")
    if isinstance(thing, WallEquipment) and thing.what == "gas_meter" and part == DISTANCE:
        words = f"{named} is too near, as its regulator's vent is not known"
        return Reason("gas-vent-distance", pointer, words)
    if isinstance(thing, WallEquipment) and siting_equipment()[thing.what].working_space:
        return Reason("equipment-space", pointer, f"{named} and its working space are there")
    return Reason("equipment-space", pointer, f"{named} and the room it keeps are there")


def name_of(thing: WallObject) -> str:
    """Return what an object is called."""
    if isinstance(thing, Opening):
        return f"the {thing.what}"
    if isinstance(thing, CornerOpening):
        return "the opening round the corner"
    if isinstance(thing, GasVent):
        return "the gas regulator's vent"
    if isinstance(thing, PoolEdge):
        return "the pool"
    kind = "condenser" if isinstance(thing, Condenser) else thing.what
    return siting_equipment()[kind].label
