"""Wall time to local standard time: the hour that is missing in March, the one twice in November.

Source: Energy Policy Act of 2005, section 110 (Public Law 109-58): daylight saving time from the
second Sunday of March to the first Sunday of November, at 2 o'clock.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.readings import DAY, HOUR, Mask, Whole

#: Weekday of 1970-01-01 with Monday 0.
_THURSDAY = 3
_SUNDAY = 6


class Switches(NamedTuple):
    """The two switches of one year, as wall times at which the clock is set [s]."""

    spring: int
    autumn: int


def switches_of(year: int) -> Switches:
    """Return the wall times, 2 o'clock of both days, at which the clock is set [s since 1970].

    References
    ----------
    .. [1] Energy Policy Act of 2005, Public Law 109-58, section 110.
    """
    march = _first_sunday(year, 3) + 7 * DAY
    return Switches(march + 2 * HOUR, _first_sunday(year, 11) + 2 * HOUR)


def _first_sunday(year: int, month: int) -> int:
    first = int(np.datetime64(f"{year:04d}-{month:02d}-01", "D").astype(np.int64))
    return (first + (_SUNDAY - (first + _THURSDAY)) % 7) * DAY


def standard_time(
    wall: Whole, energy_is_zero: Mask, saving: bool | None
) -> tuple[Whole, Mask, bool]:
    """Return local standard time, the readings that have none, and whether the clock is set.

    Parameters
    ----------
    wall : ndarray of int64
        Wall times in the order of the document [s since 1970].
    energy_is_zero : ndarray of bool
        Readings of nothing, as some exports fill the hour that is missing in spring.
    saving : bool or None
        Whether the clock is set twice a year; None: as the document shows it.

    Returns
    -------
    ndarray of int64
        Local standard times [s].
    ndarray of bool
        Readings in the hour that the clock skipped.
    bool
        Whether the clock is set twice a year.

    Notes
    -----
    Source: Public Law 109-58, section 110. Inside the repeated hour the first time a wall time
    stands in the document it is daylight saving time, then standard time.
    """
    shift = np.zeros_like(wall)
    skipped = np.zeros(len(wall), dtype=np.bool_)
    years = range(*_years(wall))
    is_set = _is_set(wall, energy_is_zero, years) if saving is None else saving
    if not is_set:
        return wall, skipped, False
    for year in years:
        spring, autumn = switches_of(year)
        skipped |= (wall >= spring) & (wall < spring + HOUR)
        in_summer = (wall >= spring + HOUR) & (wall < autumn - HOUR)
        twice = (wall >= autumn - HOUR) & (wall < autumn)
        shift[in_summer | (twice & _first_time(wall, twice))] = HOUR
    return wall - shift, skipped, True


def _years(wall: Whole) -> tuple[int, int]:
    first, last = (np.datetime64(int(t), "s").astype("datetime64[Y]") for t in _ends(wall))
    return int(first.astype(np.int64)) + 1970, int(last.astype(np.int64)) + 1971


def _ends(wall: Whole) -> tuple[int, int]:
    return int(wall.min()), int(wall.max())


def _is_set(wall: Whole, energy_is_zero: Mask, years: range) -> bool:
    """Return whether the clock is set: no energy stands in a skipped hour, or an hour is twice."""
    for year in years:
        spring, autumn = switches_of(year)
        twice = wall[(wall >= autumn - HOUR) & (wall < autumn)]
        if len(np.unique(twice)) < len(twice):
            return True
        if bool(np.any((wall >= spring) & (wall < spring + HOUR) & ~energy_is_zero)):
            return False
    return True


def _first_time(wall: Whole, chosen: Mask) -> Mask:
    """Return where a chosen wall time stands for the first time."""
    places = np.flatnonzero(chosen)
    _, first = np.unique(wall[places], return_index=True)
    mask = np.zeros(len(wall), dtype=np.bool_)
    mask[places[first]] = True
    return mask
