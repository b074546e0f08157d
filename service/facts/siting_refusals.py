"""Rules between the fields of one place of units, and of one kind of unit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from service.facts.siting_garage_refusals import garage_refusals
from service.facts.siting_length import LengthSource
from service.facts.siting_measured import UNSTATED, exceeds, longest, number_at
from service.facts.siting_objects import Opening
from service.facts.siting_place import RouteToPanel
from service.facts.siting_spans import span_refusals
from service.facts.siting_spots import (
    CoarsePlace,
    SitingGarage,
    SitingPlace,
    SitingRoom,
    SitingWall,
)
from service.facts.siting_unit import SitingSheet, SitingUnit
from service.facts.siting_wall_refusals import Refusals, WallSeen, seen_wall_refusals
from service.quantities.comparison import TOLERANCE
from service.quantities.units import si


def place_refusals(place: SitingPlace, units: Sequence[SitingUnit], at: str) -> Refusals:
    """Return (pointer, detail) of every rule of one place that is broken.

    Parameters
    ----------
    place : SitingPlace
    units : sequence of SitingUnit
        Kinds that somebody may have placed on its walls.
    at : str
        Pointer of the place.
    """
    found = span_refusals(place, at)
    if isinstance(place, CoarsePlace):
        return found
    widths = {unit.id: unit.width for unit in units}
    by: LengthSource = place.measured_by or UNSTATED
    found += span_refusals(place.way_in, f"{at}/way_in")
    found += _of_the_route(place.to_panel, _longest_wall(place, by), f"{at}/to_panel")
    if isinstance(place, SitingGarage):
        return found + garage_refusals(place, widths, at, by)
    return found + _of_a_wall(place, widths, at, by)


def unit_refusals(unit: SitingUnit, at: str) -> Refusals:
    """Return (pointer, detail) of every rule of one kind of unit that is broken."""
    return siting_sheet_refusals(unit, unit.height, unit.mass, at)


def siting_sheet_refusals(
    unit: SitingSheet, height: float, mass: float | None, at: str
) -> Refusals:
    """Return (pointer, detail) of every rule of a sheet that is broken, with its box.

    Parameters
    ----------
    unit : SitingSheet
    height : float
        Of one box [in].
    mass : float or None
        Of one box [lb].
    at : str
        Pointer of the sheet.
    """
    found: Refusals = []
    if unit.handle is not None and unit.handle > height:
        words = "Its handle is no higher than its top: send it from the box's lower edge."
        found.append((f"{at}/handle", words))
    if unit.conduit_room is not None and unit.conduit_entry is None:
        words = "Send the side of its conduit too, or leave out the room for it."
        found.append((f"{at}/conduit_room", words))
    piece = unit.heaviest_piece
    if piece is not None and mass is not None and piece > mass:
        words = "A piece weighs no more than the whole box: correct one of both."
        found.append((f"{at}/heaviest_piece", words))
    return found


def repeated(values: Iterable[str], at: str, words: str, name: str = "") -> Refusals:
    """Return (pointer, detail) of every value of a list that stands in it before.

    Parameters
    ----------
    values : iterable of str
    at : str
        Pointer of the list.
    words : str
        What to do about it.
    name : str, optional
        Field of the list's objects that holds the value.
    """
    seen: set[str] = set()
    found = []
    for index, value in enumerate(values):
        if value in seen:
            found.append((f"{at}/{index}{name}", words))
        seen.add(value)
    return found


def _of_a_wall(
    place: SitingWall | SitingRoom, widths: Mapping[str, float], at: str, by: LengthSource
) -> Refusals:
    found: Refusals = []
    open_ends: tuple[str, ...] = ()
    if isinstance(place, SitingWall):
        ends = {"left": place.left_end, "right": place.right_end}
        open_ends = tuple(end for end, meets in ends.items() if meets == "open")
        eave, height = place.eave, place.height
        if eave is not None and height is not None and exceeds(eave, height, by):
            words = "The eave stands no higher than the wall: correct one of both."
            found.append((number_at(eave, f"{at}/eave"), words))
        escape = any(isinstance(thing, Opening) and thing.escape for thing in place.objects)
        if escape and place.escape_way is False:
            words = "An escape opening of the wall leads through it: correct one of both."
            found.append((f"{at}/escape_way", words))
    seen = WallSeen(
        at=at,
        length=place.length,
        height=place.height,
        open_ends=open_ends,
        objects=place.objects,
        way=place.way,
        placed=place.placed,
        by=by,
    )
    return found + seen_wall_refusals(seen, widths)


def _longest_wall(place: SitingWall | SitingGarage | SitingRoom, by: LengthSource) -> float:
    """Return the most that a wall of the place can be long [m]."""
    if isinstance(place, SitingGarage):
        return max(longest(place.width, by), longest(place.depth, by))
    return longest(place.length, by)


def _of_the_route(route: RouteToPanel | None, wall: float, at: str) -> Refusals:
    if route is None or route.trench is None:
        return []
    if si(route.trench - route.beyond, "ft") > wall + TOLERANCE["length"]:
        words = "The trench is no longer than the way along the wall and beyond: correct one."
        return [(f"{at}/trench", words)]
    return []
