"""How far each unit of a row may slide, the others sliding with it."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.clearance.interval_set import Interval
from service.checks.clearance.lane_steps import Lane, between, first_from, last_to
from service.checks.clearance.wall_lane import SAME

#: By panels to the left of a unit: its first or its last place [m].
_Ends = dict[int, float]


def slides(lane: Lane, order: Sequence[tuple[int, float]]) -> tuple[Interval, ...]:
    """Return from where to where each unit of a row may slide.

    Parameters
    ----------
    lane : Lane
    order : sequence of (kind, x)
        A row that fits; the order of kinds is kept [m].

    Returns
    -------
    tuple of (lo, hi)
        First and last place of each unit over all rows of that order; between them there may be
        places where it may not stand [m].

    Notes
    -----
    The first places from left to right and the last ones from right to left, for each number of
    panels to the left of a unit; where both exist, one row holds both. Source: derived.
    """
    kinds = [kind for kind, _ in order]
    firsts, lasts = _firsts(lane, kinds), _lasts(lane, kinds)
    slack = (len(order) + 1) * SAME
    found = []
    for (_, x), first, last in zip(order, firsts, lasts, strict=True):
        both = [p for p in first if p in last and first[p] <= last[p] + slack]
        found.append((min(x, *(first[p] for p in both)), max(x, *(last[p] for p in both))))
    return tuple(found)


def _firsts(lane: Lane, kinds: Sequence[int]) -> list[_Ends]:
    """Return the first places of each unit that leave room for those before it [m]."""
    found: list[_Ends] = []
    for step, kind in enumerate(kinds):
        ends: _Ends = {}
        for panels, places in enumerate(lane.places[kind]):
            start = 0.0
            if step:
                before = kinds[step - 1]
                start = lane.width[before] + min(
                    (
                        x + between(lane, before, kind, passed, panels)
                        for passed, x in found[-1].items()
                        if passed <= panels
                    ),
                    default=float("inf"),
                )
            x_first = first_from(places, start, (step + 1) * SAME)
            if x_first is not None:
                ends[panels] = x_first
        found.append(ends)
    return found


def _lasts(lane: Lane, kinds: Sequence[int]) -> list[_Ends]:
    """Return the last places of each unit that leave room for those after it [m]."""
    found: list[_Ends] = []
    after = -1
    for step, kind in enumerate(reversed(kinds)):
        ends: _Ends = {}
        for panels, places in enumerate(lane.places[kind]):
            stop = float("inf")
            if step:
                stop = max(
                    (
                        x - between(lane, kind, after, panels, passed)
                        for passed, x in found[-1].items()
                        if passed >= panels
                    ),
                    default=-stop,
                )
            x_last = last_to(places, stop - lane.width[kind], (step + 1) * SAME)
            if x_last is not None:
                ends[panels] = x_last
        found.append(ends)
        after = kind
    return found[::-1]
