"""Rules between the openings and the equipment of one wall."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians
from typing import Final, NamedTuple

from service.facts.siting_length import LengthSource
from service.facts.siting_measured import Reach, measured, meeting, number_at, reach, upwards
from service.facts.siting_objects import Opening, WallEquipment

_TWO_OPENINGS: Final = (
    "It overlaps another opening: correct left and width, or state bottom and height where one is "
    "above the other."
)
_ON_AN_OPENING: Final = (
    "It hangs where an opening is: correct left and width, or state bottom and height where one is "
    "above the other."
)
_TWO_DOORS: Final = (
    "It swings through another door that opens outwards: correct the hinges, or send how far each "
    "of them opens."
)


class Mounted(NamedTuple):
    """What is in or on the wall, its pointer, and where it is along the wall and up."""

    thing: Opening | WallEquipment
    at: str
    along: Reach
    up: Reach


def mounted(thing: Opening | WallEquipment, at: str, by: LengthSource) -> Mounted:
    """Return an opening or equipment with where it is."""
    along = reach(thing.left, thing.width, by)
    return Mounted(thing, at, along, upwards(thing.bottom, thing.height, by))


def between_refusals(on_wall: Sequence[Mounted], by: LengthSource) -> list[tuple[str, str]]:
    """Return what stands where an opening is, and doors that swing through an earlier one."""
    named: dict[str, str] = {}
    opening = [isinstance(one.thing, Opening) for one in on_wall]
    along, up = [one.along for one in on_wall], [one.up for one in on_wall]
    for first, second in meeting(along, up):
        if opening[first] and opening[second]:
            named.setdefault(_left_of(on_wall[second]), _TWO_OPENINGS)
        elif opening[first] or opening[second]:
            equipment = second if opening[first] else first
            named.setdefault(_left_of(on_wall[equipment]), _ON_AN_OPENING)
    doors = [(one, swept) for one in on_wall if (swept := _swept(one, by)) is not None]
    for first, second in meeting([swept for _, swept in doors]):
        one, other = doors[first][0], doors[second][0]
        if one.up.meets(other.up) and not one.along.meets(other.along):
            named.setdefault(f"{other.at}/opens_degrees", _TWO_DOORS)
    return list(named.items())


def _left_of(one: Mounted) -> str:
    return number_at(one.thing.left, f"{one.at}/left")


def _swept(one: Mounted, by: LengthSource) -> Reach | None:
    """Return from where to where the leaf of a door comes that is known to open outwards."""
    door = one.thing
    if not isinstance(door, Opening) or door.what != "door":
        return None
    if door.swing != "out" or door.hinge is None:
        return None
    leaf, off = measured(door.width, by)
    off += measured(door.left, by)[1]
    past = -leaf * cos(radians(door.opens_degrees))
    low, high = one.along.low, one.along.high
    low, high = (low - past, high) if door.hinge == "left" else (low, high + past)
    return Reach(low, high, low + off, high - off)
