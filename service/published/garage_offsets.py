"""How much hotter a garage is than the air outside."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load

NAME = "garage_offsets"


class GarageOffset(NamedTuple):
    """Hours of the afternoon [h], and the excess then at three readings [K]."""

    from_hour: float
    to_hour: float
    low: float
    typical: float
    high: float


@cache
def garage_offsets() -> Mapping[str, GarageOffset]:
    """Return the offsets by the side that the vehicle door faces.

    Returns
    -------
    mapping of str to GarageOffset

    Notes
    -----
    Source: table garage_offsets (common practice, no source).
    """
    table = load(NAME)
    return MappingProxyType(
        {
            key: GarageOffset(*(table.number(key, name) for name in GarageOffset._fields))
            for key in table.rows
        }
    )
