"""Rules between the lengths of a garage, its vehicle opening, its walls and its barriers."""

from __future__ import annotations

from collections.abc import Mapping

from service.facts.siting_length import LengthSource
from service.facts.siting_measured import exceeds, longest, number_at, reach
from service.facts.siting_spans import span_refusals
from service.facts.siting_spots import Barrier, GarageWall, SitingGarage
from service.facts.siting_wall_refusals import Refusals, WallSeen, beyond, seen_wall_refusals


def garage_refusals(
    place: SitingGarage, widths: Mapping[str, float], at: str, by: LengthSource
) -> Refusals:
    """Return (pointer, detail) of every rule of one garage that is broken.

    Parameters
    ----------
    place : SitingGarage
    widths : mapping of str to float
        Id of a kind of unit -> its width [in].
    at : str
        Pointer of the place.
    by : str
        How its lengths were had that say nothing themselves.
    """
    found = _of_the_vehicles(place, at, by)
    sides: set[str] = set()
    for index, wall in enumerate(place.walls):
        here = f"{at}/walls/{index}"
        if wall.side in sides:
            words = "Send each wall once, with all that is on it."
            found.append((f"{here}/side", words))
        sides.add(wall.side)
        seen = _seen(place, wall, here, by)
        found += seen_wall_refusals(seen, widths)
        out = place.depth if wall.side == "back" else place.width
        for number, barrier in enumerate(wall.barriers):
            there = f"{here}/barriers/{number}"
            found += _of_a_barrier(barrier, seen, there)
            if exceeds(barrier.from_wall, out, by):
                words = "It stands farther from the wall than the garage reaches: correct one."
                found.append((number_at(barrier.from_wall, f"{there}/from_wall"), words))
    return found


def _seen(place: SitingGarage, wall: GarageWall, at: str, by: LengthSource) -> WallSeen:
    return WallSeen(
        at=at,
        length=place.width if wall.side == "back" else place.depth,
        height=place.height,
        open_ends=(),
        objects=wall.objects,
        way=(),
        placed=wall.placed,
        by=by,
    )


def _of_a_barrier(barrier: Barrier, wall: WallSeen, at: str) -> Refusals:
    along = reach(barrier.left, barrier.width, wall.by)
    width = number_at(barrier.width, f"{at}/width")
    return span_refusals(barrier, at) + beyond(along, wall, (barrier.left, f"{at}/left"), width)


def _of_the_vehicles(place: SitingGarage, at: str, by: LengthSource) -> Refusals:
    found: Refusals = []
    opening = place.vehicle_opening
    if opening is not None:
        here = f"{at}/vehicle_opening"
        found += span_refusals(opening, here)
        if reach(opening.left, opening.width, by).ends_beyond(longest(place.width, by)):
            words = "It reaches beyond the garage's width: correct left, width or the garage's."
            found.append((number_at(opening.width, f"{here}/width"), words))
        top, ceiling = opening.height, place.height
        if top is not None and ceiling is not None and exceeds(top, ceiling, by):
            words = "It is no higher than the ceiling: correct one of both."
            found.append((number_at(top, f"{here}/height"), words))
    vehicle = place.vehicle_length
    if vehicle is not None and exceeds(vehicle, place.depth, by):
        words = "A vehicle parked inside is no longer than the garage is deep: correct one of both."
        found.append((number_at(vehicle, f"{at}/vehicle_length"), words))
    return found
