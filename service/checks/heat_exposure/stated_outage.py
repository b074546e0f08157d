"""The outage of a request, by the hours of the day."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.outage_window import window_hours
from service.checks.heat_exposure.request import HeatExposureRequest

Floats = NDArray[np.float64]

USUAL_START, USUAL_HOURS = 12.0, 24.0
_HOUR = 3600.0


def window_of(request: HeatExposureRequest) -> Floats:
    """Return how long each hour of the day lies in the outage, shape (24,) [s]."""
    outage = request.outage
    return _window(
        USUAL_START if outage.start_hour is None else outage.start_hour,
        USUAL_HOURS if outage.hours is None else outage.hours,
    )


@lru_cache(maxsize=256)
def _window(start: float, hours: float) -> Floats:
    return window_hours(start * _HOUR, hours * _HOUR)
