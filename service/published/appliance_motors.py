"""The large motors among the rows of the appliance catalogue."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from service.published.loader import load
from service.published.table import NO_NUMBER

NAME = "appliance_motors"


class ApplianceMotor(NamedTuple):
    """The motor of one row of the catalogue.

    Attributes
    ----------
    kind : str
        Id in the table of motor kinds.
    horsepower : float or None
        [hp].
    tons : float or None
        Nominal cooling [ton].
    """

    kind: str
    horsepower: float | None
    tons: float | None


@cache
def appliance_motors() -> dict[str, ApplianceMotor]:
    """Return the motor of every row that has a large one, by the id of the row.

    Notes
    -----
    Source: table appliance_motors.
    """
    table = load(NAME)
    return {
        key: ApplianceMotor(
            kind=row["kind"],
            horsepower=_number(row["horsepower"]),
            tons=_number(row["tons"]),
        )
        for key, row in table.rows.items()
    }


def _number(cell: str) -> float | None:
    return None if cell == NO_NUMBER else float(cell)
