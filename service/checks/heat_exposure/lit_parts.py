"""What part of each face the sun reaches past the wall itself, an eave and what stands before it.

All shades run along the wall without an end, so seen along the wall they are points, and the edge
of every shadow is one straight line: the lit part of a rectangle is the difference of two areas
under parallel lines. An eave or a fence that ends lets in more sun than this says.
"""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.line_within import mean_within
from service.checks.heat_exposure.wall_sun import WallSun

Floats = NDArray[np.float64]

#: Height that stands for a wall without an upper edge, and for no screen where it is negative [m].
_FAR: Final = 1e9


class Mounting(NamedTuple):
    """Where a unit hangs, each array of a shape that goes with (..., N) [m].

    Attributes
    ----------
    standoff, depth : array_like
        Way from the wall to the unit's back, and on to its front.
    bottom, height : array_like
        Of the unit, bottom above ground.
    """

    standoff: ArrayLike
    depth: ArrayLike
    bottom: ArrayLike
    height: ArrayLike


class Shades(NamedTuple):
    """What stands in the sun's way, each array of a shape that goes with (..., N) [m].

    Attributes
    ----------
    edge_depth, edge_height : array_like
        How far the eave stands out from the wall, and its lower edge above ground; depth 0 and the
        height of the wall where there is no eave, an infinite height where it is not known.
    screen_distance, screen_height : array_like, shape (K, ...)
        Of fences and neighbours before the wall: how far from it, and how high above ground;
        K may be 0.
    host_wall : array_like of bool
        False leaves out the wall that the unit hangs on, as if it stood free.
    wall_height : array_like
        Upper edge of the wall itself, behind an eave that stands below it.
    """

    edge_depth: ArrayLike = 0.0
    edge_height: ArrayLike = np.inf
    screen_distance: ArrayLike = ()
    screen_height: ArrayLike = ()
    host_wall: ArrayLike = True
    wall_height: ArrayLike = 0.0


def lit_parts(sun: WallSun, unit: Mounting, shades: Shades) -> Floats:
    """Return the part of front, left, right and top that the beam reaches.

    Parameters
    ----------
    sun : WallSun
        Of shape (..., N) [1].
    unit : Mounting
        [m].
    shades : Shades
        [m]; an edge below the unit's top counts as standing at the top, a screen nearer than the
        unit's front as standing there.

    Returns
    -------
    ndarray, shape (4, ..., N)
        Part of the area, 0 to 1 [1]. Whether a face looks at the sun at all is not asked here.

    Notes
    -----
    With the sun behind the wall its upper edge, or that of the eave, lets light on what lies
    farther out than its shadow. Source: derived; similar triangles.
    """
    front, side, top = _before(sun.slope, unit, shades)
    side_behind, top_behind = _behind(sun.slope, unit, shades)
    hosted = np.asarray(shades.host_wall, dtype=np.bool_)
    side = np.where(sun.before, side, np.where(hosted, side_behind, 1.0))
    top = np.where(sun.before, top, np.where(hosted, top_behind, 1.0))
    front = np.where(sun.before, front, np.where(hosted, 0.0, 1.0))
    return np.stack(np.broadcast_arrays(front, side, side, top))


def _before(slope: Floats, unit: Mounting, shades: Shades) -> tuple[Floats, Floats, Floats]:
    """Return the lit parts of front, a side and the top while the sun stands before the wall."""
    back, front, crown = _outline(unit)
    # Heights at which the two edges of light meet the wall; farther out they rise by the slope.
    eave = _edge_height(unit, shades) - _floats(shades.edge_depth) * slope
    screen = _screen(slope, front, shades)
    foot, height = _floats(unit.bottom), _floats(unit.height)
    # Where no screen stands nothing is dark below the line of the eave.
    lines = (eave,) if _floats(shades.screen_distance).size == 0 else (eave, screen)
    under = [
        mean_within(line + back * slope - foot, line + front * slope - foot, height)
        for line in lines
    ]
    fore = [np.minimum(np.maximum(line + front * slope - foot, 0.0), height) for line in lines]
    reach = np.minimum(front, (crown - screen) / slope) - np.maximum(back, (crown - eave) / slope)
    return (
        _beyond(fore) / height,
        _beyond(under) / height,
        np.clip(reach / _floats(unit.depth), 0.0, 1.0),
    )


def _beyond(parts: list[Floats]) -> Floats:
    """Return how much of the first is beyond the second, where there is a second [m]."""
    return parts[0] if len(parts) == 1 else np.maximum(parts[0] - parts[1], 0.0)


def _behind(slope: Floats, unit: Mounting, shades: Shades) -> tuple[Floats, Floats]:
    """Return the lit parts of a side and the top while the sun stands behind the wall."""
    back, front, crown = _outline(unit)
    eave = _edge_height(unit, shades) + _floats(shades.edge_depth) * slope
    shadow = np.maximum(eave, np.minimum(_floats(shades.wall_height), _FAR))
    foot, height = _floats(unit.bottom), _floats(unit.height)
    dark = mean_within(shadow - back * slope - foot, shadow - front * slope - foot, height)
    reach = front - np.maximum(back, (shadow - crown) / slope)
    return 1.0 - dark / height, np.clip(reach / _floats(unit.depth), 0.0, 1.0)


def _floats(value: ArrayLike) -> Floats:
    return np.asarray(value, dtype=np.float64)


def _outline(unit: Mounting) -> tuple[Floats, Floats, Floats]:
    """Return back and front out from the wall, and the top above ground [m]."""
    back = _floats(unit.standoff)
    return back, back + _floats(unit.depth), _floats(unit.bottom) + _floats(unit.height)


def _edge_height(unit: Mounting, shades: Shades) -> Floats:
    return np.clip(_floats(shades.edge_height), _outline(unit)[2], _FAR)


def _screen(slope: Floats, front: Floats, shades: Shades) -> Floats:
    """Return the height at which the shadow line of the highest screen meets the wall [m]."""
    distance = _floats(shades.screen_distance)
    if distance.size == 0:
        return np.asarray(-_FAR)
    lines = _floats(shades.screen_height) - np.maximum(distance, front) * slope
    return np.asarray(np.max(lines, axis=0))
