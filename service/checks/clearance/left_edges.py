"""Where the left edge of a unit may be along a wall, and what forbids the rest."""

from __future__ import annotations

from math import hypot, inf, sqrt
from typing import NamedTuple

from service.checks.clearance.clear_depth import depth_bans
from service.checks.clearance.interval_set import Interval, complement
from service.checks.clearance.panel_space import PanelRoom, panel_ban, panel_rooms
from service.checks.clearance.wall_lane import (
    CEILING,
    SAME,
    WALL_END,
    Ban,
    KeepOut,
    Unit,
    Wall,
    bottoms,
)


class LeftEdges(NamedTuple):
    """Left edges of a unit between 0 and the last one at which it is still on the wall.

    Attributes
    ----------
    allowed : tuple of (lo, hi)
        Closed, left to right; exact [m].
    forbidden : tuple of (lo, hi, reason)
        Open, one for each rule that forbids something, cut at both ends of the wall [m].
    """

    allowed: tuple[Interval, ...]
    forbidden: tuple[Ban, ...]


def left_edges(wall: Wall, unit: Unit, rooms: tuple[PanelRoom, ...] | None = None) -> LeftEdges:
    """Return where the left edge of a unit may be.

    Parameters
    ----------
    wall : Wall
    unit : Unit
    rooms : tuple of PanelRoom, optional
        Those of the wall, where they are known already.

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
        return LeftEdges((), ((0.0, 0.0, WALL_END),))
    end = max(end, 0.0)
    levels = bottoms(unit)
    bans = [ban for k in wall.keep_outs if (ban := keep_out_ban(k, unit, levels))]
    bans += depth_bans(wall, unit)
    bans += [panel_ban(room, unit) for room in (panel_rooms(wall) if rooms is None else rooms)]
    if levels[-1] + unit.height + unit.top > unit.ceiling + SAME:
        bans.append((-inf, inf, CEILING))
    binding = [b for b in bans if b[0] < end - SAME and b[1] > SAME and b[1] - b[0] > SAME]
    return LeftEdges(
        complement([(lo, hi) for lo, hi, _ in binding], end),
        tuple((max(lo, 0.0), min(hi, end), reason) for lo, hi, reason in binding),
    )


def keep_out_ban(keep_out: KeepOut, unit: Unit, levels: tuple[float, ...]) -> Ban | None:
    """Return the left edges at which a unit comes too near to one thing.

    Parameters
    ----------
    keep_out : KeepOut
    unit : Unit
    levels : tuple of float
        Bottoms of its boxes [m].

    Returns
    -------
    tuple of (lo, hi, reason), or None
        Open [m].

    Notes
    -----
    A distance is measured from box to box: what height and depth leave of it, by Pythagoras, is
    kept along the wall. What is solid stays out of the room that the maker keeps at the sides of a
    box and above it. Source: derived.
    """
    x1, x2, y1, y2, z1, z2, distance, any_height, solid, reason = keep_out
    # Below 0 it is how far the ranges overlap.
    back, height = unit.standoff, unit.height
    dy = max(y1 - back - unit.depth, back - y2)
    # `over` with the room above a box counted to it.
    dz, over = inf, inf
    for bottom in levels:
        above, below = z1 - bottom - height, bottom - z2
        dz = min(dz, above if above > below else below)
        over = min(over, max(above - unit.top, below))
    lo, hi = inf, -inf
    if distance > 0.0:
        apart = hypot(dy if dy > 0.0 else 0.0, dz if dz > 0.0 and not any_height else 0.0)
        if apart < distance - SAME:
            along = sqrt((distance - apart) * (distance + apart))
            lo, hi = x1 - along, x2 + along
    if dy < -SAME and dz < -SAME and (solid or distance <= 0.0):
        lo = min(lo, x1 - unit.right if solid else x1)
        hi = max(hi, x2 + unit.left if solid else x2)
    if solid and dy < -SAME and over < -SAME:
        lo, hi = min(lo, x1), max(hi, x2)
    return None if lo == inf else (lo - unit.width, hi, reason)
