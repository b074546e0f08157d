"""A cell of a table changed for the time of a test, and all that was kept of tables forgotten."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from tests.checks.outage_runtime.changed_tables import changed


def _forget() -> None:
    for name, module in list(sys.modules.items()):
        if name.startswith("service."):
            for kept in list(vars(module).values()):
                if hasattr(kept, "cache_clear"):
                    kept.cache_clear()


@contextmanager
def changed_cell(table: str, row: str, **cells: str) -> Iterator[None]:
    """Let every reader of a table find other cells in one of its rows."""
    with changed(table, row, **cells):
        _forget()
        try:
            yield
        finally:
            _forget()
