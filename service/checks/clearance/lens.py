"""A length as it is read: as measured, or at the end of its error that helps or harms."""

from __future__ import annotations

from functools import lru_cache
from typing import Final, NamedTuple

from service.codes.siting_lengths import length_origins
from service.facts.siting_length import LengthSource, MeasuredLength
from service.quantities.units import si

INCH: Final = si(1.0, "in")

#: How a length is read where nothing says how it was had: the widest error.
UNSTATED: Final[LengthSource] = "estimate"


class Lens(NamedTuple):
    """Which end of what is not known is read.

    Attributes
    ----------
    lengths, facts : int
        Ends of the errors of lengths, and of facts that are absent: 1 harms, 0 as stated or
        assumed, -1 helps.
    by : str
        How lengths were had that say nothing themselves.
    only : str
        Pointer of the part of the place whose lengths alone are at their end; empty: all.
    at : str
        Pointer of the part that is read now, for `only`.
    """

    lengths: int = 0
    facts: int = 0
    by: LengthSource = UNSTATED
    only: str = ""
    at: str = ""

    def of(self, part: str) -> Lens:
        """Return the lens for a part of the place, by its pointer."""
        return self._replace(at=part) if self.only else self

    def read(self, length: float | MeasuredLength, harm: int) -> float:
        """Return a length [m].

        Parameters
        ----------
        length : float or MeasuredLength
            [in]
        harm : int
            1 where a longer one harms, -1 where a shorter one does.
        """
        value, error = measured(length, self.by)
        if self.lengths == 0 or (self.only and not self.at.startswith(self.only)):
            return value
        return value + harm * self.lengths * error


NOMINAL: Final = Lens()


@lru_cache(maxsize=8192)
def measured(length: float | MeasuredLength, by: LengthSource) -> tuple[float, float]:
    """Return a length and how far off it may be [m]."""
    if not isinstance(length, MeasuredLength):
        return length * INCH, length_origins()[by].half_band(length * INCH)
    value = length.value * INCH
    if length.within is not None:
        return value, length.within * INCH
    return value, length_origins()[length.by or by].half_band(value)
