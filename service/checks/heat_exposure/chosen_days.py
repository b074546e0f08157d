"""Days of a typical year that stand for the hottest percentile, the hottest month and a usual day.

All are days as they stand in the year, so that air and light belong together. A typical year has
no extremes: its monthly percentiles lie about 2 K below those of design handbooks, at some places
6 K; see table heat_defaults.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_HOURS: Final = 24
#: The 0.4 % dry bulb: the temperature that 35 hours of a year exceed.
_PERCENTILE: Final = 99.6
#: First day of every month, and the day after the last.
_STARTS: Final = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
#: Far below what a record of temperature resolves [K].
_SAME: Final = 1e-6


def hottest_percentile_day(dry_bulb: Floats, dni: Floats) -> int:
    """Return the sunniest of the days that reach the year's 0.4 % dry bulb.

    Parameters
    ----------
    dry_bulb : ndarray, shape (8760,)
        Air temperature [K].
    dni : ndarray, shape (8760,)
        Direct normal irradiance [W/m2].

    Returns
    -------
    int
        Day, 0 on 1 January [d].

    Notes
    -----
    Sunniest by the sum of the direct irradiance, the earlier day where two are alike: a hot day
    under cloud would hide the sun on the faces. Source: derived, our own choice; the percentile is
    that of ASHRAE Handbook Fundamentals, chapter 14 (secondary).
    """
    return _sunniest_reaching(dry_bulb, dni, 0, 365)


def hottest_month(dry_bulb: Floats) -> int:
    """Return the month whose own 0.4 % dry bulb is the highest, the earlier where two are alike.

    Parameters
    ----------
    dry_bulb : ndarray, shape (8760,)
        Air temperature [K].

    Returns
    -------
    int
        Month, 0 in January [1].

    Notes
    -----
    Near the coast this is often September or October. Source: as `hottest_percentile_day`.
    """
    days = dry_bulb.reshape(-1, _HOURS)
    values = [np.percentile(month, _PERCENTILE) for month in np.split(days, _STARTS[1:-1])]
    return int(np.argmax(values))


def hottest_month_day(dry_bulb: Floats, dni: Floats) -> int:
    """Return the sunniest of the hottest month's days that reach that month's 0.4 % dry bulb.

    Parameters
    ----------
    dry_bulb : ndarray, shape (8760,)
        Air temperature [K].
    dni : ndarray, shape (8760,)
        Direct normal irradiance [W/m2].

    Returns
    -------
    int
        Day, 0 on 1 January [d].

    Notes
    -----
    Source: as `hottest_percentile_day`.
    """
    month = hottest_month(dry_bulb)
    return _sunniest_reaching(dry_bulb, dni, int(_STARTS[month]), int(_STARTS[month + 1]))


def usual_day(dry_bulb: Floats, dni: Floats, month: int | None = None) -> int:
    """Return the day in the middle of a year, or of a month, by its mean temperature.

    Parameters
    ----------
    dry_bulb : ndarray, shape (8760,)
        Air temperature [K].
    dni : ndarray, shape (8760,)
        Direct normal irradiance [W/m2].
    month : int, optional
        0 in January; none for the whole year [1].

    Returns
    -------
    int
        Day, 0 on 1 January [d].

    Notes
    -----
    Of the days whose mean temperature lies within 1 K of the median of the days, the one whose
    direct irradiance is nearest to the median of the days; the day nearest in temperature where
    none lies so close. Source: derived, our own choice.
    """
    first, past = (0, 365) if month is None else (int(_STARTS[month]), int(_STARTS[month + 1]))
    mean = dry_bulb.reshape(-1, _HOURS)[first:past].mean(axis=1)
    sun = dni.reshape(-1, _HOURS)[first:past].sum(axis=1)
    off = np.abs(mean - np.median(mean))
    near = off <= max(1.0, float(off.min()))
    return first + int(np.argmin(np.where(near, np.abs(sun - np.median(sun)), np.inf)))


def hours_of_day(values: Floats, day: int) -> Floats:
    """Return the hours of one day, shape (..., 24), of values over a year, in their own unit [1].

    Notes
    -----
    Source: derived.
    """
    return np.asarray(values[..., day * _HOURS : (day + 1) * _HOURS])


def _sunniest_reaching(dry_bulb: Floats, dni: Floats, first: int, past: int) -> int:
    """Return the sunniest of some days that reach the 0.4 % dry bulb of those days."""
    days = dry_bulb.reshape(-1, _HOURS)[first:past]
    reached = days.max(axis=1) >= np.percentile(days, _PERCENTILE) - _SAME
    sun = dni.reshape(-1, _HOURS)[first:past].sum(axis=1)
    return first + int(np.argmax(np.where(reached, sun, -1.0)))
