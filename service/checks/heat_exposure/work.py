"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import spots_of
from service.climate import sites_of_county, sites_of_zone
from service.facts import CountyClimate, OwnClimate, PointClimate, ZoneClimate

#: Measured on one core [ms]: a request with its reruns, each way to stand at each place, and a
#: year of the caller's own.
_FLAT_MS, _STAND_MS, _OWN_MS = 5.0, 1.3, 4.0
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
    stands = sum(len(spot.stands) for spot in spots_of(request))
    own = _OWN_MS if isinstance(climate, OwnClimate) else 0.0
    return _FLAT_MS + own + _STAND_MS * stands * places
