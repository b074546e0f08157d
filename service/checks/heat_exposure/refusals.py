"""Rules between the fields of a request."""

from __future__ import annotations

from math import radians

import numpy as np

from service.check import FieldError
from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import (
    DesignDay,
    DesignDayAtSite,
    OutdoorPlace,
    OwnClimate,
    climate_refusals,
    hanging_refusals,
    sheet_refusals,
    wall_refusals,
)
from service.physics.sun_position import sun_position

_FROM_THE_SUN_HOURS, _DEGREES_AN_HOUR = 3.5, 15.0
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
    found = [
        *climate_refusals(own, "/climate"),
        *sheet_refusals(request.limits, request.derating, ""),
    ]
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
        walls = request.place.walls
        found += wall_refusals(walls, "/place/walls")
        found += hanging_refusals(request.unit, walls, "/unit", "/place/walls")
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
