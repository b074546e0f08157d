"""Meter readings as arrays, and what is known of the document they stood in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]
Mask = NDArray[np.bool_]

HOUR = 3600
DAY = 24 * HOUR
J_PER_WH = 3600.0
J_PER_KWH = 3.6e6
#: Readings that one document may hold: three years of quarter hours, leap days included.
MOST_READINGS = 105_408
#: Lengths of a reading that show the shape of a day [s]; all of them divide the hour.
FINE = (60, 300, 600, 900, 1200, 1800, 3600)
#: Latest time that is taken for one, the end of the year 2199 [s since 1970].
LATEST = 7_258_118_400


class Unread(NamedTuple):
    """Something that could not be read: its place in the document and why."""

    place: str
    reason: str


class Note(NamedTuple):
    """A remark on the whole document: an id of ids.csv and a sentence."""

    id: str
    statement: str


@dataclass(frozen=True, slots=True)
class Readings:
    """Readings of one direction of flow, one array element a reading.

    Attributes
    ----------
    start : ndarray of int64
        Begin of the reading in local standard time [s since 1970-01-01T00:00 of that time].
    length : ndarray of int64
        Its length [s].
    energy : ndarray of float64
        Energy of the reading [J].
    issued : ndarray of int64
        When it was issued, 0 where nothing says so [s since 1970].
    """

    start: Whole
    length: Whole
    energy: Floats
    issued: Whole

    def __len__(self) -> int:
        """Return the number of readings."""
        return len(self.start)

    def where(self, chosen: Mask | Whole) -> Readings:
        """Return the chosen readings."""
        return Readings(
            self.start[chosen], self.length[chosen], self.energy[chosen], self.issued[chosen]
        )

    @property
    def end(self) -> Whole:
        """Return the ends [s]."""
        return self.start + self.length

    @property
    def power(self) -> Floats:
        """Return the mean power of each reading [W]."""
        return self.energy / self.length


def readings(
    start: list[int] | Whole,
    length: list[int] | Whole,
    energy: list[float] | Floats,
    issued: list[int] | Whole | None = None,
) -> Readings:
    """Return readings of lists: start [s], length [s], energy [J], issue [s]. Source: the lists."""
    starts = np.asarray(start, dtype=np.int64)
    return Readings(
        starts,
        np.asarray(length, dtype=np.int64),
        np.asarray(energy, dtype=np.float64),
        np.zeros_like(starts) if issued is None else np.asarray(issued, dtype=np.int64),
    )


NO_READINGS = readings([], [], [])


@dataclass(frozen=True, slots=True)
class Metered:
    """What a document says, before anything is cleaned.

    Attributes
    ----------
    kind : str
        ``espi-xml`` or ``csv``.
    drawn : Readings
        What the home drew; negative where the meter counts both ways in one number.
    sent : Readings
        What the home sent to the grid, where the meter counts it apart.
    offset : int
        Offset of local standard time from UTC [s].
    clock_found : bool or None
        Whether the document's own clock is set twice a year, as far as it shows; None: stated, or
        of no consequence.
    unread : tuple of Unread
        The first readings that could not be read; `unread_count` of them there are.
    """

    kind: str
    drawn: Readings
    sent: Readings = NO_READINGS
    offset: int = 0
    offset_stated: bool = True
    clock_found: bool | None = None
    unread: tuple[Unread, ...] = ()
    unread_count: int = 0
    notes: tuple[Note, ...] = ()
