"""What a door that opens outward sweeps in front of the wall."""

from __future__ import annotations

from math import cos, inf, radians, sin, sqrt, tan

from service.checks.clearance.wall_lane import SAME


def door_sweep(
    x1: float,
    x2: float,
    hinge: str,
    leaf: float,
    angle: float,
    standoff: float,
    front: float = inf,
) -> tuple[float, float] | None:
    """Return from where to where along the wall a leaf meets what stands off the wall.

    Parameters
    ----------
    x1, x2 : float
        Sides of the opening [m].
    hinge : {"left", "right"}
        Side of the hinge, seen from outside.
    leaf : float
        Width of the leaf [m].
    angle : float
        How far it opens from closed, 90 to 180 [degrees].
    standoff : float
        Where that which stands there begins, out from the wall [m].
    front : float, optional
        Where it ends; without end by default, which sweeps no less [m].

    Returns
    -------
    tuple of (lo, hi), or None
        None where the leaf does not reach so far out [m].

    Notes
    -----
    The sector about the hinge, cut by the band from `standoff` to `front`: towards the closed leaf
    it reaches furthest at the near edge of the band. On the other side the open leaf bounds it, up
    to the tip of the leaf and from there the arc. Source: derived.
    """
    if leaf - standoff <= SAME:
        return None
    near = sqrt(leaf * leaf - standoff * standoff)
    beyond = _beyond_hinge(leaf, radians(angle), standoff, front)
    return (x2 - near, x2 + beyond) if hinge == "right" else (x1 - beyond, x1 + near)


def _beyond_hinge(leaf: float, angle: float, standoff: float, front: float) -> float:
    """Return how far the sector reaches past the hinge, away from the closed leaf [m]."""
    tip = leaf * sin(angle)
    if standoff >= tip:
        return sqrt(leaf * leaf - standoff * standoff)
    out = min(tip, front)
    return max(0.0, -out / tan(angle)) if out < tip else max(0.0, -leaf * cos(angle))
