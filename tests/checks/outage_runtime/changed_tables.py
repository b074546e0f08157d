"""Data tables with one cell changed, for the time of a test."""

import csv
import io
from collections.abc import Iterator
from contextlib import contextmanager
from unittest.mock import patch

from service.checks.outage_runtime import load_rows
from service.published import appliances, class_day_shapes, loader, outage_defaults
from service.published.table import Table

#: What is kept of the tables from call to call.
_KEPT = (
    loader.load,
    appliances.catalogue,
    outage_defaults.outage_defaults,
    class_day_shapes._shapes,
    load_rows._known_row,
    load_rows._cited,
)


class _Changed:
    """Stands where the data file stands."""

    def __init__(self, text: str) -> None:
        self._text = text

    def read_text(self, encoding: str) -> str:
        assert encoding == "utf-8"
        return self._text


def _forget() -> None:
    for kept in _KEPT:
        kept.cache_clear()


def _rewritten(text: str, row: str, cells: dict[str, str]) -> str:
    """Return the text of a data file with some cells of a row replaced."""
    lines = text.splitlines(keepends=True)
    body = next(place for place, line in enumerate(lines) if not line.startswith("#"))
    out = io.StringIO()
    reader = csv.DictReader(lines[body:])
    writer = csv.DictWriter(out, list(reader.fieldnames or ()))
    writer.writeheader()
    for record in reader:
        is_it = next(iter(record.values())) == row
        assert not is_it or cells.keys() <= record.keys()
        writer.writerow(record | cells if is_it else record)
    return "".join(lines[:body]) + out.getvalue()


@contextmanager
def changed(table: str, row: str, **cells: str) -> Iterator[Table]:
    """Let every reader of a table find other cells in one of its rows."""
    files = dict(loader._tables())
    assert row in loader.load(table).rows
    files[table] = _Changed(_rewritten(files[table].read_text("utf-8"), row, cells))  # type: ignore[assignment]  # reads like a file
    with patch.object(loader, "_tables", lambda: files):
        _forget()
        try:
            yield loader.load(table)
        finally:
            _forget()
