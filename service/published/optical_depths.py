"""Exponents of the air mass in the clear-sky model, by the edition of the optical depths."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load

NAME = "optical_depth_exponents"


class Exponents(NamedTuple):
    """Coefficients of the two exponents; see the table's header [1]."""

    b_one: float
    b_beam: float
    b_diffuse: float
    b_both: float
    d_one: float
    d_beam: float
    d_diffuse: float
    d_both: float


@cache
def optical_depth_exponents() -> Mapping[str, Exponents]:
    """Return the coefficients by edition.

    Returns
    -------
    mapping of str to Exponents

    Notes
    -----
    Source: table optical_depth_exponents.
    """
    table = load(NAME)
    return MappingProxyType(
        {
            key: Exponents(*(table.number(key, name) for name in Exponents._fields))
            for key in table.rows
        }
    )
