"""Where kinds of raceway may lie, how hot it may be there, and their smallest trade size."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.cable_types import Allowed
from service.published.loader import load

NAME = "raceway_places"


class RacewayPlaces(NamedTuple):
    """Where a kind of raceway may lie.

    Attributes
    ----------
    buried, outdoors : Allowed
        In earth; where it is wet and in the sun.
    hottest : float or None
        Ambient temperature above which it has to be listed for more [degC]; None: not known.
    least_trade_size : str
        Smallest that is used.
    condition : str
        In words.
    """

    buried: Allowed
    outdoors: Allowed
    hottest: float | None
    least_trade_size: str
    condition: str


@cache
def raceway_places() -> Mapping[str, RacewayPlaces]:
    """Return the places by id of the raceway.

    Returns
    -------
    mapping of str to RacewayPlaces

    Notes
    -----
    Source: table raceway_places.
    """
    table = load(NAME)
    return MappingProxyType(
        {
            key: RacewayPlaces(
                Allowed(row["buried"]),
                Allowed(row["outdoors"]),
                table.number_or_none(key, "hottest"),
                row["least_trade_size"],
                row["condition"],
            )
            for key, row in table.rows.items()
        }
    )
