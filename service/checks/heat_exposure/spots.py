"""Where a unit might be: one spot a wall, each with every way that it may stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from service.checks.heat_exposure.request import HeatExposureRequest, without_shades
from service.facts import GaragePlace, HangingWall, HungUnit, OutdoorPlace

#: Directions tried where a wall's facing is not known [deg].
FACINGS: Final = tuple(22.5 * step for step in range(16))
#: What a facing between two of them may add to a peak [K]: black, thin units in calm got 0.6 K at
#: most on the hottest days of six places. Standing: derived, our own.
BETWEEN_FACINGS: Final = 1.0
#: What a garage may be hotter than the rule of thumb says [K]: half of its own spread again.
#: Standing: our own choice.
GARAGE_MARGIN: Final = 2.5
#: Way from the wall to a unit's back where none is stated [m]: up to 4 in, usual brackets. Without
#: a fence the far side is the sunnier and stands for all; before one all are tried. Standing:
#: common practice.
USUAL_STANDOFF: Final = 0.1016
STANDOFFS: Final = (USUAL_STANDOFF, 0.5 * USUAL_STANDOFF, 0.0)


@dataclass(frozen=True, slots=True)
class Stand:
    """One way to stand: on a wall that faces somewhere [deg], or behind a garage's door.

    Attributes
    ----------
    standoff : float or None
        Way from the wall to the unit's back, where it is not the unit's own [m].
    bound : bool
        Whether it only bounds what another way may come to: the shades of a wall whose facing is
        not known help at some facings between those tried and not at others.
    """

    facing: float
    wall: HangingWall | None = None
    door: str | None = None
    standoff: float | None = None
    bound: bool = False

    @property
    def shaded(self) -> bool:
        """Return whether shades decide on which days it is hottest.

        Those of an eave or a fence do so where the wall's facing is known; where it is not they
        are bounded by the wall without them.
        """
        wall = self.wall
        if wall is None:
            return False
        apart = wall.facing is not None and bool(wall.eave or wall.screens)
        return bool(wall.full_shade or wall.tree or apart)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place for the unit, of which one or several ways to stand may be true."""

    id: str
    stands: tuple[Stand, ...]
    wall: HangingWall | None
    between: float

    @property
    def bounded(self) -> bool:
        """Return whether some ways to stand only bound the others: they stand last."""
        return self.stands[-1].bound


def spots_of(request: HeatExposureRequest) -> tuple[Spot, ...]:
    """Return the spots of a request; one alone where nothing but a garage or nothing is known."""
    place = request.place
    if isinstance(place, OutdoorPlace):
        return tuple(_of_wall(wall, request) for wall in place.walls)
    if isinstance(place, GaragePlace):
        garage = _garage(place, request)
        return (Spot("garage", (garage,), None, GARAGE_MARGIN * (garage.door != "measured")),)
    any_wall = _of_wall(HangingWall(id="anywhere"), request)
    stands = (*any_wall.stands, _garage(GaragePlace(), request))
    return (Spot("anywhere", stands, None, max(any_wall.between, GARAGE_MARGIN)),)


def _of_wall(wall: HangingWall, request: HeatExposureRequest) -> Spot:
    ways = _standoffs(wall, request.unit)
    if wall.facing is not None:
        return Spot(wall.id, tuple(Stand(wall.facing, wall, None, way) for way in ways), wall, 0.0)
    stands = [Stand(one, wall, None, way) for one in FACINGS for way in ways]
    if wall.eave or wall.screens:
        bare = without_shades(wall)
        stands += [Stand(one, bare, bound=True) for one in FACINGS]
    return Spot(wall.id, tuple(stands), wall, BETWEEN_FACINGS)


def _standoffs(wall: HangingWall, unit: HungUnit) -> tuple[float | None, ...]:
    """Return the ways from the wall that are tried: near a fence the nearer may be the sunnier."""
    return STANDOFFS if unit.standoff is None and wall.screens else (None,)


def _garage(place: GaragePlace, request: HeatExposureRequest) -> Stand:
    if request.wall_air_rise is not None:
        # What was measured there goes before the rule of thumb.
        return Stand(0.0, None, "measured")
    return Stand(0.0, None, "other_door" if place.door_faces == "other" else "west_door")
