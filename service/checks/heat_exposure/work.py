"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import spots_of
from service.climate import sites_of_county, sites_of_zone
from service.facts import CountyClimate, OwnClimate, PointClimate, ZoneClimate

#: Measured on one core [ms]: a request with its reruns, each way to stand at each place, the same
#: where shades send it through a year, and a year of the caller's own with each way to stand in it.
_FLAT_MS, _STAND_MS, _SHADED_MS, _OWN_MS, _OWN_STAND_MS = 5.0, 1.3, 4.0, 4.0, 9.0
_NEAR_SITES = 3
#: Whole answers that the reruns of an assessment come to. Measured 0.6 to 1.5.
RERUNS = 1.5
#: Requests a second in a large batch, on one core.
ARRAY_RATE = 4_000.0


def work(request: HeatExposureRequest) -> float:
    """Return the predicted time [ms] on one core."""
    climate = request.climate
    places = 1
    if isinstance(climate, CountyClimate):
        places = len(sites_of_county(climate.state, climate.county))
    elif isinstance(climate, ZoneClimate):
        places = len(sites_of_zone(climate.zone))
    elif isinstance(climate, PointClimate):
        places = _NEAR_SITES
    stands = [stand for spot in spots_of(request) for stand in spot.stands]
    if isinstance(climate, OwnClimate):
        return _FLAT_MS + _OWN_MS + _OWN_STAND_MS * len(stands)
    shaded = sum(stand.shaded for stand in stands)
    each = _STAND_MS * (len(stands) - shaded) + _SHADED_MS * shaded
    return _FLAT_MS + each * places
