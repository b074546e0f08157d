"""Defaults of the outage estimate, each with its range and the end that shortens the runtime."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.header import as_standing
from service.published.loader import load
from service.published.source import Standing
from service.published.table import Table

NAME = "outage_defaults"


class Worse(StrEnum):
    """The end of the range that shortens the time that critical loads are held."""

    LOW = "low"
    HIGH = "high"
    EITHER = "either"


@dataclass(frozen=True, slots=True)
class Default:
    """One default.

    Attributes
    ----------
    id : str
    value, low, high : float
        The value used, and the range that a pass must hold over [unit].
    unit : str
    worse : Worse
    standing : Standing
    reason : str
        One sentence for the reader of an answer.
    """

    id: str
    value: float
    low: float
    high: float
    unit: str
    worse: Worse
    standing: Standing
    reason: str


@cache
def outage_defaults() -> Mapping[str, Default]:
    """Return the defaults by id, in the order of the table.

    Returns
    -------
    mapping of str to Default

    Notes
    -----
    Source: table outage_defaults; cite one with `load("outage_defaults").cite(id, "value")`.
    """
    table = load(NAME)
    return MappingProxyType({key: _default(table, key) for key in table.rows})


def _default(table: Table, key: str) -> Default:
    row = table.row(key)
    low, value, high = (table.number(key, column) for column in ("low", "value", "high"))
    if not low <= value <= high:
        raise DataFileError(f"{table.name}.csv", f"row {key}: the value lies outside its range")
    return Default(
        id=key,
        value=value,
        low=low,
        high=high,
        unit=row["unit"],
        worse=Worse(row["worse"]),
        standing=as_standing(f"{table.name}.csv", row["standing"]),
        reason=row["reason"],
    )
