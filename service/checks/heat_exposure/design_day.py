"""Temperatures of a design day that the caller states by its highest value and range."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.design_day_profile import range_parts

Floats = NDArray[np.float64]


def design_dry_bulb(highest: ArrayLike, daily_range: ArrayLike) -> Floats:
    """Return the air temperature on the hours of a design day.

    Parameters
    ----------
    highest : array_like, any shape
        Highest temperature of the day [K].
    daily_range : array_like, any shape
        Highest less lowest [K].

    Returns
    -------
    ndarray, shape (..., 24)
        At midnight, at one in the morning and so on, local standard time [K].

    Notes
    -----
    Source: ASHRAE Handbook Fundamentals 2021, chapter 14, table 6 (secondary), in table
    design_day_profile.
    """
    top = np.asarray(highest, dtype=np.float64)[..., np.newaxis]
    spread = np.asarray(daily_range, dtype=np.float64)[..., np.newaxis]
    return np.asarray(top - spread * np.array(range_parts()))
