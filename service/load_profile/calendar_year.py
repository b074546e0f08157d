"""Hours by their place in a year of 365 days and by month."""

from __future__ import annotations

import numpy as np

from service.load_profile.readings import Whole

HOURS = 8760
_TO_LEAP_DAY = 59
#: First day of each month in a year of 365 days.
MONTH_STARTS = np.array([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365])
#: Month, 0 to 11, of every hour of the year.
MONTH_OF_HOUR = np.repeat(np.arange(12), np.diff(MONTH_STARTS) * 24)
NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def place_of(hour: Whole) -> Whole:
    """Return the place of hours [h since 1970] in a year of 365 days [h], -1 on 29 February.

    Source: Gregorian calendar.
    """
    day = hour // 24
    dates = day.astype("datetime64[D]")
    years = dates.astype("datetime64[Y]")
    of_year = (dates - years.astype("datetime64[D]")).astype(np.int64)
    number = years.astype(np.int64) + 1970
    leap = (number % 4 == 0) & ((number % 100 != 0) | (number % 400 == 0))
    shifted = of_year - (leap & (of_year > _TO_LEAP_DAY))
    place = shifted * 24 + hour % 24
    return np.where(leap & (of_year == _TO_LEAP_DAY), -1, place)


def month_of(start: Whole) -> Whole:
    """Return the month of times [s since 1970], counted from January 1970.

    Source: Gregorian calendar.
    """
    return start.astype("datetime64[s]").astype("datetime64[M]").astype(np.int64)
