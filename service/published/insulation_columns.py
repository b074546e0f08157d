"""The temperature column of an insulation, dry and wet."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from service.published.loader import load
from service.published.table import NO_NUMBER

NAME = "insulation_columns"


class InsulationColumns(NamedTuple):
    """Columns of an insulation.

    Attributes
    ----------
    dry, wet : int or None
        Temperature column [degC]; None: it may not lie there.
    over : str
        ``thhn`` or ``xhhw``: whose room it takes.
    """

    dry: int | None
    wet: int | None
    over: str


@cache
def insulation_columns() -> dict[str, InsulationColumns]:
    """Return the columns of every insulation by its id.

    Notes
    -----
    Source: table insulation_columns.
    """
    rows = load(NAME).rows.items()
    return {
        key: InsulationColumns(_column(row["dry"]), _column(row["wet"]), row["over"])
        for key, row in rows
    }


def _column(cell: str) -> int | None:
    return None if cell == NO_NUMBER else int(cell)
