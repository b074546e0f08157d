"""Which points of a unit the sun reaches, by following each ray; apart from the service."""

import math
from typing import NamedTuple


class Scene(NamedTuple):
    """A wall in the plane y = 0, what hangs on it and stands before it, all lengths [m]."""

    standoff: float
    depth: float
    bottom: float
    height: float
    eave_depth: float
    eave_height: float
    screens: tuple[tuple[float, float], ...]


def is_lit(scene: Scene, out: float, up: float, towards: float, rise: float) -> bool:
    """Return whether the ray from a point reaches the sun.

    `out` and `up` are the point's way from the wall and height; `towards` and `rise` the
    components of the direction of the sun away from the wall and upwards.
    """
    # The wall, from the ground to the height of the eave.
    if towards < 0.0:
        at_wall = up + rise * (out / -towards)
        if at_wall < scene.eave_height:
            return False
    # The eave, a level sheet from the wall to its edge.
    if rise > 0.0 and scene.eave_depth > 0.0:
        crossing = out + towards * (scene.eave_height - up) / rise
        if up < scene.eave_height and 0.0 <= crossing < scene.eave_depth:
            return False
    # Upright screens along the wall.
    for distance, height in scene.screens:
        ahead = towards > 0.0 and out < distance
        if ahead and up + rise * (distance - out) / towards < height:
            return False
    return True


def lit_share(scene: Scene, face: str, towards: float, rise: float, points: int = 60) -> float:
    """Return the share of a grid of points on a face that the sun reaches."""
    middles = [(i + 0.5) / points for i in range(points)]
    front, top = scene.standoff + scene.depth, scene.bottom + scene.height
    outs = [front] if face == "front" else [scene.standoff + scene.depth * m for m in middles]
    ups = [top] if face == "top" else [scene.bottom + scene.height * m for m in middles]
    hits = [is_lit(scene, out, up, towards, rise) for out in outs for up in ups]
    return math.fsum(hits) / len(hits)
