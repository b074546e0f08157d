"""CSV exports of invented homes, on the wall clock of a home that sets it twice a year."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

PACIFIC = ZoneInfo("America/Los_Angeles")
MIDWINTER = datetime(2025, 1, 1)
HEADER = "Start,Usage (kWh)"


def walls(start: datetime, count: int, minutes: int) -> list[datetime]:
    """Return wall times of readings that follow each other in real time, from a wall time."""
    first = start.replace(tzinfo=PACIFIC).astimezone(UTC)
    return [
        (first + timedelta(minutes=minutes * i)).astimezone(PACIFIC).replace(tzinfo=None)
        for i in range(count)
    ]


def kwh(place: int) -> float:
    """Return an invented energy: what the home uses in the reading of this place."""
    return 0.2 + place % 24 * 0.01


def export(start: datetime, count: int, minutes: int = 60, header: str = HEADER) -> str:
    """Return an export of two columns."""
    rows = [
        f"{wall:%Y-%m-%d %H:%M},{kwh(place):.3f}"
        for place, wall in enumerate(walls(start, count, minutes))
    ]
    return "\n".join((header, *rows)) + "\n"


def sections(start: datetime, count: int, minutes: int = 15, blank: str = " ") -> str:
    """Return an export in sections of a day under repeated headers, after lines of preamble."""
    lines = ["Energy Usage Information", '"For location: 1 Invented Way, Nowhere"', ""]
    header = "Energy consumption time period,Usage(Real energy in kilowatt-hours),Reading quality"
    day = None
    both = walls(start, count + 1, minutes)
    for place, (begin, end) in enumerate(pairwise(both)):
        if begin.date() != day:
            day = begin.date()
            lines += ["", header]
        times = f"{begin:%Y-%m-%d %H:%M:%S}{blank}to {end:%Y-%m-%d %H:%M:%S}"
        lines.append(f'"{times}","{kwh(place):.3f}",""')
    return "\n".join(lines) + "\n"


def table(header: str, rows: Sequence[str]) -> str:
    """Return an export of a header and rows."""
    return "\n".join((header, *rows)) + "\n"
