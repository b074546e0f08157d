"""As many units as fit along a wall, and where: exact for a few kinds of units."""

from __future__ import annotations

from itertools import product
from math import inf
from typing import NamedTuple

from service.checks.clearance.lane_steps import Lane, between, first_from, lane_of, last_to
from service.checks.clearance.wall_lane import SAME, Unit, Wall

#: How many of each kind are still to be placed.
_Counts = tuple[int, ...]
#: By kind of the next unit and panels to its left: last place from which the rest still fits [m].
_Latest = dict[tuple[int, int], float]


class Arrangement(NamedTuple):
    """Units in a row.

    Attributes
    ----------
    positions : tuple of (kind, x)
        Left edges in order [m]; of all sets of that size the one that lies furthest to the left,
        first unit first.
    complete : bool
        Whether all that were asked for stand.
    """

    positions: tuple[tuple[int, float], ...]
    complete: bool


def arrange(
    wall: Wall, units: tuple[Unit, ...], counts: tuple[int, ...], most_of: int | None
) -> Arrangement:
    """Return how units of some kinds stand along a wall.

    Parameters
    ----------
    wall : Wall
    units : tuple of Unit
        The kinds.
    counts : tuple of int
        How many of each kind are asked for.
    most_of : int or None
        A kind of which as many as fit are placed, up to its count, once the others stand; the
        arrangement is then complete when the others stand.

    Returns
    -------
    Arrangement
        The largest number that fits, where not all do [m].

    Notes
    -----
    From right to left: for each set of units that is still to come, each kind that may come first
    and each number of panels to its left, the last place from which they all fit. The further right
    that is, the better for what comes before, so one number stands for all arrangements. Then from
    left to right the first place that is not beyond it. Source: derived, dynamic programming.
    """
    return arrange_in(lane_of(wall, units), counts, most_of)


def arrange_in(lane: Lane, counts: tuple[int, ...], most_of: int | None) -> Arrangement:
    """Return how units of some kinds stand in a lane; see `arrange`.

    Parameters
    ----------
    lane : Lane
        [m].
    counts : tuple of int
    most_of : int or None

    Returns
    -------
    Arrangement
        [m].

    Notes
    -----
    Source: derived, dynamic programming.
    """
    latest = _latest(lane, counts)
    fitting = [(_rank(left, most_of), left) for left in latest]
    most = max(rank for rank, _ in fitting)
    order = _leftmost(lane, latest, [left for rank, left in fitting if rank == most])
    complete = most[0] == _rank(counts, most_of)[0]
    return Arrangement(order, complete)


def arrange_one_kind(lane: Lane, count: int, cap: int) -> tuple[Arrangement, int]:
    """Return how units of the only kind stand in a lane, and how many of it fit up to a cap.

    Parameters
    ----------
    lane : Lane
        Of one kind [m].
    count, cap : int

    Returns
    -------
    tuple of (Arrangement, int)
        What `arrange_in` and `largest_in` return, searched once [m].

    Notes
    -----
    Source: derived.
    """
    latest = _latest(lane, (max(count, cap),))
    most = max(left[0] for left in latest)
    stand = min(count, most)
    return Arrangement(_leftmost(lane, latest, [(stand,)]), stand == count), min(most, cap)


def largest_count(wall: Wall, unit: Unit, cap: int) -> int:
    """Return how many units of one kind fit along a wall, up to a cap.

    Parameters
    ----------
    wall : Wall
    unit : Unit
        Of which the width and the places are [m].
    cap : int

    Returns
    -------
    int

    Notes
    -----
    Source: derived.
    """
    return largest_in(lane_of(wall, (unit,)), 0, cap)


def largest_in(lane: Lane, kind: int, cap: int) -> int:
    """Return how many units of one kind fit in a lane, up to a cap.

    Parameters
    ----------
    lane : Lane
        [m].
    kind, cap : int

    Returns
    -------
    int

    Notes
    -----
    Source: derived.
    """
    alone = Lane(
        (lane.width[kind],), (lane.places[kind],), ((lane.apart[kind][kind],),), lane.rooms
    )
    return max(left[0] for left in _latest(alone, (cap,)))


def placed_at_most(lane: Lane, counts: tuple[int, ...]) -> int:
    """Return how many of the units asked for stand in a lane, wherever they stand.

    Parameters
    ----------
    lane : Lane
        [m].
    counts : tuple of int

    Returns
    -------
    int

    Notes
    -----
    Source: derived.
    """
    return max(sum(left) for left in _latest(lane, counts))


def _rank(left: _Counts, most_of: int | None) -> tuple[int, int]:
    """Return how many units count first, and how many of the kind of which as many as fit."""
    if most_of is None:
        return sum(left), 0
    return sum(left) - left[most_of], left[most_of]


def _latest(lane: Lane, counts: tuple[int, ...]) -> dict[_Counts, _Latest]:
    """Return the last places for every set of units that fits, the empty one included."""
    found: dict[_Counts, _Latest] = {(0,) * len(counts): {}}
    for left in product(*(range(count + 1) for count in counts)):
        if left in found:
            continue
        places: _Latest = {}
        for kind, count in enumerate(left):
            rest = left[:kind] + (count - 1,) + left[kind + 1 :]
            if count and rest in found:
                _put_before(lane, kind, found[rest], places)
        if places:
            found[left] = places
        elif len(counts) == 1:
            break
    return found


def _put_before(lane: Lane, kind: int, rest: _Latest, places: _Latest) -> None:
    """Add the last places of a unit before the rest, by panels to its left."""
    width, apart = lane.width[kind], lane.apart[kind]
    for panels, allowed in enumerate(lane.places[kind]):
        if not allowed:
            continue
        stop = -inf if rest else inf
        for (following, ahead), x in rest.items():
            if ahead < panels:
                continue
            room = apart[following]
            if ahead > panels:
                room = between(lane, kind, following, panels, ahead)
            if x - room > stop:
                stop = x - room
        x_last = last_to(allowed, stop - width, SAME)
        if x_last is not None:
            places[kind, panels] = x_last


def _leftmost(
    lane: Lane, latest: dict[_Counts, _Latest], starts: list[_Counts]
) -> tuple[tuple[int, float], ...]:
    """Return the arrangement of the first places, first unit first, of some sets of units."""
    #: What is still to come, kind of the last unit and panels to its left -> order of kinds so far.
    ways: dict[tuple[_Counts, int, int], tuple[int, ...]] = {(left, -1, 0): () for left in starts}
    found: list[float] = []
    for _ in range(sum(starts[0])):
        least = inf
        following: dict[tuple[_Counts, int, int], tuple[int, ...]] = {}
        slack = (len(found) + 1) * SAME
        for (left, kind, panels), order in sorted(ways.items(), key=lambda way: way[1]):
            for (ahead, passed), x_last in latest[left].items():
                if passed < panels:
                    continue
                start = 0.0
                if found:
                    room = between(lane, kind, ahead, panels, passed)
                    start = found[-1] + lane.width[kind] + room
                x = first_from(lane.places[ahead][passed], start, slack)
                if x is None or x > x_last + slack or x > least + SAME:
                    continue
                if x < least - SAME:
                    least, following = x, {}
                rest = left[:ahead] + (left[ahead] - 1,) + left[ahead + 1 :]
                following.setdefault((rest, ahead, passed), (*order, ahead))
        found.append(least)
        ways = following
    return tuple(zip(min(ways.values()), found, strict=True))
