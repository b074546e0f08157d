"""Power of heating and cooling units from the outdoor temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Thermal power of a ton of refrigeration [Btu/h].
BTU_PER_HOUR_A_TON = 12_000.0
#: Outdoor temperature at which a cooling unit is rated, 35 degC [K].
RATING_OUTDOOR = 308.15
#: Hour of the day at which it is hottest [h]. Standing: common practice.
_HOTTEST_HOUR = 15.0


def rated_power(tons: ArrayLike, ratio: ArrayLike) -> Floats:
    """Electric power of a unit from its capacity and its efficiency ratio.

    Parameters
    ----------
    tons : array_like
        Capacity in tons of 12,000 Btu/h.
    ratio : array_like
        Energy efficiency ratio [Btu/(W h)].

    Returns
    -------
    ndarray
        [W].

    References
    ----------
    Definition of the energy efficiency ratio.
    """
    capacity = BTU_PER_HOUR_A_TON * np.asarray(tons, dtype=np.float64)
    return np.asarray(capacity / np.asarray(ratio, dtype=np.float64))


def duty(outdoor: Floats, balance: ArrayLike, design: ArrayLike, oversize: ArrayLike) -> Floats:
    """Part of the time that a unit runs to hold the indoor temperature.

    Parameters
    ----------
    outdoor : ndarray, shape (..., N)
        Outdoor temperature [K].
    balance, design : array_like
        Outdoor temperature at which nothing is needed, and the one it was sized for [K]: above the
        balance for cooling, below it for heating.
    oversize : array_like
        Capacity over the need at design [1], at least 1.

    Returns
    -------
    ndarray, shape (..., N)
        [1], in [0, 1]: in proportion to the difference to the balance temperature.

    References
    ----------
    Degree-hour method; own form, common practice.
    """
    nothing = np.asarray(balance, dtype=np.float64)
    need = (outdoor - nothing) / (np.asarray(design, dtype=np.float64) - nothing)
    return np.asarray(np.clip(need / np.asarray(oversize, dtype=np.float64), 0.0, 1.0))


def cooling_power(outdoor: Floats, rated: ArrayLike, slope: float, least: float) -> Floats:
    """Electric power of a running cooling unit.

    Parameters
    ----------
    outdoor : ndarray, shape (..., N)
        Outdoor temperature [K].
    rated : array_like
        Power at 35 degC outdoors [W].
    slope : float
        Rise of the power per kelvin, as a part of the rated power [1/K].
    least : float
        Least power as a part of the rated power [1].

    Returns
    -------
    ndarray, shape (..., N)
        [W].

    References
    ----------
    Common practice: about 1 % more power a kelvin.
    """
    part = np.maximum(1.0 + slope * (outdoor - RATING_OUTDOOR), least)
    return np.asarray(np.asarray(rated, dtype=np.float64) * part)


def design_day(mean: float, swing: float) -> Floats:
    """Temperature of a day that is hottest at 15 h, in the middle of each hour.

    Parameters
    ----------
    mean, swing : float
        Mean, and difference between the hottest and the coldest time [K].

    Returns
    -------
    ndarray, shape (24,)
        [K].

    References
    ----------
    Cosine day, common practice.
    """
    hours = np.arange(24) + 0.5
    return np.asarray(mean + 0.5 * swing * np.cos(2.0 * np.pi * (hours - _HOTTEST_HOUR) / 24.0))
