"""The coldest hour of the places that answer, and how it stands."""

from __future__ import annotations

import numpy as np

from service.checks.heat_exposure.climate_days import ClimateDays, PlaceDays
from service.checks.heat_exposure.readings import COOL, home_against_sites, lag_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import Spot
from service.checks.heat_exposure.thermal_lag import lagged
from service.findings import Verdict
from service.published.heat_defaults import heat_defaults
from service.quantities.comparison import at_least
from service.quantities.units import si

_HOURS = 24


def coldest_hour(request: HeatExposureRequest, climate: ClimateDays) -> tuple[float, float] | None:
    """Return the coldest hour of the years, and how cold it may get [K].

    Parameters
    ----------
    request : HeatExposureRequest
    climate : ClimateDays

    Notes
    -----
    A garage is no colder. None where no year is known. Source: derived; table heat_defaults.
    """
    known = [place.coldest for place in climate.places if place.coldest is not None]
    if not known:
        return None
    offset, error = home_against_sites(request.outdoor_offset, climate.error)
    coldest, defaults = min(known) + offset, heat_defaults()
    gap, sky = defaults["winter_gap_k"].cool, defaults["night_sky_k"].cool
    return coldest, coldest - gap - error - sky


def cold_verdict(request: HeatExposureRequest, climate: ClimateDays, spot: Spot) -> Verdict:
    """Return how the coldest hour stands against the lowest temperature allowed.

    Notes
    -----
    As at the hot end, a limit that is not known leaves it open, and it fails where every place
    that may be the home's is too cold, whatever the unit's lag. In between it hangs on being kept
    warmer, which can be seen to; a garage is warmer than the record anyway. A unit that waits has
    no heat of its own.
    """
    if request.limits.lowest is None:
        return Verdict.UNDETERMINED
    coldest = coldest_hour(request, climate)
    if coldest is None:
        return Verdict.CONDITIONAL
    limit = si(request.limits.lowest, "degF")
    offset, error = home_against_sites(request.outdoor_offset, climate.error)
    if at_least(coldest[1], limit, "temperature"):
        return Verdict.PASS
    if at_least(coldest[0] - error, limit, "temperature") or spot.wall is None:
        return Verdict.CONDITIONAL
    warmest = max(place.coldest or 0.0 for place in climate.places) + offset + error
    if len(climate.places) > 1 or error > 0.0:
        within = at_least(warmest, limit, "temperature")
        return Verdict.UNDETERMINED if within else Verdict.FAIL
    felt = _felt(climate.places[0], lag_of(request.unit)[COOL]) + offset
    return Verdict.CONDITIONAL if at_least(felt, limit, "temperature") else Verdict.FAIL


def _felt(place: PlaceDays, lag: float) -> float:
    """Return the lowest temperature of a unit on the day of the coldest hour [K]."""
    if place.year is None:
        return -np.inf
    days = place.year.air.reshape(-1, _HOURS)
    return float(lagged(days[int(days.min(axis=1).argmin())], lag).min())
