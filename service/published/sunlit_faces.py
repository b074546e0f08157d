"""What sunlit faces take in, give off, and what the ground before them reflects."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load

ABSORPTANCE = "surface_absorptance"
COEFFICIENTS = "surface_coefficients"
GROUND = "ground_reflectance"


class Absorptance(NamedTuple):
    """Part of sunlight that a colour takes in: fresh, as estimated, weathered [1]."""

    low: float
    value: float
    high: float


@cache
def absorptances() -> Mapping[str, Absorptance]:
    """Return the absorptance of every colour, lightest first.

    Returns
    -------
    mapping of str to Absorptance

    Notes
    -----
    Source: table surface_absorptance.
    """
    table = load(ABSORPTANCE)
    return MappingProxyType(
        {
            key: Absorptance(*(table.number(key, name) for name in Absorptance._fields))
            for key in table.rows
        }
    )


@cache
def surface_coefficients() -> Mapping[str, float]:
    """Return the surface coefficients from calm to windy [W/(m2 K)].

    Returns
    -------
    mapping of str to float

    Notes
    -----
    Source: table surface_coefficients.
    """
    table = load(COEFFICIENTS)
    return MappingProxyType({key: table.number(key, "w_m2_k") for key in table.rows})


@cache
def ground_reflectances() -> Mapping[str, float]:
    """Return the part of sunlight that each kind of ground reflects [1].

    Returns
    -------
    mapping of str to float

    Notes
    -----
    Source: table ground_reflectance.
    """
    table = load(GROUND)
    return MappingProxyType({key: table.number(key, "value") for key in table.rows})
