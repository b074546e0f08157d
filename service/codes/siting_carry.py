"""How many people, and which help, the heaviest piece of a unit takes on its way."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Final

from service.published.loader import load
from service.published.source import Source

NAME: Final = "siting_carry"
_POUND: Final = 0.45359237  # [kg], exact


@dataclass(frozen=True, slots=True)
class CarryBand:
    """Pieces of one band of mass.

    Attributes
    ----------
    id : str
    up_to : float
        Largest mass of the band, included; infinite for the last [kg].
    persons, persons_on_steps : int
        On a level way, and where a step is on it.
    help : str
        What is rolled or lifted with; `none`: carried by hand.
    slope : float or None
        Steepest way on which the help is rolled, rise over run [1]; None where nothing is rolled.
    statement : str
    """

    id: str
    up_to: float
    persons: int
    persons_on_steps: int
    help: str
    slope: float | None
    statement: str

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(NAME).cite(self.id)


@cache
def carry_bands() -> tuple[CarryBand, ...]:
    """Return the bands of mass, lightest first.

    Returns
    -------
    tuple of CarryBand

    Notes
    -----
    Source: table siting_carry; pounds converted.
    """
    return tuple(_band(key) for key in load(NAME).rows)


def _band(key: str) -> CarryBand:
    table = load(NAME)
    row = table.row(key)
    pounds = table.number_or_none(key, "up_to")
    percent = table.number_or_none(key, "slope")
    return CarryBand(
        id=key,
        up_to=math.inf if pounds is None else pounds * _POUND,
        persons=int(table.exact(key, "persons")),
        persons_on_steps=int(table.exact(key, "persons_on_steps")),
        help=row["help"],
        slope=None if percent is None else percent / 100.0,
        statement=row["statement"],
    )
