"""Where a unit might be: one spot a wall, each with every way that it may stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import GaragePlace, HangingWall, OutdoorPlace

#: Directions tried where a wall's facing is not known [deg].
FACINGS: Final = tuple(22.5 * step for step in range(16))
#: What a facing between two of them may add to a peak [K]: black, thin units in calm got 0.6 K at
#: most on the hottest days of six places. Standing: derived, our own.
BETWEEN_FACINGS: Final = 1.0


@dataclass(frozen=True, slots=True)
class Stand:
    """One way to stand: on a wall that faces somewhere [deg], or behind a garage's door."""

    facing: float
    wall: HangingWall | None = None
    door: str | None = None


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for the unit, of which one or several ways to stand may be true."""

    id: str
    stands: tuple[Stand, ...]
    wall: HangingWall | None
    between: float


def spots_of(request: HeatExposureRequest) -> tuple[Spot, ...]:
    """Return the spots of a request; one alone where nothing but a garage or nothing is known."""
    place = request.place
    if isinstance(place, OutdoorPlace):
        return tuple(_of_wall(wall) for wall in place.walls)
    if isinstance(place, GaragePlace):
        return (Spot("garage", (_garage(place),), None, 0.0),)
    any_wall = _of_wall(HangingWall(id="anywhere"))
    stands = (*any_wall.stands, _garage(GaragePlace()))
    return (Spot("anywhere", stands, None, any_wall.between),)


def _of_wall(wall: HangingWall) -> Spot:
    if wall.facing is not None:
        return Spot(wall.id, (Stand(wall.facing, wall),), wall, 0.0)
    return Spot(wall.id, tuple(Stand(one, wall) for one in FACINGS), wall, BETWEEN_FACINGS)


def _garage(place: GaragePlace) -> Stand:
    return Stand(0.0, None, "other_door" if place.door_faces == "other" else "west_door")
