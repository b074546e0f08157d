"""From one unit on a wall to the next: the places of a kind, and the room between two units."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from service.checks.clearance.interval_set import Interval
from service.checks.clearance.left_edges import left_edges
from service.checks.clearance.panel_space import PanelRoom, panel_rooms
from service.checks.clearance.wall_lane import SAME, Unit, Wall


class Lane(NamedTuple):
    """What the search for an arrangement knows of a wall and of the kinds of units.

    Attributes
    ----------
    width : tuple of float, one for each kind
        [m].
    places : tuple of tuple of tuple of (lo, hi)
        Left edges of each kind, by how many panels lie to the left of the unit [m].
    apart : tuple of tuple of float
        Spacing between neighbours of two kinds [m].
    rooms : tuple of float
        Working width of each panel, left to right [m].
    """

    width: tuple[float, ...]
    places: tuple[tuple[tuple[Interval, ...], ...], ...]
    apart: tuple[tuple[float, ...], ...]
    rooms: tuple[float, ...]


def lane_of(
    wall: Wall,
    units: Sequence[Unit],
    allowed: Sequence[tuple[Interval, ...]] | None = None,
    known: tuple[PanelRoom, ...] | None = None,
) -> Lane:
    """Return what the search knows of a wall and of some kinds of units.

    Parameters
    ----------
    wall : Wall
    units : sequence of Unit
    allowed : sequence of tuple of (lo, hi), optional
        Left edges of each kind, where they are known, or where the wall keeps different distances
        from different kinds [m].
    known : tuple of PanelRoom, optional
        Rooms of the wall's panels, where they are known already.

    Returns
    -------
    Lane
        [m].

    Notes
    -----
    Source: derived.
    """
    rooms = panel_rooms(wall) if known is None else known
    places = [left_edges(wall, unit).allowed for unit in units] if allowed is None else allowed
    return Lane(
        tuple([unit.width for unit in units]),
        tuple([_by_panels(place, rooms) for place in places]),
        tuple([tuple([max(one.gap, other.gap) for other in units]) for one in units]),
        tuple([room.width for room in rooms]),
    )


def _by_panels(
    allowed: tuple[Interval, ...], rooms: tuple[PanelRoom, ...]
) -> tuple[tuple[Interval, ...], ...]:
    """Return the places by how many panels lie to the left: no place spans a panel."""
    if not rooms:
        return (allowed,)
    found: list[list[Interval]] = [[] for _ in range(len(rooms) + 1)]
    passed = 0
    for lo, hi in allowed:
        while passed < len(rooms) and rooms[passed].x2 <= lo + SAME:
            passed += 1
        found[passed].append((lo, hi))
    return tuple([tuple(places) for places in found])


def between(lane: Lane, left: int, right: int, after: int, before: int) -> float:
    """Return the least room between two neighbours.

    Parameters
    ----------
    lane : Lane
    left, right : int
        Their kinds.
    after, before : int
        How many panels lie to the left of each; the working space of each panel in between, which
        slides, has to fit into the room.

    Returns
    -------
    float
        [m].

    Notes
    -----
    Source: derived.
    """
    apart = lane.apart[left][right]
    return apart if after == before else max(apart, *lane.rooms[after:before])


def first_from(places: Sequence[Interval], start: float, slack: float) -> float | None:
    """Return the first place at or after a point, or None.

    Parameters
    ----------
    places : sequence of (lo, hi)
        Closed, left to right [m].
    start, slack : float
        The point, and how much before it still counts as there [m].

    Returns
    -------
    float or None
        [m].

    Notes
    -----
    Source: derived.
    """
    for lo, hi in places:
        if hi >= start - slack:
            return max(lo, min(start, hi))
    return None


def last_to(places: Sequence[Interval], stop: float, slack: float) -> float | None:
    """Return the last place at or before a point, or None.

    Parameters
    ----------
    places : sequence of (lo, hi)
        Closed, left to right [m].
    stop, slack : float
        The point, and how much after it still counts as there [m].

    Returns
    -------
    float or None
        [m].

    Notes
    -----
    Source: derived.
    """
    for lo, hi in reversed(places):
        if lo <= stop + slack:
            return max(lo, min(stop, hi))
    return None
