"""A length as it is read: as measured, or at the end of its error that helps or harms."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.facts.siting_length import LengthSource, MeasuredLength
from service.facts.siting_measured import INCH, UNSTATED, measured

__all__ = ["INCH", "NOMINAL", "UNSTATED", "Lens", "measured"]


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
    """

    lengths: int = 0
    facts: int = 0
    by: LengthSource = UNSTATED
    only: str = ""

    def of(self, part: str) -> Lens:
        """Return the lens for a part of the place, by its pointer."""
        if not self.only:
            return self
        lengths = self.lengths if part.startswith(self.only) else 0
        return self._replace(lengths=lengths, only="")

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
        end = self.lengths
        return value + harm * end * error if end and not self.only else value

    def span(
        self, left: float | MeasuredLength, width: float | MeasuredLength
    ) -> tuple[float, float]:
        """Return both ends of what begins somewhere and has a width: larger harms [in] -> [m]."""
        x, off = measured(left, self.by)
        wide, error = measured(width, self.by)
        end = self.lengths
        if end and not self.only:
            return x - end * off, x + wide + end * (off + error)
        return x, x + wide


NOMINAL: Final = Lens()
