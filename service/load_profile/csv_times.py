"""Times as exports write them: ISO or US dates, 24 hours or AM and PM, with or without offset."""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache

from service.load_profile.readings import DAY

_EPOCH = date(1970, 1, 1).toordinal()
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_US = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?\s?([ap])?\.?m?\.?", re.I)
_OFFSET = re.compile(r"(Z|[+-]\d{2}:?\d{2})$")
#: First year of a date of two digits that belongs to the last century.
_CENTURY = 70


@lru_cache(4096)
def day_of(text: str) -> int | None:
    """Return the midnight of a date [s since 1970], None where the text is no date."""
    if iso := _ISO.fullmatch(text):
        year, month, day = int(iso[1]), int(iso[2]), int(iso[3])
    elif us := _US.fullmatch(text):
        month, day, year = int(us[1]), int(us[2]), int(us[3])
        if len(us[3]) == 2:
            year += 1900 if year >= _CENTURY else 2000
    else:
        return None
    try:
        return (date(year, month, day).toordinal() - _EPOCH) * DAY
    except ValueError:
        return None


@lru_cache(4096)
def clock_of(text: str) -> int | None:
    """Return a time of day [s after midnight], None where the text is none; 24:00 is the end."""
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        return None
    hour, minute, second = int(found[1]), int(found[2]), int(found[3] or 0)
    half = (found[4] or "").lower()
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    total = hour * 3600 + minute * 60 + second
    return total if minute < 60 and second < 60 and total <= DAY else None


def moment_of(text: str) -> tuple[int, int | None] | None:
    """Return a date with its time of day [s since 1970], and the offset it states [s].

    Returns
    -------
    tuple of int and int or None, or None
        The wall time, and the offset from UTC where one is written; None: the text is no time.
    """
    day_text, blank, clock_text = text.strip().partition(" ")
    if not blank and "T" in text:
        day_text, _, clock_text = day_text.partition("T")
    day = day_of(day_text)
    if day is None:
        return None
    if not clock_text:
        return day, None
    clock = clock_of(clock_text)
    if clock is not None:
        return day + clock, None
    offset = _OFFSET.search(clock_text)
    clock = clock_of(clock_text[: offset.start()]) if offset else None
    return None if clock is None or offset is None else (day + clock, _seconds(offset[1]))


def _seconds(offset: str) -> int:
    if offset == "Z":
        return 0
    sign = -1 if offset[0] == "-" else 1
    digits = offset[1:].replace(":", "")
    return sign * (int(digits[:2]) * 3600 + int(digits[2:]) * 60)
