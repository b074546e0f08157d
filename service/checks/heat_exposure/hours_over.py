"""How many hours are hotter, or colder, than a threshold."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SAME = TOLERANCE["temperature"]


def hours_over(temperature: ArrayLike, thresholds: ArrayLike) -> Ints:
    """Return the number of hours hotter than each threshold.

    Parameters
    ----------
    temperature : array_like, shape (..., N)
        Hourly [K].
    thresholds : array_like, shape (K,)
        [K].

    Returns
    -------
    ndarray of int, shape (K, ...)
        Hours in N hours [h]. An hour at the threshold is not over it.

    Notes
    -----
    Source: derived; a count.
    """
    given = np.asarray(temperature, dtype=np.float64)
    # What a limit reaches within the tolerance is not over it.
    return _counts(given, (given > limit + _SAME for limit in _list(thresholds)))


def hours_under(temperature: ArrayLike, thresholds: ArrayLike) -> Ints:
    """Return the number of hours colder than each threshold.

    Parameters
    ----------
    temperature : array_like, shape (..., N)
        Hourly [K].
    thresholds : array_like, shape (K,)
        [K].

    Returns
    -------
    ndarray of int, shape (K, ...)
        Hours in N hours [h].

    Notes
    -----
    Source: derived; a count.
    """
    given = np.asarray(temperature, dtype=np.float64)
    return _counts(given, (given < limit - _SAME for limit in _list(thresholds)))


def _counts(given: Floats, beyond: Iterable[NDArray[np.bool_]]) -> Ints:
    """Return how many hours are beyond each threshold, shape (K, ...)."""
    each = [np.count_nonzero(one, axis=-1) for one in beyond]
    return np.array(each, dtype=np.int64).reshape(-1, *given.shape[:-1])


def _list(thresholds: ArrayLike) -> list[float]:
    return [float(limit) for limit in np.atleast_1d(np.asarray(thresholds, dtype=np.float64))]
