"""What the seismic anchorage of a unit is taken with."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from service.published.loader import load

NAME: Final = "siting_anchorage"


@dataclass(frozen=True, slots=True)
class AnchorageFactors:
    """Factors of the anchorage of electrical equipment.

    Attributes
    ----------
    amplification, response, importance : float
        Component factors ap, Rp and Ip [1].
    """

    amplification: float
    response: float
    importance: float


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
    )
