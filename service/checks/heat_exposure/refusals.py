"""Rules between the fields of a request."""

from __future__ import annotations

from service.check import FieldError
from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import (
    DesignDay,
    DesignDayAtSite,
    OutdoorPlace,
    climate_refusals,
    hanging_refusals,
    sheet_refusals,
    wall_refusals,
)

_FROM_THE_SUN_HOURS, _DEGREES_AN_HOUR = 3.5, 15.0


def refusals(request: HeatExposureRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    climate = request.climate
    own = None if isinstance(climate, DesignDay | DesignDayAtSite) else climate
    found = [
        *climate_refusals(own, "/climate"),
        *sheet_refusals(request.limits, request.derating, ""),
    ]
    if isinstance(climate, DesignDay):
        by_the_sun = climate.longitude / _DEGREES_AN_HOUR
        if abs((climate.utc_offset_hours - by_the_sun + 12) % 24 - 12) > _FROM_THE_SUN_HOURS:
            words = (
                f"At this longitude the sun is {by_the_sun:+.1f} h from UTC. Send the offset of "
                "local standard time, negative west of Greenwich."
            )
            found.append(("/climate/utc_offset_hours", words))
    if isinstance(request.place, OutdoorPlace):
        walls = request.place.walls
        found += wall_refusals(walls, "/place/walls")
        found += hanging_refusals(request.unit, walls, "/unit", "/place/walls")
    return [FieldError(*row) for row in found]
