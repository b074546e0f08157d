"""One year of 8760 hours out of what was metered, the hours that are missing filled and counted."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.calendar_year import HOURS, MONTH_OF_HOUR, NAMES, place_of
from service.load_profile.hours import Hours
from service.load_profile.readings import Floats

#: Metered values that each hour of day of a month must have (common practice, no source).
_LEAST_DAYS = 3


class Year(NamedTuple):
    """A year of 8760 hours of mean power [W], and how much of it was filled."""

    watts: Floats
    filled: int
    partly: int
    first_hour: int
    last_hour: int


def months_without(hours: Hours) -> list[str]:
    """Return the months that have too few days metered to stand for a month.

    Notes
    -----
    Source: own rule, common practice: every hour of day [h] of the month is metered on three days.
    """
    counts = _by_month_and_hour(hours)
    return [NAMES[m] for m in range(12) if counts[m].min() < _LEAST_DAYS]


def year_of(hours: Hours) -> Year | None:
    """Return the year, None where a month has no data.

    Parameters
    ----------
    hours : Hours
        Metered hours of local standard time, mean power [W].

    Notes
    -----
    Source: own rule, common practice. Each hour of the year is that of the last 365 days metered;
    29 February is dropped. An hour that was not metered takes the median of the metered hours of
    the same month at the same hour of day.
    """
    if months_without(hours):
        return None
    places = place_of(hours.numbers)
    counted = np.flatnonzero(places >= 0)
    last = counted[-HOURS:]
    recent = last[hours.known[last]]
    watts = np.zeros(HOURS)
    known = np.zeros(HOURS, dtype=np.bool_)
    watts[places[recent]] = hours.watts[recent]
    known[places[recent]] = True
    missing = np.flatnonzero(~known)
    medians = shapes_of(hours, median=True)
    watts[missing] = medians[MONTH_OF_HOUR[missing], missing % 24]
    return Year(
        watts,
        len(missing),
        int(hours.partly[recent].sum()),
        hours.first + int(recent.min()),
        hours.first + int(recent.max()),
    )


def shapes_of(hours: Hours, *, median: bool) -> Floats:
    """Return mean or median power by month and hour of day, of shape (12, 24) [W]; NaN: none.

    Source: statistics of the metered hours.
    """
    places = place_of(hours.numbers)
    chosen = hours.known & (places >= 0)
    group = MONTH_OF_HOUR[places[chosen]] * 24 + places[chosen] % 24
    order = np.argsort(group, kind="stable")
    values = hours.watts[chosen][order]
    cuts = np.searchsorted(group[order], np.arange(12 * 24 + 1))
    middle = np.median if median else np.mean
    shaped = [
        float(middle(values[a:b])) if b > a else float("nan")
        for a, b in zip(cuts[:-1].tolist(), cuts[1:].tolist(), strict=True)
    ]
    return np.array(shaped).reshape(12, 24)


def _by_month_and_hour(hours: Hours) -> Floats:
    places = place_of(hours.numbers)
    chosen = hours.known & (places >= 0)
    group = MONTH_OF_HOUR[places[chosen]] * 24 + places[chosen] % 24
    return np.bincount(group, minlength=12 * 24).reshape(12, 24).astype(np.float64)
