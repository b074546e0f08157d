"""Power and energy that heat leaves a unit through the hours of an outage."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_HOURS: Final = 24
_HOUR: Final = 3600.0


class WindowLeft(NamedTuple):
    """What is left in the window, shape (...).

    Attributes
    ----------
    least_power, mean_power : ndarray
        Least and mean power that the unit can give [W].
    energy : ndarray
        Most that it can give in the window, no more than it holds [J].
    off : ndarray
        Time for which it gives nothing [s].
    """

    least_power: Floats
    mean_power: Floats
    energy: Floats
    off: Floats


def window_hours(start: ArrayLike, length: ArrayLike) -> Floats:
    """Return how long each hour of the day lies in a window.

    Parameters
    ----------
    start : array_like, any shape
        Time of the day at which it begins, local standard time [s].
    length : array_like, any shape
        May be longer than a day: the day then repeats [s].

    Returns
    -------
    ndarray, shape (..., 24)
        [s].

    Notes
    -----
    Source: derived; overlap of a window with every day's hour.
    """
    begin = np.asarray(start, dtype=np.float64)[..., np.newaxis] / _HOUR
    end = begin + np.asarray(length, dtype=np.float64)[..., np.newaxis] / _HOUR
    return np.asarray((_passed(end) - _passed(begin)) * _HOUR)


def window_left(
    factor: ArrayLike,
    window: ArrayLike,
    rated_power: ArrayLike,
    usable_energy: ArrayLike,
    load: ArrayLike = np.inf,
) -> WindowLeft:
    """Return what a unit can give through an outage.

    Parameters
    ----------
    factor : array_like, shape (..., 24)
        Part of its power by hour of the day, as from `power_factor` [1].
    window : array_like, shape (..., 24)
        Length of each hour within the outage, as from `window_hours` [s].
    rated_power : array_like, shape (...)
        [W].
    usable_energy : array_like, shape (...)
        [J].
    load : array_like, shape () or (..., 24), optional
        What the home takes; infinite asks for all that the unit can give [W].

    Returns
    -------
    WindowLeft
        [W, J, s]; a window of no length has the power of no hour: 0.

    Notes
    -----
    Source: derived; each hour at the power of its temperature.
    """
    part, held = np.asarray(factor, np.float64), np.asarray(window, np.float64)
    power = part * np.asarray(rated_power, np.float64)[..., np.newaxis]
    total = held.sum(axis=-1)
    least = np.min(np.where(held > 0.0, power, np.inf), axis=-1)
    mean = np.sum(power * held, axis=-1) / np.where(total > 0.0, total, 1.0)
    given = np.sum(np.minimum(power, load) * held, axis=-1)
    return WindowLeft(
        np.asarray(np.where(total > 0.0, least, 0.0)),
        np.asarray(mean),
        np.asarray(np.minimum(given, usable_energy)),
        np.asarray(np.sum(held * (part <= 0.0), axis=-1)),
    )


def _passed(time: Floats) -> Floats:
    """Return how much of each hour of the day has passed since midnight of the first [h]."""
    days = np.floor(time / _HOURS)
    return np.asarray(days + np.clip(time - days * _HOURS - np.arange(_HOURS), 0.0, 1.0))
