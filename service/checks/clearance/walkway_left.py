"""The way that is left to pass before a wall, before and after units stand there."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from service.checks.clearance.wall_lane import SAME, Strip, Unit, Wall


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
    The narrowest place of the strip stays what it is; a unit narrows the ground over its own
    footprint. Source: derived.
    """
    walked = [strip for strip in wall.strips if strip.walked]
    before = min((min(strip.clear1, strip.clear2) for strip in walked), default=inf)
    after = before
    for kind, x in positions:
        unit = units[kind]
        plane = unit.standoff + unit.depth
        for strip in walked:
            after = min(after, least_clear(strip, x, x + unit.width) - plane)
    return WalkwayLeft(before, after)


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
    lo, hi = max(x1, strip.x1), min(x2, strip.x2)
    if hi - lo <= SAME:
        return inf
    if strip.clear1 == strip.clear2:
        return strip.clear1
    slope = (strip.clear2 - strip.clear1) / (strip.x2 - strip.x1)
    return strip.clear1 + min(slope * (lo - strip.x1), slope * (hi - strip.x1))
