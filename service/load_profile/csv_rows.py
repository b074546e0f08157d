"""The rows of a CSV export: sections under repeated headers, everything before the first unread."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from service.load_profile.csv_header import Columns, Unit, header_of, is_not_electric, unit_of
from service.load_profile.csv_times import clock_of, day_of, moment_of
from service.load_profile.readings import DAY, LATEST, MOST_READINGS, Unread
from service.load_profile.refusal import refused, too_many_readings

#: Longest line of an export; readings have a few dozen characters.
_LONGEST_LINE = 10_000
#: Lines of an export, and those of words alone: headers and what stands before them.
_MOST_LINES = 250_000
_MOST_WORDS = 20_000
_DELIMITERS = ",;\t|"
#: Unreadable rows that are named one by one.
_NAMED = 20
#: Largest number that a reading may state, in whatever unit.
_LARGEST = 1e9
_NONE = float("nan")


@dataclass(slots=True)
class Rows:
    """Readings of an export by wall time, one list element a reading.

    What was used and sent is in joule, or in watts where `is_power`, and NaN where the section has
    no such column; `end` is -1 where none is written. `offset` is the one written beside the time
    [s], None where there is none.
    """

    start: list[int] = field(default_factory=list)
    end: list[int] = field(default_factory=list)
    offset: list[int | None] = field(default_factory=list)
    used: list[float] = field(default_factory=list)
    sent: list[float] = field(default_factory=list)
    is_power: list[bool] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    unread_count: int = 0
    other_services: int = 0

    def miss(self, line: int, reason: str) -> None:
        """Note a row that cannot be read."""
        self.unread_count += 1
        if len(self.unread) < _NAMED:
            self.unread.append(Unread(f"line {line}", reason))


def read_rows(text: str) -> Rows:
    """Return the rows of an export.

    Raises
    ------
    Refused
        No row heads columns of time and energy, or a line cannot be one of a CSV export.
    """
    rows = Rows()
    columns: Columns | None = None
    found = False
    words = 0
    for line, row in _cells(_clean(text)):
        if columns is not None and row and (row[0][:1].isdigit() or _holds_numbers(row)):
            _take(rows, columns, row, line)
            continue
        if not any(row):
            continue
        words += 1
        if words > _MOST_WORDS:
            raise refused(f"line {line} is beyond {_MOST_WORDS:,} lines without a reading")
        if is_not_electric(row) and len(row) > 1:
            rows.other_services += 1
            if header_of(row) is not None:
                columns = None
        elif (header := header_of(row)) is not None:
            columns, found = header, True
            _check_unit(header, line)
        elif columns is not None:
            _take(rows, columns, row, line)
    if not found:
        raise refused(
            "it is neither an XML feed nor a CSV with a header row that names a time and a usage "
            "column with its unit (kWh, Wh, kW or W); send the export as the utility made it"
        )
    return rows


def _holds_numbers(row: Sequence[str]) -> bool:
    return any(cell[:1].isdigit() for cell in row)


def _clean(text: str) -> str:
    for blank in ("\u00a0", "\u202f", "\u2007", "\ufeff"):
        text = text.replace(blank, " ")
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _cells(text: str) -> Iterator[tuple[int, list[str]]]:
    if text.count("\n") > _MOST_LINES:
        raise refused(
            f"it has more than {_MOST_LINES:,} lines; three years of quarter hours need fewer"
        )
    lines = text.split("\n")
    for place, one in enumerate(lines, start=1):
        if len(one) > _LONGEST_LINE:
            raise refused(
                f"line {place} is longer than {_LONGEST_LINE:,} characters; "
                "send the export with one reading a line"
            )
    reader = csv.reader(lines, delimiter=_delimiter(lines))
    try:
        for row in reader:
            yield reader.line_num, row
    except csv.Error:
        raise refused(
            f"line {reader.line_num} is no line of a CSV; mend its quotes or export again"
        ) from None


def _delimiter(lines: Sequence[str]) -> str:
    """Return the delimiter with which a line heads columns; the comma where none does."""
    for one in lines[:200]:
        for delimiter in _DELIMITERS:
            if delimiter in one and header_of(next(csv.reader([one], delimiter=delimiter), [])):
                return delimiter
    return ","


def _check_unit(columns: Columns, line: int) -> None:
    if columns.unit < 0 and columns.own_unit is None:
        raise refused(
            f"line {line} heads a usage column and names no unit; "
            "write kWh, Wh, kW or W in its name"
        )


def _take(rows: Rows, columns: Columns, row: list[str], line: int) -> None:
    """Take one row under its header, or note why it cannot be read."""
    moment = _moment(columns, row) if len(row) > columns.start else None
    if len(row) <= columns.last:
        if moment is not None:
            rows.miss(line, "it has fewer columns than its header")
        return
    if not any(row[place].strip() for place in columns.values):
        return
    if moment is None:
        rows.miss(line, "its first columns are no time; write 2026-01-31 00:15 or 1/31/2026")
    elif not 0 <= moment[0] < LATEST:
        rows.miss(line, "its time is before 1970 or after 2199")
    elif (unit := _unit(columns, row)) is None:
        if is_not_electric(row):
            rows.other_services += 1
        else:
            rows.miss(line, "it names no unit; write kWh, Wh, kW or W")
    else:
        _keep(rows, columns, row, line, moment, unit)


def _keep(
    rows: Rows,
    columns: Columns,
    row: list[str],
    line: int,
    moment: tuple[int, int | None],
    unit: Unit,
) -> None:
    values = [_number(row[place]) * unit.scale for place in columns.values]
    if columns.sent >= 0 and not row[columns.sent].strip():
        values[-1] = 0.0
    if not all(abs(value) <= _LARGEST * unit.scale for value in values):
        rows.miss(line, "its value is no number of a meter")
        return
    if len(rows.start) >= MOST_READINGS:
        raise too_many_readings()
    start, offset = moment
    rows.start.append(start)
    rows.end.append(_end(columns, row, start))
    rows.offset.append(offset)
    rows.used.append(values[0] if columns.drawn >= 0 else _NONE)
    rows.sent.append(abs(values[-1]) if columns.sent >= 0 else _NONE)
    rows.is_power.append(unit.is_power)


def _moment(columns: Columns, row: Sequence[str]) -> tuple[int, int | None] | None:
    text = row[columns.start].strip()
    if columns.clock >= 0:
        if columns.clock >= len(row):
            return None
        day, clock = day_of(text.partition(" ")[0]), clock_of(row[columns.clock].strip())
        return None if day is None or clock is None else (day + clock, None)
    return moment_of(text.partition(" to ")[0])


def _end(columns: Columns, row: Sequence[str], start: int) -> int:
    """Return the wall time of the end, -1 where none is written."""
    text = row[columns.start]
    if " to " in text:
        found = moment_of(text.partition(" to ")[2])
        return -1 if found is None else found[0]
    if columns.end < 0 or columns.end >= len(row):
        return -1
    text = row[columns.end].strip()
    clock = clock_of(text)
    if clock is not None:
        end = start - start % DAY + clock
        return end if end >= start else end + DAY
    found = moment_of(text)
    return -1 if found is None else found[0]


def _unit(columns: Columns, row: Sequence[str]) -> Unit | None:
    if 0 <= columns.unit < len(row):
        return unit_of(row[columns.unit])
    return columns.own_unit


def _number(text: str) -> float:
    """Return the number, NaN where there is none."""
    try:
        return float(text)
    except ValueError:
        try:
            return float(text.replace(",", ""))
        except ValueError:
            return _NONE
