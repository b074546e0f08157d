"""Part of its power that a unit gives at a temperature, by the caller's curve and limits."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]


def power_factor(
    temperature: ArrayLike,
    curve_temperature: ArrayLike,
    curve_factor: ArrayLike,
    lowest: ArrayLike = -np.inf,
    highest: ArrayLike = np.inf,
) -> Floats:
    """Return the part of its rated power that a unit gives.

    Parameters
    ----------
    temperature : array_like, shape (..., N)
        Of the air around it, or the equivalent ambient [K].
    curve_temperature, curve_factor : array_like, shape (P,) or (..., 1, P)
        Points of the curve, rising in temperature, and the factor at each [K, 1]. Two points at
        one temperature make a step, which falls just above it. A curve with fewer points than
        the others repeats its last one.
    lowest, highest : array_like, optional
        Operating limits [K].

    Returns
    -------
    ndarray, shape (..., N)
        0 to 1 [1]: straight between points, the first factor below the first point, nothing above
        the last point and outside the limits. At a limit itself the unit still runs.

    Notes
    -----
    Beyond the last point nothing is known of the unit, and it counts as off. Source: derived; the
    curve is the caller's.
    """
    given = np.asarray(temperature, dtype=np.float64)
    at, part = (np.asarray(x, dtype=np.float64) for x in (curve_temperature, curve_factor))
    found = np.broadcast_to(part[..., 0], np.broadcast_shapes(given.shape, part[..., 0].shape))
    for place in range(at.shape[-1] - 1):
        start, width = at[..., place], at[..., place + 1] - at[..., place]
        slopes = width > 0.0
        way = np.minimum(np.maximum((given - start) / np.where(slopes, width, 1.0), 0.0), 1.0)
        if not slopes.all():
            way = np.where(slopes, way, ~reaches(start, given, "temperature"))
        found = found + (part[..., place + 1] - part[..., place]) * way
    top = np.minimum(at[..., -1], highest)
    runs = reaches(top, given, "temperature") & reaches(given, lowest, "temperature")
    return np.asarray(np.minimum(np.maximum(found, 0.0), 1.0) * runs)
