"""How much of a straight line's course lies within bounds."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def mean_within(first: Floats, last: Floats, limit: Floats) -> Floats:
    """Return the mean, over a straight course, of the value cut off at 0 and at a limit.

    Parameters
    ----------
    first, last : ndarray, any shape
        Values at the two ends of the course [m].
    limit : ndarray
        Above 0 [m].

    Returns
    -------
    ndarray
        0 to the limit [m].

    Notes
    -----
    Source: derived; the integral of a straight line between its bounds.
    """
    span = last - first
    flat = np.abs(span) < 1e-12
    mean = (_area(last, limit) - _area(first, limit)) / np.where(flat, 1.0, span)
    mean = np.where(flat, np.minimum(np.maximum(first, 0.0), limit), mean)
    # Far outside, the difference of two large areas would lose its digits.
    mean = np.where(np.minimum(first, last) >= limit, limit, mean)
    return np.where(np.maximum(first, last) <= 0.0, 0.0, mean)


def _area(value: Floats, limit: Floats) -> Floats:
    within = np.minimum(np.maximum(value, 0.0), limit)
    return 0.5 * within * within + limit * np.maximum(value - limit, 0.0)
