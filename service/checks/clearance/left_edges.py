"""Where the left edge of a unit may be along a wall, and what forbids the rest."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, inf, sqrt
from typing import NamedTuple

from service.checks.clearance.clear_depth import depth_bans
from service.checks.clearance.interval_set import Interval, complement
from service.checks.clearance.panel_space import PanelRoom, panel_ban, panel_rooms
from service.checks.clearance.wall_lane import (
    CEILING,
    SAME,
    SIDE,
    WALL_END,
    Ban,
    Unit,
    Wall,
    bottoms,
    top_of,
)


class LeftEdges(NamedTuple):
    """Left edges of a unit between 0 and the last one at which it is still on the wall.

    Attributes
    ----------
    allowed : tuple of (lo, hi)
        Closed, left to right; exact [m].
    bans : sequence of (lo, hi, reason)
        Open, one for each rule that forbids something [m].
    end : float
        The last left edge [m].
    """

    allowed: tuple[Interval, ...]
    bans: Sequence[Ban]
    end: float

    @property
    def forbidden(self) -> tuple[Ban, ...]:
        """What each rule forbids, cut at both ends of the wall [m]."""
        end = self.end
        return tuple(
            [
                (lo if lo > 0.0 else 0.0, hi if hi < end else end, reason)
                for lo, hi, reason in self.bans
            ]
        )


def left_edges(
    wall: Wall,
    unit: Unit,
    rooms: tuple[PanelRoom, ...] | None = None,
    spans: Sequence[Ban] | None = None,
) -> LeftEdges:
    """Return where the left edge of a unit may be.

    Parameters
    ----------
    wall : Wall
    unit : Unit
    rooms : tuple of PanelRoom, optional
        Those of the wall, where they are known already.
    spans : sequence of (lo, hi, reason), optional
        Those of `kept_spans`, where they are known already [m].

    Returns
    -------
    LeftEdges
        [m].

    Notes
    -----
    Every rule is an open set of left edges, so that equality passes; a column of boxes keeps the
    rules at every level. Source: derived; the distances and depths are the caller's.
    """
    end = wall.length - unit.width
    if end < -SAME:
        return LeftEdges((), ((0.0, 0.0, WALL_END),), 0.0)
    end = max(end, 0.0)
    kept = kept_spans(wall, unit) if spans is None else spans
    bans = _bans(wall, unit, panel_rooms(wall) if rooms is None else rooms, kept)
    return LeftEdges(complement([(lo, hi) for lo, hi, _ in bans], end), bans, end)


def allowed_edges(
    wall: Wall, unit: Unit, rooms: tuple[PanelRoom, ...], spans: Sequence[Ban]
) -> tuple[Interval, ...]:
    """Return where the left edge of a unit may be, whatever forbids the rest.

    Parameters
    ----------
    wall : Wall
    unit : Unit
    rooms : tuple of PanelRoom
        Those of the wall.
    spans : sequence of (lo, hi, reason)
        Those of `kept_spans`, joined or not [m].

    Returns
    -------
    tuple of (lo, hi)
        `allowed` of `left_edges` [m].

    Notes
    -----
    Source: derived.
    """
    end = wall.length - unit.width
    if end < -SAME:
        return ()
    bans = _bans(wall, unit, rooms, spans)
    return complement([(lo, hi) for lo, hi, _ in bans], max(end, 0.0))


def _bans(wall: Wall, unit: Unit, rooms: tuple[PanelRoom, ...], spans: Sequence[Ban]) -> list[Ban]:
    """Return what each rule forbids of the left edges on the wall; open [m]."""
    width = unit.width
    bans = [(lo - width, hi, reason) for lo, hi, reason in spans]
    bans += depth_bans(wall, unit)
    bans += [panel_ban(room, unit) for room in rooms]
    if top_of(unit) + unit.top > unit.ceiling + SAME:
        bans.append((-inf, inf, CEILING))
    # What a wall meets at its end is in the room at a side as any other thing is.
    if unit.left > 0.0 and not wall.left_open:
        bans.append((-inf, unit.left, SIDE))
    if unit.right > 0.0 and not wall.right_open:
        bans.append((wall.length - width - unit.right, inf, SIDE))
    last = max(wall.length - width, 0.0) - SAME
    return [ban for ban in bans if ban[0] < last and ban[1] > SAME and ban[1] - ban[0] > SAME]


def joined(spans: Sequence[Ban]) -> list[Ban]:
    """Return spans with those that meet joined into one, which has the reason of its first.

    Parameters
    ----------
    spans : sequence of (lo, hi, reason)
        Those of `kept_spans` [m].

    Returns
    -------
    list of (lo, hi, reason)
        They forbid the same left edges to a unit of any width above 0 [m].

    Notes
    -----
    Source: derived.
    """
    found: list[Ban] = []
    for lo, hi, reason in sorted(spans):
        if found and lo <= found[-1][1]:
            if hi > found[-1][1]:
                found[-1] = (found[-1][0], hi, found[-1][2])
        else:
            found.append((lo, hi, reason))
    return found


def kept_spans(wall: Wall, unit: Unit) -> list[Ban]:
    """Return the parts of a wall that no part of a unit may enter, whatever its width.

    Parameters
    ----------
    wall : Wall
    unit : Unit

    Returns
    -------
    list of (lo, hi, reason)
        Open, of each keep-out that the unit comes too near to at its height and depth [m].

    Notes
    -----
    A distance is measured from box to box: what height and depth leave of it, by Pythagoras, is
    kept along the wall. What is solid stays out of the room that the maker keeps at the sides of a
    box and above it. Source: derived.
    """
    back, height, top = unit.standoff, unit.height, unit.top
    front, left, right = back + unit.depth, unit.left, unit.right
    levels = bottoms(unit)
    one = len(levels) == 1
    bottom = levels[0]
    found: list[Ban] = []
    for x1, x2, y1, y2, z1, z2, distance, any_height, solid, reason in wall.keep_outs:
        # Below 0 it is how far the ranges overlap; `over` counts the room above a box to it.
        dy = y1 - front
        if back - y2 > dy:
            dy = back - y2
        if one:
            above, below = z1 - bottom - height, bottom - z2
            dz = above if above > below else below
        else:
            dz = _nearest_level(levels, height, z1, z2)
        if distance > 0.0:
            apart = hypot(dy if dy > 0.0 else 0.0, dz if dz > 0.0 and not any_height else 0.0)
            if apart < distance - SAME:
                along = sqrt((distance - apart) * (distance + apart))
                found.append((x1 - along, x2 + along, reason))
        if dy < -SAME and (solid or distance <= 0.0):
            if dz < -SAME:
                found.append((x1 - right, x2 + left, reason) if solid else (x1, x2, reason))
            elif top > 0.0 and solid and _nearest_level(levels, height + top, z1, z2) < -SAME:
                found.append((x1, x2, reason))
    return found


def _nearest_level(levels: tuple[float, ...], height: float, z1: float, z2: float) -> float:
    """Return how far the nearest box of a column is above or below; below 0 they overlap [m]."""
    return min(max(z1 - bottom - height, bottom - z2) for bottom in levels)
