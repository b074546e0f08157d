"""Rules between the fields of a request."""

from __future__ import annotations

from itertools import pairwise
from math import radians

import numpy as np

from service.check import FieldError
from service.checks.heat_exposure.request import (
    DeratingPoint,
    HeatExposureRequest,
    HungUnit,
)
from service.facts import (
    DesignDay,
    DesignDayAtSite,
    HangingWall,
    OutdoorPlace,
    OwnClimate,
    climate_refusals,
)
from service.physics.sun_position import sun_position
from service.quantities.comparison import reaches

_FROM_THE_SUN_HOURS, _DEGREES_AN_HOUR = 3.5, 15.0
_INCH = 0.0254
_HOUR = 3600.0
#: Light of a year on level ground [Wh/m2], from the poles to the sunniest deserts with room to
#: spare. Standing: common practice.
_LEAST_LIGHT, _MOST_LIGHT = 5e5, 3e6
#: Cosine of the zenith angle below which it is night, seven degrees down, and part of the year's
#: light that may fall then [1]. Standing: our own choice.
_NIGHT, _NIGHT_PART = -0.12, 0.01


def refusals(request: HeatExposureRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    climate = request.climate
    own = None if isinstance(climate, DesignDay | DesignDayAtSite) else climate
    found = [*climate_refusals(own, "/climate"), *_of_the_limits(request)]
    if isinstance(climate, OwnClimate) and not found:
        found += _of_the_sun(climate)
    if isinstance(climate, DesignDay):
        by_the_sun = climate.longitude / _DEGREES_AN_HOUR
        if abs((climate.utc_offset_hours - by_the_sun + 12) % 24 - 12) > _FROM_THE_SUN_HOURS:
            words = (
                f"At this longitude the sun is {by_the_sun:+.1f} h from UTC. Send the offset of "
                "local standard time, negative west of Greenwich."
            )
            found.append(("/climate/utc_offset_hours", words))
    if isinstance(request.place, OutdoorPlace):
        found += _of_the_walls(request.unit, request.place.walls)
    return [FieldError(*row) for row in found]


def _of_the_sun(climate: OwnClimate) -> list[tuple[str, str]]:
    """Return what tells a year without the sun, or with another sun than the place's."""
    ghi = np.array(climate.ghi_w_m2)
    hour = np.arange(ghi.size) + 0.5
    at = (radians(climate.latitude), radians(climate.longitude), climate.utc_offset_hours * _HOUR)
    night = np.cos(sun_position(hour, *at)[0]) < _NIGHT
    total = float(ghi.sum())
    if not _LEAST_LIGHT <= total <= _MOST_LIGHT:
        words = (
            f"This adds up to {total / 1000:.0f} kWh/m2 in the year; a year has "
            f"{_LEAST_LIGHT / 1000:.0f} to {_MOST_LIGHT / 1000:.0f}: send means of the hours in "
            "W/m2."
        )
        return [("/climate/ghi_w_m2", words)]
    if float(ghi[night].sum()) > _NIGHT_PART * total:
        words = (
            "Much of this light falls while the sun is down there: check place, offset from UTC "
            "and the order of the hours."
        )
        return [("/climate/ghi_w_m2", words)]
    return []


def _of_the_limits(request: HeatExposureRequest) -> list[tuple[str, str]]:
    found = []
    limits, points = request.limits, request.derating or []
    if limits.highest is not None and limits.lowest is not None and limits.highest < limits.lowest:
        words = "The highest temperature is no lower than the lowest: exchange them."
        found.append(("/limits/highest", words))
    for place, (below, above) in enumerate(pairwise(points), 1):
        if above.temperature < below.temperature:
            words = "Order the points by rising temperature."
            found.append((f"/derating/{place}/temperature", words))
    return found + _of_the_curve(points)


def _of_the_curve(points: list[DeratingPoint]) -> list[tuple[str, str]]:
    """Return what no curve does: it rises once at most, then falls, and has no third value."""
    found, fell = [], False
    for place, (below, above) in enumerate(pairwise(points), 1):
        if fell and above.percent > below.percent:
            words = "Heat gives no power back: a curve that fell does not rise again."
            found.append((f"/derating/{place}/percent", words))
        fell = fell or above.percent < below.percent
    for place in range(2, len(points)):
        if points[place - 2].temperature == points[place].temperature:
            words = "Send one or two points at a temperature: the part below it and that above."
            found.append((f"/derating/{place}/temperature", words))
    return found


def _of_the_walls(unit: HungUnit, walls: list[HangingWall]) -> list[tuple[str, str]]:
    found = []
    first: dict[str, int] = {}
    for place, wall in enumerate(walls):
        at = f"/place/walls/{place}"
        if first.setdefault(wall.id, place) != place:
            found.append((f"{at}/id", "Give every wall an id of its own."))
        found += _of_the_wall(unit, wall, at)
        if wall.tree is not None and len(wall.tree.through_percent) not in (1, 12):
            words = "Send one value for the year or twelve, one for each month."
            found.append((f"{at}/tree/through_percent", words))
    needed = any(w.eave or w.screens or w.height is not None for w in walls)
    if needed and unit.bottom is None:
        words = (
            "State how high the unit hangs: what an eave, a fence or the wall shades hangs on it."
        )
        found.append(("/unit/bottom", words))
    return found


def _of_the_wall(unit: HungUnit, wall: HangingWall, at: str) -> list[tuple[str, str]]:
    if unit.bottom is None:
        return []
    found = []
    top = (unit.bottom + unit.height) * _INCH
    if wall.eave is not None and not reaches(wall.eave.height * _INCH, top, "length"):
        words = "The eave stands no lower than the unit's top: correct one of both."
        found.append((f"{at}/eave/height", words))
    if wall.height is not None and not reaches(wall.height * _INCH, top, "length"):
        words = "The wall reaches no lower than the unit's top: correct one of both."
        found.append((f"{at}/height", words))
    if wall.height is not None and wall.eave is not None and wall.eave.height > wall.height:
        words = "The eave stands no higher than the wall: correct one of both."
        found.append((f"{at}/eave/height", words))
    front = (unit.standoff or 0.0) + unit.depth
    for index, screen in enumerate(wall.screens):
        if not reaches(screen.distance * 12 * _INCH, front * _INCH, "length"):
            words = "What stands before the wall is no nearer than the unit's front: correct one."
            found.append((f"{at}/screens/{index}/distance", words))
    return found
