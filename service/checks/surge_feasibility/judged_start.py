"""Starts with their corners, judged; remedies and the largest load that may run beside."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.corners import (
    OPTIMISTIC,
    PESSIMISTIC,
    at_corner,
    at_nominal,
)
from service.checks.surge_feasibility.nominal_start import Start, VoltageLimits, start
from service.checks.surge_feasibility.remedies import with_share_beside
from service.checks.surge_feasibility.start_case import StartCase, beside
from service.checks.surge_feasibility.start_outcome import LIGHTS_DIP, folded, outcome

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Parts in which the largest load beside is looked for, twice: to 1/64 of what runs now.
_PARTS = 8
_CORNERS = 3


class Known(NamedTuple):
    """What is known of each motor and source beside the start itself, shape (L,).

    Attributes
    ----------
    locked_low, locked_high : ndarray
        Ends of the locked-rotor amps at rated volts [A].
    rated_low, rated_high : ndarray
        Ends of the rated-load amps [A].
    guessed : ndarray of bool
        Whether they are a guess.
    unrated : ndarray of bool
        Whether the ratings above continuous are not known.
    beyond : ndarray of int
        What the source does beyond its ratings: a code of `start_outcome`.
    source_low, source_high : ndarray
        Factors on the impedance of the source at its stiffest and softest [1].
    """

    locked_low: Floats
    locked_high: Floats
    rated_low: Floats
    rated_high: Floats
    guessed: Bools
    unrated: Bools
    beyond: Ints
    source_low: Floats
    source_high: Floats


class Judged(NamedTuple):
    """Words of a start, shape (L,): folded, at nominal values, and at both corners."""

    word: Ints
    nominal: Ints
    pessimistic: Ints
    optimistic: Ints

    def lanes(self, lanes: slice) -> Judged:
        """Return some lanes."""
        return Judged(*(member[lanes] for member in self))


class Corners(NamedTuple):
    """One start solved at nominal values and at its corners."""

    nominal: Start
    pessimistic: Start
    optimistic: Start

    def lanes(self, lanes: slice) -> Corners:
        """Return some lanes."""
        return Corners(*(corner.lanes(lanes) for corner in self))


def judge(
    cases: Mapping[str, StartCase], limits: VoltageLimits, known: Known
) -> dict[str, tuple[Judged, Corners]]:
    """Solve some versions of the same starts, all of them and their corners in one march.

    Parameters
    ----------
    cases : mapping
        Name -> the starts, shape (L,) each [V, A, ohm, s].
    limits : VoltageLimits
        Of the bus, shape (L,) [1, s].
    known : Known
        The same of every version, shape (L,) [A].

    Returns
    -------
    dict
        Name -> words, and the start with its corners.

    Notes
    -----
    Source: derived.
    """
    lanes = [lane for case in cases.values() for lane in _corners(case, known)]
    solved = start(beside(*lanes), VoltageLimits._make(np.tile(m, len(lanes)) for m in limits))
    count = len(known.beyond)
    parts = [solved.lanes(slice(i * count, (i + 1) * count)) for i in range(len(lanes))]
    found = {}
    for name, i in zip(cases, range(0, len(lanes), _CORNERS), strict=True):
        corners = Corners(*parts[i : i + _CORNERS])
        found[name] = (words_of(corners, limits, known), corners)
    return found


def words_of(corners: Corners, limits: VoltageLimits, known: Known) -> Judged:
    """Return the words of a solved start.

    Parameters
    ----------
    corners : Corners
        The start and its corners, shape (L,) [V, A, s].
    limits : VoltageLimits
        Of the bus, shape (L,) [1, s].
    known : Known
        Of motors and source, shape (L,) [A].

    Notes
    -----
    Source: derived.
    """
    nominal, pessimistic, optimistic = (outcome(corner, limits, known.beyond) for corner in corners)
    carried = np.asarray(np.stack([corner.carried for corner in corners]).any(axis=0))
    word = folded(nominal, pessimistic, optimistic, known.guessed, known.unrated, carried)
    return Judged(word, nominal, pessimistic, optimistic)


def _corners(case: StartCase, known: Known) -> tuple[StartCase, ...]:
    """Return a start at nominal values, at its pessimistic corner and at its optimistic one."""
    return (
        at_nominal(case),
        at_corner(case, PESSIMISTIC, known.locked_high, known.rated_high, known.source_high),
        at_corner(case, OPTIMISTIC, known.locked_low, known.rated_low, known.source_low),
    )


def largest_share_beside(case: StartCase, limits: VoltageLimits, known: Known) -> Floats:
    """Return the largest share of the loads beside with which a motor starts [1], shape (L,).

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    limits : VoltageLimits
        Of the bus, shape (L,) [1, s].
    known : Known
        Of motors and source, shape (L,) [A].

    Returns
    -------
    ndarray
        0 to 1, to the lower 1/64; below 0: not even alone.

    Notes
    -----
    Source: derived: more load beside never helps a start, so the search may narrow.
    """
    coarse, fine = 1.0 / _PARTS, 1.0 / _PARTS**2
    some = np.zeros(len(known.beyond))
    steps = _steps_that_start(case, limits, known, [some + coarse * i for i in range(_PARTS + 1)])
    low = coarse * (steps - 1)
    finer = [np.maximum(low, 0.0) + fine * i for i in range(1, _PARTS)]
    more = np.where(low < 1.0, _steps_that_start(case, limits, known, finer), 0)
    return np.where(steps > 0, low + fine * more, -1.0)


def _steps_that_start(
    case: StartCase, limits: VoltageLimits, known: Known, shares: list[Floats]
) -> Ints:
    """Return how many of the rising shares a motor starts with, up to the first it does not."""
    tried = {str(i): with_share_beside(case, share) for i, share in enumerate(shares)}
    starts = [judged.word >= LIGHTS_DIP for judged, _ in judge(tried, limits, known).values()]
    return np.asarray(np.logical_and.accumulate(starts).sum(axis=0))
