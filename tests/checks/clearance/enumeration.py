"""A wall by enumeration: every place on a grid, judged box by box, in whole inches.

It shares with the kernel the tuples that hold the numbers, and none of its intervals: an edge, a
working space of a unit and one of a panel are tried one by one.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from service.checks.clearance.wall_lane import KeepOut, Panel, Strip, Unit, Wall

IN = 0.0254
FAR = 10**6
HIGH = 78


def in_metres(wall: Wall, step: float = IN) -> Wall:
    """Return a wall given in whole steps in metres."""
    return Wall(
        wall.length * step,
        wall.left_open,
        wall.right_open,
        wall.walkway * step,
        tuple(KeepOut._make((*(v * step for v in k[:7]), *k[7:])) for k in wall.keep_outs),
        tuple(Strip._make((*(v * step for v in s[:5]), s.walked, s.thing)) for s in wall.strips),
        tuple(Panel._make((*(v * step for v in p[:6]), p.reason)) for p in wall.panels),
    )


def unit_in_metres(unit: Unit, step: float = IN) -> Unit:
    """Return a unit given in whole steps in metres."""
    lengths = {name: v * step for name, v in unit._asdict().items() if name != "levels"}
    return Unit(levels=unit.levels, **lengths)


def between(a1: float, a2: float, b1: float, b2: float) -> float:
    """Return how far two ranges are apart, below 0 by how much they overlap."""
    return max(b1 - a2, a1 - b2)


def keeps_off(unit: Unit, x: float, thing: KeepOut) -> bool:
    """Return whether every box of a unit at a place keeps off one thing."""
    front = unit.standoff + unit.depth
    dy = between(unit.standoff, front, thing.y1, thing.y2)
    for level in range(unit.levels):
        z = unit.bottom + level * (unit.height + unit.level_gap)
        dz = between(z, z + unit.height, thing.z1, thing.z2)
        dx = between(x, x + unit.width, thing.x1, thing.x2)
        if thing.distance:
            high = 0 if thing.any_height else max(dz, 0)
            if max(dx, 0) ** 2 + max(dy, 0) ** 2 + high**2 < thing.distance**2:
                return False
        if thing.solid:
            over = max(thing.z1 - z - unit.height - unit.top, z - thing.z2)
            if max(dx, dy, over) < 0:
                return False
            dx = between(x - unit.left, x + unit.width + unit.right, thing.x1, thing.x2)
        if (thing.solid or not thing.distance) and max(dx, dy, dz) < 0:
            return False
    return True


def ground(wall: Wall, x1: float, x2: float) -> Iterator[tuple[Fraction, float]]:
    """Yield the least depth of each piece of ground inside a range, and its working depth."""
    for s in wall.strips:
        lo, hi = max(x1, s.x1), min(x2, s.x2)
        if lo < hi:
            rise = Fraction(s.clear2 - s.clear1) / Fraction(s.x2 - s.x1)
            ends = [Fraction(s.clear1) + rise * Fraction(x - s.x1) for x in (lo, hi)]
            yield min(ends), s.working_depth


def has_working_space(wall: Wall, unit: Unit, x: float) -> bool:
    """Return whether some working space holds the footprint of a unit at a place."""
    width, front = int(unit.working_width), unit.standoff + unit.depth
    return not width or any(
        on_wall(wall, a, a + width)
        and all(clear >= front + depth for clear, depth in ground(wall, a, a + width))
        for a in range(int(x + unit.width) - width, int(x) + 1)
    )


def on_wall(wall: Wall, x1: float, x2: float) -> bool:
    """Return whether working space passes no closed end of a wall."""
    return (wall.left_open or x1 >= 0) and (wall.right_open or x2 <= wall.length)


def stands(wall: Wall, unit: Unit, x: float) -> bool:
    """Return whether a unit may stand at a place, whatever panels ask for beside themselves."""
    front = unit.standoff + unit.depth
    highest = unit.bottom + (unit.levels - 1) * (unit.height + unit.level_gap) + unit.height
    way = front + max(wall.walkway, unit.front)
    return (
        0 <= x <= wall.length - unit.width
        and (wall.left_open or x >= unit.left)
        and (wall.right_open or x <= wall.length - unit.width - unit.right)
        and highest + unit.top <= unit.ceiling
        and all(keeps_off(unit, x, thing) for thing in wall.keep_outs)
        and all(clear >= way for clear, _ in ground(wall, x, x + unit.width))
        and has_working_space(wall, unit, x)
        and all(between(x, x + unit.width, p.x1, p.x2) >= 0 for p in wall.panels)
    )


def spaces(wall: Wall, panel: Panel) -> list[tuple[int, int]]:
    """Return every working space that a panel can have before units come."""
    width = int(panel.working_width)
    return [
        (a, a + width)
        for a in range(int(panel.x2) - width, int(panel.x1) + 1)
        if on_wall(wall, a, a + width)
        and not any(in_the_way(thing, panel, a, a + width) for thing in wall.keep_outs)
        and all(
            clear >= panel.depth + panel.working_depth for clear, _ in ground(wall, a, a + width)
        )
    ]


def in_the_way(thing: KeepOut, panel: Panel, x1: float, x2: float) -> bool:
    """Return whether something beside a panel takes a part of a working space."""
    return (
        thing.solid
        and between(x1, x2, thing.x1, thing.x2) < 0
        and between(panel.x1, panel.x2, thing.x1, thing.x2) >= 0
        and thing.z1 < max(HIGH, panel.top)
        and thing.y2 > panel.depth
    )


def choices(wall: Wall) -> Iterator[tuple[tuple[int, int], ...]]:
    """Yield one working space for each panel that has any, in every combination."""
    yield from product(*(found for panel in wall.panels if (found := spaces(wall, panel))))


def places(wall: Wall, unit: Unit) -> list[set[int]]:
    """Return the places of one unit on the grid, for each choice of the panels' spaces."""
    free = [x for x in range(int(wall.length) + 1) if stands(wall, unit, x)]
    return [
        {x for x in free if all(between(x, x + unit.width, *space) >= 0 for space in chosen)}
        for chosen in choices(wall)
    ]
