"""Rules between the fields of a request."""

from __future__ import annotations

from itertools import pairwise

from service.check import FieldError
from service.checks.heat_exposure.request import HeatExposureRequest, HungUnit
from service.facts import DesignDay, DesignDayAtSite, HangingWall, OutdoorPlace, climate_refusals
from service.quantities.comparison import reaches

_FROM_THE_SUN_HOURS, _DEGREES_AN_HOUR = 3.5, 15.0
_INCH = 0.0254


def refusals(request: HeatExposureRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    climate = request.climate
    own = None if isinstance(climate, DesignDay | DesignDayAtSite) else climate
    found = [*climate_refusals(own, "/climate"), *_of_the_limits(request)]
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
