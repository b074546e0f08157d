"""Walls and units of the cases, in inches, as the kernel takes them, in metres."""

from math import inf

from service.checks.clearance.wall_lane import WORKING_HEIGHT, KeepOut, Panel, Strip, Unit, Wall

IN = 0.0254


def unit(**changed: float) -> Unit:
    """Return the unit of the cases, its lengths in inches, changed in some."""
    given: dict[str, float] = {
        "width": 26, "height": 40, "depth": 10, "standoff": 1, "bottom": 18, "level_gap": 36,
        "left": 0, "right": 0, "top": 0, "front": 0, "working_width": 30, "gap": 36,
        "ceiling": inf, **changed,
    }  # fmt: skip
    levels = int(given.pop("levels", 1))
    return Unit(levels=levels, **{name: value * IN for name, value in given.items()})


def keep_out(
    x1: float,
    x2: float,
    z1: float,
    z2: float,
    distance: float = 0,
    y: tuple[float, float] = (-inf, inf),
    **changed: bool | int,
) -> KeepOut:
    """Return something to keep off, in inches; an opening of the wall by default."""
    a, b, near, far, low, high, away = (v * IN for v in (x1, x2, *y, z1, z2, distance))
    given = {"any_height": False, "solid": False, "reason": 0, **changed}
    is_solid, any_height = bool(given["solid"]), bool(given["any_height"])
    return KeepOut(a, b, near, far, low, high, away, any_height, is_solid, int(given["reason"]))


def solid(x1: float, x2: float, z1: float, z2: float, reason: int = 0, out: float = inf) -> KeepOut:
    """Return a box on the wall, in inches."""
    return keep_out(x1, x2, z1, z2, 0, (0, out), solid=True, reason=reason)


def strip(
    x1: float, x2: float, clear: float, end: float | None = None, working_depth: float = 36
) -> Strip:
    """Return a piece of ground, in inches."""
    lengths = (x1, x2, clear, clear if end is None else end, working_depth)
    return Strip._make((*(value * IN for value in lengths), True, -1))


def panel(x1: float, x2: float, reason: int = 0, depth: float = 4) -> Panel:
    """Return a panel, in inches, with its working space."""
    wide = max(30.0, x2 - x1) * IN
    return Panel(x1 * IN, x2 * IN, WORKING_HEIGHT, depth * IN, wide, 36 * IN, reason)


def wall(
    length: float,
    *things: KeepOut | Strip | Panel,
    walkway: float = 36,
    left_open: bool = False,
    right_open: bool = False,
) -> Wall:
    """Return a wall, in inches, with what is on it and before it."""
    return Wall(
        length * IN,
        left_open,
        right_open,
        walkway * IN,
        tuple(thing for thing in things if isinstance(thing, KeepOut)),
        tuple(thing for thing in things if isinstance(thing, Strip)),
        tuple(thing for thing in things if isinstance(thing, Panel)),
    )
