"""Air in a closed, uncooled garage."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.tree_shade import part_of_hour_within
from service.published.garage_offsets import GarageOffset

Floats = NDArray[np.float64]


def garage_air(outdoor: ArrayLike, hour: ArrayLike, offset: GarageOffset) -> Floats:
    """Return the air temperature in a garage, from the low to the high reading.

    Parameters
    ----------
    outdoor : array_like, shape (..., N)
        Air temperature outside [K].
    hour : array_like, shape (N,)
        Beginning of each hour, counted from any midnight [h].
    offset : GarageOffset
        Hours of the afternoon [h] and the excess then [K].

    Returns
    -------
    ndarray, shape (3, ..., N)
        Low, typical and high [K].

    Notes
    -----
    Outside the afternoon the excess runs from 0 to the afternoon's low value, half of it being
    typical. No sun reaches the unit. Source: table garage_offsets (common practice, no source).
    """
    air = np.asarray(outdoor, dtype=np.float64)
    inside = part_of_hour_within(hour, offset.from_hour, offset.to_hour)
    afternoon = np.array([offset.low, offset.typical, offset.high])
    otherwise = np.array([0.0, 0.5 * offset.low, offset.low])
    shape = (3,) + (1,) * air.ndim
    low_to_high = inside * afternoon.reshape(shape) + (1.0 - inside) * otherwise.reshape(shape)
    return np.asarray(air + low_to_high)
