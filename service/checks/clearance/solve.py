"""A scene solved: where each kind may go alone, and how all that are wanted stand together."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.arrange import Arrangement, arrange_in, largest_in, placed_at_most
from service.checks.clearance.lane_steps import lane_of
from service.checks.clearance.left_edges import (
    LeftEdges,
    allowed_edges,
    joined,
    kept_spans,
    left_edges,
)
from service.checks.clearance.panel_space import PanelRoom, panel_rooms
from service.checks.clearance.scenes import Scene
from service.checks.clearance.wall_lane import Ban, Wall

#: What no part of each kind may enter [m].
Spans = tuple[list[Ban], ...]
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
    rooms = panel_rooms(scene.walls[0])
    edges = edges_of(scene, rooms)
    lane = lane_of(scene.walls[0], scene.units, [kind.allowed for kind in edges], rooms)
    found = arrange_in(lane, counts, None)
    none = (0,) * len(counts)
    room = none if caps is None else tuple(largest_in(lane, at, MOST) for at in range(len(counts)))
    most = none if caps is None else tuple(map(min, room, caps))
    return Solved(edges, found, room, most)


def edges_of(scene: Scene, rooms: tuple[PanelRoom, ...]) -> tuple[LeftEdges, ...]:
    """Return where each kind may go alone; `rooms` are those of the first wall [m]."""
    return tuple(
        [
            left_edges(wall, unit, _rooms_of(wall, scene, rooms))
            for wall, unit in zip(scene.walls, scene.units, strict=True)
        ]
    )


def spans_of(scene: Scene) -> Spans:
    """Return what no part of each kind may enter, whatever its width [m]."""
    return tuple([kept_spans(w, u) for w, u in zip(scene.walls, scene.units, strict=True)])


def fits(
    scene: Scene,
    counts: tuple[int, ...],
    spans: Spans | None = None,
    rooms: tuple[PanelRoom, ...] | None = None,
) -> bool:
    """Return whether all that are wanted stand; `spans` and `rooms` where they are known [m]."""
    return placed_in(scene, counts, spans, rooms) == sum(counts)


def placed_in(
    scene: Scene,
    counts: tuple[int, ...],
    spans: Spans | None = None,
    known: tuple[PanelRoom, ...] | None = None,
) -> int:
    """Return how many of those wanted stand together; `spans` and `known` rooms as in `fits`."""
    first = scene.walls[0]
    rooms = panel_rooms(first) if known is None else known
    kept = [joined(some) for some in spans_of(scene)] if spans is None else spans
    allowed = [
        allowed_edges(wall, unit, _rooms_of(wall, scene, rooms), some)
        for wall, unit, some in zip(scene.walls, scene.units, kept, strict=True)
    ]
    return placed_at_most(lane_of(first, scene.units, allowed, rooms), counts)


def _rooms_of(wall: Wall, scene: Scene, first: tuple[PanelRoom, ...]) -> tuple[PanelRoom, ...]:
    """Return the rooms of a wall; a depth, by which walls of kinds differ, bounds them too."""
    return first if wall is scene.walls[0] else panel_rooms(wall)
