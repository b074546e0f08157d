"""The way that is left to pass before a wall, before and after units stand there."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Final, NamedTuple

from service.checks.clearance.wall_lane import SAME, InTheWay, Strip, Unit, Wall

#: What hangs no lower than this narrows no way: 6 ft 8 in.
#: Source: IBC 2021, 1003.3.1, headroom; from memory, not verified.
HEADROOM: Final = 80 * 0.0254


class WalkwayLeft(NamedTuple):
    """Least way before a wall.

    Attributes
    ----------
    before, after : float
        Without the units and with them; infinite where nothing bounds the ground [m].
    """

    before: float
    after: float


def walkway_left(
    wall: Wall, units: Sequence[Unit], positions: Sequence[tuple[int, float]]
) -> WalkwayLeft:
    """Return the least way before a wall without units and with them.

    Parameters
    ----------
    wall : Wall
    units : sequence of Unit
        The kinds.
    positions : sequence of (kind, x)
        Left edges [m].

    Returns
    -------
    WalkwayLeft
        [m].

    Notes
    -----
    The narrowest place of the strip, and past what stands there, stays what it is; a unit narrows
    the ground over its own footprint. Source: derived.
    """
    walked = [strip for strip in wall.strips if strip.walked]
    before = min([min(strip.clear1, strip.clear2) for strip in walked], default=inf)
    before = min(before, passage(wall.strips, wall.in_the_way))
    after = before
    for kind, x in positions:
        unit = units[kind]
        plane = unit.standoff + unit.depth
        for strip in walked:
            after = min(after, least_clear(strip, x, x + unit.width) - plane)
    return WalkwayLeft(before, after)


def passage(strips: Sequence[Strip], things: Sequence[InTheWay]) -> float:
    """Return the least way past what stands before a wall.

    Parameters
    ----------
    strips : sequence of Strip
    things : sequence of InTheWay

    Returns
    -------
    float
        Infinite where nothing stands there, or nothing bounds the ground at it [m].

    Notes
    -----
    People pass a thing where it is wider, behind it or before it. Source: derived.
    """
    found = inf
    for strip in strips:
        if not strip.walked:
            continue
        begins, ends = strip.x1, strip.x2
        for x1, x2, near, far in things:
            if x2 > begins and x1 < ends:
                clear = least_clear(strip, x1, x2)
                if clear < inf:
                    found = min(found, max(clear - far, min(clear, near)))
    return found


def least_clear(strip: Strip, x1: float, x2: float) -> float:
    """Return the least depth of a piece of ground between two points along the wall.

    Parameters
    ----------
    strip : Strip
    x1, x2 : float
        [m].

    Returns
    -------
    float
        Infinite where the piece is only touched [m].

    Notes
    -----
    Source: derived.
    """
    lo = x1 if x1 > strip.x1 else strip.x1
    hi = x2 if x2 < strip.x2 else strip.x2
    if hi - lo <= SAME:
        return inf
    if strip.clear1 == strip.clear2:
        return strip.clear1
    slope = (strip.clear2 - strip.clear1) / (strip.x2 - strip.x1)
    return strip.clear1 + min(slope * (lo - strip.x1), slope * (hi - strip.x1))
