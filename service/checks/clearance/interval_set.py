"""Sets of points on a line: open intervals forbid, and what they leave is closed."""

from __future__ import annotations

from collections.abc import Iterable

from service.checks.clearance.wall_lane import SAME

#: From and to [m].
Interval = tuple[float, float]


def merged(forbidden: Iterable[Interval]) -> tuple[Interval, ...]:
    """Return the union of open intervals as intervals that do not overlap, left to right.

    Parameters
    ----------
    forbidden : iterable of (lo, hi)
        Open; one that is no longer than the tolerance is empty [m].

    Returns
    -------
    tuple of (lo, hi)
        Two that only touch stay two, since the point between them is in neither [m].

    Notes
    -----
    Source: derived.
    """
    found: list[Interval] = []
    for lo, hi in sorted(forbidden):
        if hi - lo <= SAME:
            continue
        if found and lo < found[-1][1] - SAME:
            if hi > found[-1][1]:
                found[-1] = (found[-1][0], hi)
        else:
            found.append((lo, hi))
    return tuple(found)


def complement(forbidden: Iterable[Interval], end: float) -> tuple[Interval, ...]:
    """Return what open intervals leave of the closed one from 0 to `end`.

    Parameters
    ----------
    forbidden : iterable of (lo, hi)
        Open, in any order, overlapping or not [m].
    end : float
        Below 0 leaves nothing [m].

    Returns
    -------
    tuple of (lo, hi)
        Closed, left to right; a single point where two intervals touch, or where a piece ends at
        0 or at `end` [m].

    Notes
    -----
    Equality passes: within 1e-9 m two ends are the same. Source: derived.
    """
    if end < -SAME:
        return ()
    end = max(end, 0.0)
    allowed: list[Interval] = []
    free_from = 0.0
    for lo, hi in merged(forbidden):
        if lo > end:
            break
        if lo >= free_from - SAME:
            allowed.append((free_from, lo if lo > free_from else free_from))
        free_from = hi if hi > free_from else free_from
    if free_from <= end + SAME:
        allowed.append((min(free_from, end), end))
    return tuple(allowed)
