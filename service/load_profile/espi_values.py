"""The readings of one series: times filled in, registers differenced, everything in joule."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from service.load_profile.espi_feed import Block, Feed, number, whole
from service.load_profile.espi_series import Series
from service.load_profile.readings import (
    J_PER_WH,
    LATEST,
    NO_READINGS,
    Floats,
    Mask,
    Readings,
    Unread,
    Whole,
    readings,
)

#: Largest number that a reading may state, in whatever unit.
_LARGEST = 1e12
#: Longest reading that is taken for one: a month and a day [s].
_LONGEST = 32 * 86_400
#: Unreadable readings that are named one by one.
_NAMED = 20


def values_of(feed: Feed, series: Series) -> tuple[Readings, list[Unread], int]:
    """Return the readings of the series in UTC, and what could not be read.

    Returns
    -------
    Readings
        Start [s since 1970 UTC], length [s], energy [J].
    list of Unread
        The first readings that could not be read.
    int
        How many there are.

    Notes
    -----
    Source: ESPI 1.1, where a reading is its value times ten to the power that its type states.
    """
    start, length, value, issued = _columns(feed, series)
    readable = (
        (start >= 0) & (start < LATEST) & (length >= 0) & (length <= _LONGEST)
    ) & _in_bounds(value)
    places = _places(series)
    bad = np.flatnonzero(~readable)
    unread = [
        Unread(f"reading {places[i] + 1}", _why(value[i], int(start[i]), int(length[i])))
        for i in bad[:_NAMED].tolist()
    ]
    kept = readings(start[readable], length[readable], value[readable], issued[readable])
    made = _from_registers(kept) if series.is_cumulative else kept
    timed = made.where(made.length > 0)
    return _in_joule(timed, series), unread, len(bad)


def _in_joule(made: Readings, series: Series) -> Readings:
    scale = 10.0 ** series.type.get("powerOfTenMultiplier", 0)
    joule = made.energy * scale * (made.length if series.is_demand else J_PER_WH)
    sane = np.isfinite(joule) & (np.abs(joule) <= _LARGEST * J_PER_WH)
    return readings(made.start, made.length, joule, made.issued).where(sane)


def _in_bounds(value: Floats) -> Mask:
    with np.errstate(invalid="ignore"):
        inside: Mask = np.abs(value) <= _LARGEST
    return inside


def _why(value: float, start: int, length: int) -> str:
    if not abs(value) <= _LARGEST:
        return "its value is no number of a meter"
    return "its start is no time" if not 0 <= start < LATEST else f"its length is {length} s"


def _places(series: Series) -> Whole:
    spans = [np.arange(block.first, block.after) for block in series.blocks]
    return np.concatenate(spans) if spans else np.zeros(0, dtype=np.int64)


def _columns(feed: Feed, series: Series) -> tuple[Whole, Whole, Floats, Whole]:
    """Return start, length, value and issue of the series' readings; -1 and NaN: not readable."""
    start: list[int] = []
    length: list[int] = []
    value: list[float] = []
    issued: list[int] = []
    usual = series.type.get("intervalLength", -1)
    for block in series.blocks:
        span = slice(block.first, block.after)
        starts, lengths = feed.start[span], feed.length[span]
        if None in starts or None in lengths:
            timed = list(_timed(block, starts, lengths, usual))
            start += [at for at, _ in timed]
            length += [lasting for _, lasting in timed]
        else:
            start += _all_whole(starts)
            length += _all_whole(lengths)
        value += _all_numbers(feed.value[span])
        issued += [block.issued] * (block.after - block.first)
    return (
        np.array(start, dtype=np.int64),
        np.array(length, dtype=np.int64),
        np.array(value, dtype=np.float64),
        np.array(issued, dtype=np.int64),
    )


def _all_whole(texts: Sequence[str | None]) -> list[int]:
    try:
        read = list(map(int, texts))  # type: ignore[arg-type]  # None fails as a text does
        if min(read, default=0) >= 0 and max(read, default=0) <= LATEST:
            return read
    except (TypeError, ValueError):
        pass
    return [_bounded(whole(text)) for text in texts]


def _all_numbers(texts: Sequence[str | None]) -> list[float]:
    try:
        return list(map(float, texts))  # type: ignore[arg-type]  # None fails as a text does
    except (TypeError, ValueError):
        return [number(text) for text in texts]


def _timed(
    block: Block, starts: Sequence[str | None], lengths: Sequence[str | None], usual: int
) -> Iterator[tuple[int, int]]:
    """Yield start and length; a reading without a time follows the one before it."""
    cursor = _bounded(block.fields.get("start"))
    for at, lasting in zip(starts, lengths, strict=True):
        begin = cursor if at is None else _bounded(whole(at))
        length = _bounded(usual if lasting is None else whole(lasting))
        yield begin, length
        cursor = begin + length if begin >= 0 and length >= 0 else -1


def _bounded(read: int | None) -> int:
    return read if read is not None and 0 <= read <= LATEST else -1


def _from_registers(register: Readings) -> Readings:
    """Return the energy between successive states of a register.

    A state stands for the end of its time period (from memory, not verified). A register that
    went back, because it was exchanged or rolled over, tells nothing of that interval.
    """
    if len(register) < 2:
        return NO_READINGS
    order = np.lexsort((register.issued, register.end))
    ordered = register.where(order)
    last_of_time = np.append(ordered.end[1:] != ordered.end[:-1], True)
    states = ordered.where(last_of_time)
    grown = np.diff(states.energy)
    between = readings(states.end[:-1], np.diff(states.end), grown, states.issued[1:])
    return between.where(grown >= 0)
