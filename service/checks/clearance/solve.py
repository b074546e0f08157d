"""A scene solved: where each kind may go alone, and how all that are wanted stand together."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.arrange import Arrangement, arrange_in, largest_in, placed_at_most
from service.checks.clearance.lane_steps import Lane, lane_of
from service.checks.clearance.left_edges import LeftEdges, kept_spans, left_edges
from service.checks.clearance.panel_space import PanelRoom, panel_rooms
from service.checks.clearance.scenes import Scene
from service.checks.clearance.wall_lane import Ban

#: Most units of one kind that are counted on one wall.
MOST: Final = 24


class Solved(NamedTuple):
    """What a scene comes to.

    Attributes
    ----------
    edges : tuple of LeftEdges
        Of each kind alone [m].
    arrangement : Arrangement
        Of all that are wanted [m].
    room, most : tuple of int
        Of each kind alone, as far as they are counted: by room, and capped.
    """

    edges: tuple[LeftEdges, ...]
    arrangement: Arrangement
    room: tuple[int, ...]
    most: tuple[int, ...]


def solve(scene: Scene, counts: tuple[int, ...], caps: tuple[int, ...] | None) -> Solved:
    """Return what a scene comes to.

    Parameters
    ----------
    scene : Scene
    counts : tuple of int
        How many of each kind are wanted.
    caps : tuple of int or None
        How many of each kind other limits leave; None: the most is not asked.

    Notes
    -----
    Source: derived.
    """
    edges, lane = _lane(scene, spans_of(scene))
    found = arrange_in(lane, counts, None)
    none = (0,) * len(counts)
    room = none if caps is None else tuple(largest_in(lane, at, MOST) for at in range(len(counts)))
    most = none if caps is None else tuple(map(min, room, caps))
    return Solved(edges, found, room, most)


def edges_of(scene: Scene) -> tuple[LeftEdges, ...]:
    """Return where each kind may go alone."""
    return tuple(left_edges(w, u) for w, u in zip(scene.walls, scene.units, strict=True))


def spans_of(scene: Scene) -> tuple[list[Ban], ...]:
    """Return what no part of each kind may enter, whatever its width [m]."""
    return tuple([kept_spans(w, u) for w, u in zip(scene.walls, scene.units, strict=True)])


def fits(
    scene: Scene,
    counts: tuple[int, ...],
    spans: tuple[list[Ban], ...] | None = None,
    rooms: tuple[PanelRoom, ...] | None = None,
) -> bool:
    """Return whether all that are wanted stand; `spans` and `rooms` where they are known [m]."""
    edges, lane = _lane(scene, spans_of(scene) if spans is None else spans, rooms)
    if not all(edge.allowed for edge in edges):
        return False
    return placed_at_most(lane, counts) == sum(counts)


def placed_in(scene: Scene, counts: tuple[int, ...], spans: tuple[list[Ban], ...]) -> int:
    """Return how many of those wanted stand together; `spans` are known [m]."""
    _, lane = _lane(scene, spans)
    return placed_at_most(lane, counts)


def _lane(
    scene: Scene, spans: tuple[list[Ban], ...], known: tuple[PanelRoom, ...] | None = None
) -> tuple[tuple[LeftEdges, ...], Lane]:
    """Return the places of each kind, and the lane of all of them."""
    wall = scene.walls[0]
    rooms = panel_rooms(wall) if known is None else known
    # Walls differ by kind in distances and depths, and a depth bounds the room of a panel too.
    edges = tuple(
        [
            left_edges(w, u, rooms if w is wall else None, kept)
            for w, u, kept in zip(scene.walls, scene.units, spans, strict=True)
        ]
    )
    return edges, lane_of(wall, scene.units, edges, rooms)
