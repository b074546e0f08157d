"""Readings of one kind put together to stretches of time, for the answer."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import numpy as np

from service.load_profile.answer_parts import Span
from service.load_profile.readings import HOUR, Readings, Whole

#: Spans of a kind that are listed one by one.
LISTED = 50


def time_text(moment: int, offset: int) -> str:
    """Return a moment of local standard time [s] with its offset [s]. Source: RFC 3339."""
    wall = datetime.fromtimestamp(0, UTC) + timedelta(seconds=moment)
    sign = "-" if offset < 0 else "+"
    hours, rest = divmod(abs(offset), HOUR)
    return f"{wall:%Y-%m-%dT%H:%M:%S}{sign}{hours:02d}:{rest // 60:02d}"


def span(kind: str, start: int, end: int, offset: int, readings: int, done: str) -> Span:
    """Return one span; times in local standard time [s]. Source: its arguments."""
    return Span(
        kind=kind,
        start=time_text(start, offset),
        end=time_text(end, offset),
        hours=(end - start) / HOUR,
        readings=readings,
        done=done,
    )


def spans_of(made: Readings, kind: str, offset: int, done: str) -> list[Span]:
    """Return the first stretches without a break, `offset` [s]. Source: the readings."""
    return [
        span(kind, start, end, offset, count, done)
        for start, end, count in _stretches(made.start, made.end)
    ]


def _stretches(start: Whole, end: Whole) -> Iterator[tuple[int, int, int]]:
    if not len(start):
        return
    reached = np.maximum.accumulate(end)
    cuts = np.flatnonzero(start[1:] > reached[:-1]) + 1
    firsts = np.concatenate([[0], cuts])
    lasts = np.concatenate([cuts, [len(start)]])
    for first, after in list(zip(firsts.tolist(), lasts.tolist(), strict=True))[:LISTED]:
        yield int(start[first]), int(reached[after - 1]), after - first
