"""Tables that only these tests read."""

from pathlib import Path

from service.published.parse import parse
from service.published.table import Table


def table(name: str) -> Table:
    """Return a table that stands beside these tests."""
    return parse(name, (Path(__file__).parent / f"{name}.csv").read_text(encoding="utf-8"))
