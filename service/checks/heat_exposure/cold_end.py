"""The coldest hour of the places that answer."""

from __future__ import annotations

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.request import HeatExposureRequest
from service.published.heat_defaults import heat_defaults

#: What the sky may take off the unit's temperature on a calm clear night [K]: 63 W/m2 of the top,
#: at most half of its faces, over 10 W/(m2 K). Standing: derived, our own.
_SKY = 3.2
_KELVIN_PER_F = 1.0 / 1.8


def coldest_hour(request: HeatExposureRequest, climate: ClimateDays) -> tuple[float, float] | None:
    """Return the coldest hour of the years, and how cold it may get [K].

    Parameters
    ----------
    request : HeatExposureRequest
    climate : ClimateDays

    Notes
    -----
    A record winter lies as far below one typical year as a record summer above it. A garage is no
    colder. None where no year is known. Source: derived; table heat_defaults.
    """
    known = [place.coldest for place in climate.places if place.coldest is not None]
    if not known:
        return None
    offset = request.outdoor_offset
    error = climate.error if offset is None else 0.0
    coldest = min(known) + (offset or 0.0) * _KELVIN_PER_F
    return coldest, coldest - heat_defaults()["percentile_gap_k"].hot - error - _SKY
