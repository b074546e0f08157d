"""What the seismic anchorage of a unit is taken with."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from service.published.loader import load
from service.published.table_arrays import INCH

NAME: Final = "siting_anchorage"
_POUND: Final = 0.45359237  # [kg], exact


@dataclass(frozen=True, slots=True)
class AnchorageFactors:
    """Factors and exemptions of the anchorage of electrical equipment.

    Attributes
    ----------
    amplification, response, importance : float
        Component factors ap, Rp and Ip [1].
    standing_mass, standing_centre : float
        Largest mass [kg] and highest centre of gravity above the floor [m] of a standing unit that
        needs no calculated anchorage.
    hanging_mass : float
        Largest mass of any fixed unit that needs none [kg].
    """

    amplification: float
    response: float
    importance: float
    standing_mass: float
    standing_centre: float
    hanging_mass: float


@cache
def anchorage_factors() -> AnchorageFactors:
    """Return the factors and exemptions.

    Returns
    -------
    AnchorageFactors

    Notes
    -----
    Source: table siting_anchorage; pounds and inches converted.
    """
    table = load(NAME)
    return AnchorageFactors(
        amplification=table.number("amplification", "factor"),
        response=table.number("response", "factor"),
        importance=table.number("importance", "factor"),
        standing_mass=table.number("standing_exempt", "weight") * _POUND,
        standing_centre=table.number("standing_exempt", "height") * INCH,
        hanging_mass=table.number("hanging_exempt", "weight") * _POUND,
    )
