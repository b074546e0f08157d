"""One wall seen as a lane: what is on it, what lies before it, and a kind of unit to place.

x runs along the wall from left to right, z up from the ground, y out from the wall, all in metres.
"""

from __future__ import annotations

from typing import Final, NamedTuple

#: Two lengths within it are equal, and equality meets a limit [m].
SAME: Final = 1e-9

#: An object has this many reasons, one for each part of it that binds.
PARTS: Final = 4
#: Reasons that no object carries; an object's own reason is what its owner gave it, 0 or more.
WALKWAY: Final = -1
WORKING_SPACE: Final = -2
CEILING: Final = -3
WALL_END: Final = -4
FRONT: Final = -5
SIDE: Final = -7

#: Working space reaches up to here, or to the top of the equipment: 6 ft 6 in.
#: Source: NEC 2023, 110.26(A)(3).
WORKING_HEIGHT: Final = 78 * 0.0254

#: Open interval of left edges [m] that a rule forbids, and the reason.
Ban = tuple[float, float, int]


class KeepOut(NamedTuple):
    """A box that units stay off, or stay away from.

    Attributes
    ----------
    x1, x2 : float
        From and to along the wall; 0 or the wall's length, both, for what is on the wall round an
        inside corner [m].
    y1, y2 : float
        Out from the wall; without bounds for an opening of the same wall [m].
    z1, z2 : float
        Above the ground [m].
    distance : float
        Least distance of a unit; 0 forbids overlap alone [m].
    any_height : bool
        Whether the distance is taken along the wall at whatever height a unit hangs.
    solid : bool
        Whether it stands in the way of a unit and its side clearances, and of working space.
    reason : int
        What its owner knows it by.
    """

    x1: float
    x2: float
    y1: float
    y2: float
    z1: float
    z2: float
    distance: float
    any_height: bool
    solid: bool
    reason: int


class Strip(NamedTuple):
    """A piece of the ground before the wall, bounded by a fence or another obstruction.

    Attributes
    ----------
    x1, x2 : float
        From and to along the wall [m].
    clear1, clear2 : float
        From wall to obstruction at both ends, straight between [m].
    working_depth : float
        Depth of working space before a unit here, by what the obstruction is made of [m].
    walked : bool
        Whether the way of people is on this side of the obstruction.
    thing : int
        The object that ends it, -1 where it is none.
    """

    x1: float
    x2: float
    clear1: float
    clear2: float
    working_depth: float
    walked: bool = True
    thing: int = -1


class Panel(NamedTuple):
    """Electrical equipment already there, whose working space units must leave.

    Attributes
    ----------
    x1, x2 : float
        From and to along the wall [m].
    top : float
        Its top above the ground [m].
    depth : float
        How far it stands out from the wall [m].
    working_width, working_depth : float
        Of its working space [m].
    reason : int
        What its owner knows it by; a keep-out with the same reason is the panel itself.
    """

    x1: float
    x2: float
    top: float
    depth: float
    working_width: float
    working_depth: float
    reason: int


class InTheWay(NamedTuple):
    """What stands before the wall already, or comes out of it.

    Attributes
    ----------
    x1, x2 : float
        From and to along the wall [m].
    near, far : float
        Of its faces from the wall; `near` is 0 where it hangs on it [m].
    """

    x1: float
    x2: float
    near: float
    far: float


class Wall(NamedTuple):
    """A wall and what is on it and before it.

    Attributes
    ----------
    length : float
        From corner to corner [m].
    left_open, right_open : bool
        Whether working space may pass that end.
    walkway : float
        Least way that must stay before a unit; 0 where nobody needs to pass [m].
    keep_outs, strips, panels : tuple
        Where no strip is given the ground before the wall is open without end.
    in_the_way : tuple of InTheWay
        What the way of people leads past; it forbids no unit.
    """

    length: float
    left_open: bool
    right_open: bool
    walkway: float
    keep_outs: tuple[KeepOut, ...]
    strips: tuple[Strip, ...]
    panels: tuple[Panel, ...]
    in_the_way: tuple[InTheWay, ...] = ()


class Unit(NamedTuple):
    """A kind of unit, or a column of equal ones, one above the other.

    Attributes
    ----------
    width, height, depth : float
        Of one box [m].
    standoff : float
        From wall to the back of the box [m].
    bottom : float
        Of the lowest box above the ground [m].
    levels : int
        Boxes in a column, 1 or more.
    level_gap : float
        Between a box and the one above [m].
    left, right, top, front : float
        Clearances that its maker asks for [m].
    working_width : float
        Width of its working space, not below its own; 0 where it needs none [m].
    gap : float
        To the next unit along the wall [m].
    ceiling : float
        Height that its top and the clearance above may reach; infinite for none [m].
    """

    width: float
    height: float
    depth: float
    standoff: float
    bottom: float
    levels: int
    level_gap: float
    left: float
    right: float
    top: float
    front: float
    working_width: float
    gap: float
    ceiling: float


def front_plane(unit: Unit) -> float:
    """Return how far a unit reaches out from the wall [m].

    Notes
    -----
    Source: derived.
    """
    return unit.standoff + unit.depth


def top_of(unit: Unit) -> float:
    """Return the height of the top of a box, or of the highest of a column [m].

    Notes
    -----
    Source: derived.
    """
    return unit.bottom + (unit.height + unit.level_gap) * (unit.levels - 1) + unit.height


def bottoms(unit: Unit) -> tuple[float, ...]:
    """Return the height of the bottom of each box of a column, lowest first [m].

    Notes
    -----
    Source: derived.
    """
    step = unit.height + unit.level_gap
    return tuple(unit.bottom + step * level for level in range(unit.levels))
