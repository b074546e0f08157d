"""What a tree, or a shade known only by its hours, lets through of the beam."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_DAYS: Final = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_HOURS_PER_DAY: Final = 24


def month_of_hour() -> Ints:
    """Return the month of every hour of the 365-day year.

    Returns
    -------
    ndarray of int, shape (8760,)
        0 in January [1].

    Notes
    -----
    Source: derived; the calendar.
    """
    return np.repeat(np.arange(12), np.array(_DAYS) * _HOURS_PER_DAY)


def part_of_hour_within(hour: ArrayLike, start: ArrayLike, end: ArrayLike) -> Floats:
    """Return what part of each hour of the day lies between two times.

    Parameters
    ----------
    hour : array_like, shape (N,)
        Beginning of the hour, counted from any midnight [h].
    start, end : array_like, shape () or (..., 1)
        Times of the day, 0 to 24; an end before the start lies past midnight [h].

    Returns
    -------
    ndarray, shape (..., N)
        0 to 1 [1].

    Notes
    -----
    Source: derived; overlap of two intervals on a clock.
    """
    first = np.asarray(hour, np.float64) % _HOURS_PER_DAY
    begin, stop = np.asarray(start, np.float64), np.asarray(end, np.float64)
    stop = np.where(stop < begin, stop + _HOURS_PER_DAY, stop)
    found: Floats = np.zeros(np.broadcast_shapes(first.shape, stop.shape))
    for turn in (0.0, float(_HOURS_PER_DAY)):
        low = np.maximum(first + turn, begin)
        found = found + np.maximum(np.minimum(first + turn + 1.0, stop) - low, 0.0)
    return found


def beam_through(
    month: ArrayLike,
    hour: ArrayLike,
    by_month: ArrayLike,
    start: ArrayLike = 0.0,
    end: ArrayLike = 24.0,
) -> Floats:
    """Return the part of the beam that a shade with a calendar lets through.

    Parameters
    ----------
    month : array_like of int, shape (N,)
        Month of each hour, 0 in January [1].
    hour : array_like, shape (N,)
        Beginning of each hour [h].
    by_month : array_like, shape (..., 12)
        Part let through while the shade is there; 1 in the months without it [1].
    start, end : array_like, shape () or (..., 1), optional
        Times of the day between which it shades, local standard time [h].

    Returns
    -------
    ndarray, shape (..., N)
        0 to 1 [1].

    Notes
    -----
    Source: derived; the caller says what the tree lets through.
    """
    parts = np.take(np.asarray(by_month, np.float64), np.asarray(month), axis=-1)
    return np.asarray(1.0 - (1.0 - parts) * part_of_hour_within(hour, start, end))
