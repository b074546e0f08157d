"""Where the ground before the wall is too shallow for a unit, its walkway or its working space."""

from __future__ import annotations

from math import inf

from service.checks.clearance.interval_set import Interval, merged
from service.checks.clearance.wall_lane import (
    FRONT,
    SAME,
    WALKWAY,
    WORKING_SPACE,
    Ban,
    Strip,
    Unit,
    Wall,
)


def too_shallow(strip: Strip, need: float) -> Interval | None:
    """Return where a piece is shallower than what is needed.

    Parameters
    ----------
    strip : Strip
        Straight between its ends.
    need : float
        From the wall to the obstruction [m].

    Returns
    -------
    tuple of (lo, hi), or None
        Open, up to the very point where the piece becomes deep enough [m].

    Notes
    -----
    Source: derived.
    """
    x1, x2, clear1, clear2, *_ = strip
    least = need - SAME
    if clear1 >= least and clear2 >= least:
        return None
    if clear1 < least and clear2 < least:
        return x1, x2
    crossing = x1 + (need - clear1) / (clear2 - clear1) * (x2 - x1)
    crossing = min(max(crossing, x1), x2)
    return (x1, crossing) if clear1 < least else (crossing, x2)


def depth_bans(wall: Wall, unit: Unit) -> list[Ban]:
    """Return the left edges that the depth before the wall forbids.

    Parameters
    ----------
    wall : Wall
    unit : Unit

    Returns
    -------
    list of (lo, hi, reason)
        Open; FRONT, WALKWAY or WORKING_SPACE [m].

    Notes
    -----
    The walkway and the maker's front clearance are needed over the footprint; working space over a
    run that holds the footprint and is as wide as working space must be. A unit that only touches
    a piece is not in it. Where nothing bounds the ground, the ends of the wall still bound working
    space, unless they are open. Source: NEC 2023, 110.26(A)(1) and (2), for depth and width of
    working space; the rest derived.
    """
    plane, width = unit.standoff + unit.depth, unit.width
    found: list[Ban] = []
    for strip in wall.strips:
        bad = too_shallow(strip, plane + unit.front)
        if bad:
            found.append((bad[0] - width, bad[1], FRONT))
        walked = strip.walked and wall.walkway > 0.0
        bad = too_shallow(strip, plane + wall.walkway) if walked else None
        if bad:
            found.append((bad[0] - width, bad[1], WALKWAY))
    if unit.working_width > 0.0:
        found += _working_space_bans(wall, unit)
    return found


def _working_space_bans(wall: Wall, unit: Unit) -> list[Ban]:
    """Return the left edges at which a unit is in no run that holds its working space [m]."""
    found: list[Ban] = []
    ended = -inf
    for lo, hi in working_runs(wall, unit):
        if lo > ended:
            found.append((ended - unit.width, lo, WORKING_SPACE))
        ended = hi
    if ended < inf:
        found.append((ended - unit.width, inf, WORKING_SPACE))
    return found


def working_runs(wall: Wall, unit: Unit) -> list[Interval]:
    """Return the runs of the wall before which the working space of a unit fits.

    Parameters
    ----------
    wall : Wall
    unit : Unit

    Returns
    -------
    list of (lo, hi)
        Closed, left to right, each at least as wide as the working space; without end where the
        wall is open [m].

    Notes
    -----
    Source: NEC 2023, 110.26(A)(1) and (2); the runs derived.
    """
    plane = unit.standoff + unit.depth
    bad = (too_shallow(strip, plane + strip.working_depth) for strip in wall.strips)
    least = unit.working_width - SAME
    free_from = -inf if wall.left_open else 0.0
    end = inf if wall.right_open else wall.length
    runs: list[Interval] = []
    for lo, hi in merged([piece for piece in bad if piece]):
        if min(lo, end) - free_from >= least:
            runs.append((free_from, min(lo, end)))
        free_from = max(free_from, hi)
    if end - free_from >= least:
        runs.append((free_from, end))
    return runs
