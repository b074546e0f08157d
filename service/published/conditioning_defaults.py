"""Defaults of heating and cooling units, each at low, typical and high use."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load

NAME = "conditioning_defaults"


class Levels(NamedTuple):
    """A value at low, typical and high use, in the unit of its row."""

    low: float
    typical: float
    high: float


@cache
def conditioning_defaults() -> Mapping[str, Levels]:
    """Return the defaults by id.

    Returns
    -------
    mapping of str to Levels

    Notes
    -----
    Source: table conditioning_defaults.
    """
    table = load(NAME)
    return MappingProxyType(
        {key: Levels(*(table.number(key, name) for name in Levels._fields)) for key in table.rows}
    )
