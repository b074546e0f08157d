"""The coldest hour of the places that answer."""

from __future__ import annotations

from service.checks.heat_exposure.climate_days import ClimateDays
from service.published.heat_defaults import heat_defaults

#: What the sky may take off the unit's temperature on a calm clear night [K]: 63 W/m2 of the top,
#: at most half of its faces, over 10 W/(m2 K). Standing: derived, our own.
_SKY = 3.2


def coldest_hour(climate: ClimateDays) -> tuple[float, float] | None:
    """Return the coldest hour of the years, and how cold it may get [K].

    Parameters
    ----------
    climate : ClimateDays

    Notes
    -----
    A record winter lies as far below one typical year as a record summer above it. A garage is no
    colder. None where no year is known. Source: derived; table heat_defaults.
    """
    known = [place.coldest for place in climate.places if place.coldest is not None]
    if not known:
        return None
    coldest = min(known)
    return coldest, coldest - heat_defaults()["percentile_gap_k"].hot - climate.error - _SKY
