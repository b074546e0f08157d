"""How far off a length may be, and what two lengths along a wall come to."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import islice
from math import inf
from typing import Final, NamedTuple

from service.codes.siting_lengths import length_origins
from service.facts.siting_length import LengthSource, MeasuredLength
from service.quantities.comparison import TOLERANCE
from service.quantities.units import si

INCH: Final = si(1.0, "in")

#: How a length is read where nothing says how it was had: the widest error.
UNSTATED: Final[LengthSource] = "estimate"

_SAME: Final = TOLERANCE["length"]


@lru_cache(maxsize=8192)
def measured(length: float | MeasuredLength, by: LengthSource) -> tuple[float, float]:
    """Return a length and how far off it may be [m]."""
    if not isinstance(length, MeasuredLength):
        return length * INCH, length_origins()[by].half_band(length * INCH)
    value = length.value * INCH
    if length.within is not None:
        return value, length.within * INCH
    return value, length_origins()[length.by or by].half_band(value)


def number_at(length: float | MeasuredLength, at: str) -> str:
    """Return the pointer of the number of a length."""
    return f"{at}/value" if isinstance(length, MeasuredLength) else at


class Reach(NamedTuple):
    """From where to where something reaches, at the ends of the errors that make it small.

    Attributes
    ----------
    low, high : float
        As measured [m].
    inner_low, inner_high : float
        The highest that the lower end can be, and the lowest that the upper end can be [m].
    """

    low: float
    high: float
    inner_low: float
    inner_high: float

    def meets(self, other: Reach) -> bool:
        """Return whether both overlap, whatever the errors are."""
        return (
            self.inner_low < other.inner_high - _SAME and other.inner_low < self.inner_high - _SAME
        )

    def begins_before(self, start: float) -> bool:
        """Return whether it begins before a point [m], whatever the errors are."""
        return self.inner_low < start - _SAME

    def ends_beyond(self, end: float) -> bool:
        """Return whether it ends beyond a point [m], whatever the errors are."""
        return self.inner_high > end + _SAME


def meeting(
    reaches: Sequence[Reach], across: Sequence[Reach] | None = None
) -> list[tuple[int, int]]:
    """Return the pairs that overlap, whatever the errors are, as (earlier, later) in the list.

    Parameters
    ----------
    reaches : sequence of Reach
    across : sequence of Reach, optional
        Where the same things reach the other way: pairs overlap both ways.
    """
    others = reaches if across is None else across
    order = sorted(
        (along.inner_low, along.inner_high - _SAME, up.inner_low, up.inner_high - _SAME, at)
        for at, (along, up) in enumerate(zip(reaches, others, strict=True))
    )
    found = []
    for place, (low, high, floor, top, at) in enumerate(order, start=1):
        # Plain comparisons: a wall may have two thousand pairs, and a request 36 walls.
        for other in islice(order, place, None):
            if other[0] >= high:
                # Whatever begins later than this one ends meets it no more.
                break
            if low < other[1] and floor < other[3] and other[2] < top:
                found.append((min(at, other[4]), max(at, other[4])))
    return sorted(found)


def reach(start: float | MeasuredLength, span: float | MeasuredLength, by: LengthSource) -> Reach:
    """Return from where to where something reaches that begins at `start` and is `span` long."""
    low, off = measured(start, by)
    long, more_off = measured(span, by)
    return Reach(low, low + long, low + off, low + long - off - more_off)


def upwards(
    bottom: float | MeasuredLength | None, height: float | MeasuredLength | None, by: LengthSource
) -> Reach:
    """Return from where to where something reaches upwards; without an end where none is stated."""
    low, off = (0.0, 0.0) if bottom is None else measured(bottom, by)
    if height is None:
        return Reach(low, inf, low + off, inf)
    high, more_off = measured(height, by)
    return Reach(low, low + high, low + off, low + high - off - more_off)


def longest(length: float | MeasuredLength, by: LengthSource) -> float:
    """Return the most that a length can be [m]."""
    return sum(measured(length, by))


def exceeds(
    length: float | MeasuredLength, limit: float | MeasuredLength, by: LengthSource
) -> bool:
    """Return whether a length is greater than another, whatever the errors of both are."""
    value, off = measured(length, by)
    return value - off > longest(limit, by) + _SAME
