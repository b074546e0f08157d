"""Defaults of an estimate of heat, each with its band and the end that is hotter."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load

NAME = "heat_defaults"


class HeatDefault(NamedTuple):
    """A default and the ends of its band, by how hot they make a unit; in the row's unit."""

    cool: float
    value: float
    hot: float


@cache
def heat_defaults() -> Mapping[str, HeatDefault]:
    """Return the defaults by id.

    Returns
    -------
    mapping of str to HeatDefault

    Notes
    -----
    Source: table heat_defaults.
    """
    table = load(NAME)
    return MappingProxyType(
        {
            key: HeatDefault(
                table.number(key, "high" if row["hot"] == "low" else "low"),
                table.number(key, "value"),
                table.number(key, row["hot"]),
            )
            for key, row in table.rows.items()
        }
    )
