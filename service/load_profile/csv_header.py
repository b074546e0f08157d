"""What the header row of an export says of its columns: by the words in it, whoever made it.

Common practice, no source: exports of utilities have no common layout, so columns are known by the
words of the trade that head them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

#: Words of units -> joules per 1, or None for power; the first that fits counts.
_ENERGY = (
    (re.compile(r"\bkwhs?\b|kilo-?\s?watt[\s-]?hours?"), 3.6e6),
    (re.compile(r"\bmwhs?\b|mega-?\s?watt[\s-]?hours?"), 3.6e9),
    (re.compile(r"\bwhs?\b|\bwatt[\s-]?hours?"), 3600.0),
)
_POWER = (
    (re.compile(r"\bkw\b|kilo-?\s?watts?\b"), 1000.0),
    (re.compile(r"\bw\b|\bwatts?\b"), 1.0),
)
_NOT_ELECTRIC = re.compile(r"\btherms?\b|\bgas\b|\bccf\b|\bcubic\b|\bgallons?\b|\bwater\b|\bbtu\b")
_SENT = re.compile(r"generat|received|export|surplus|produc|to grid|sent")
_NET = re.compile(r"\bnet\b")
_USED = re.compile(r"usage|used|consum|delivered|import|from grid|energy|demand|load|value|reading")
_IGNORED = re.compile(r"quality|cost|charge|price|rate|\$|temp|note|flag|type|account|address|name")
_TIME = re.compile(r"date|time|\bstart|\bbegin|\bend\b|\bending\b|period|interval|hour")


@dataclass(frozen=True, slots=True)
class Unit:
    """What one of the column's numbers is: joules, or watts where it is power."""

    scale: float
    is_power: bool


@dataclass(frozen=True, slots=True)
class Columns:
    """Places of the columns of one section; -1 where it has none.

    ``start`` may hold a whole time, a range "from to to", or a date beside ``clock``.
    """

    start: int
    clock: int
    end: int
    drawn: int
    sent: int
    unit: int
    #: Places of the columns with numbers: of what was drawn, then of what was sent.
    values: tuple[int, ...]
    #: Last column that a row must have.
    last: int
    #: Unit that the header names.
    own_unit: Unit | None


def unit_of(words: str) -> Unit | None:
    """Return the unit that the words name, None where they name none."""
    text = words.lower()
    for pattern, scale in _ENERGY:
        if pattern.search(text):
            return Unit(scale, is_power=False)
    for pattern, scale in _POWER:
        if pattern.search(text):
            return Unit(scale, is_power=True)
    return None


def is_not_electric(row: Sequence[str]) -> bool:
    """Return whether the header is that of another service's readings."""
    return any(_NOT_ELECTRIC.search(cell.lower()) for cell in row) and not any(
        unit_of(cell) for cell in row
    )


def header_of(row: Sequence[str]) -> Columns | None:
    """Return the columns that a row heads, None where it heads none."""
    cells = [cell.strip().lower() for cell in row]
    if len(cells) < 2 or any(_starts_with_digit(cell) for cell in cells):
        return None
    times = [place for place, cell in enumerate(cells) if _is_time(cell)]
    values = [p for p, cell in enumerate(cells) if p not in times and _is_value(cell)]
    if not times or not values:
        return None
    start, clock, end = _time_places(cells, times)
    used = _first(values, cells, lambda c: not _SENT.search(c) and not _NET.search(c))
    sent = _first(values, cells, lambda c: bool(_SENT.search(c)))
    net = _first(values, cells, lambda c: bool(_NET.search(c)) and not _SENT.search(c))
    drawn = used if used >= 0 else net
    numbers = tuple(place for place in (drawn, sent) if place >= 0)
    return Columns(
        start=start,
        clock=clock,
        end=end,
        drawn=drawn,
        sent=sent,
        unit=_first(range(len(cells)), cells, lambda c: c in ("unit", "units", "uom")),
        values=numbers,
        last=max(start, *numbers),
        own_unit=next((unit for place in numbers if (unit := unit_of(cells[place]))), None),
    )


def _starts_with_digit(cell: str) -> bool:
    return cell[:1].isdigit()


def _is_time(cell: str) -> bool:
    return bool(_TIME.search(cell)) and unit_of(cell) is None


def _is_value(cell: str) -> bool:
    if _IGNORED.search(cell) and unit_of(cell) is None:
        return False
    return unit_of(cell) is not None or bool(_USED.search(cell) or _SENT.search(cell))


def _first(places: Sequence[int], cells: Sequence[str], fits: Callable[[str], bool]) -> int:
    return next((place for place in places if fits(cells[place])), -1)


def _time_places(cells: Sequence[str], times: Sequence[int]) -> tuple[int, int, int]:
    """Return the places of the start (or its date), of its time of day, and of the end."""
    ends = [p for p in times if re.search(r"\bend", cells[p])]
    begins = [p for p in times if p not in ends]
    if not begins:
        return ends[0], -1, -1
    dates = [p for p in begins if "date" in cells[p] and "time" not in cells[p]]
    clocks = [p for p in begins if p not in dates and re.search(r"time|hour|start", cells[p])]
    if dates and clocks:
        return dates[0], clocks[0], ends[0] if ends else -1
    return begins[0], -1, ends[0] if ends else -1
