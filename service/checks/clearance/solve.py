"""A scene solved: where each kind may go alone, and how all that are wanted stand together."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.arrange import (
    Arrangement,
    arrange_in,
    arrange_one_kind,
    largest_in,
    placed_at_most,
)
from service.checks.clearance.interval_set import Interval
from service.checks.clearance.lane_steps import Lane, lane_of
from service.checks.clearance.left_edges import (
    LeftEdges,
    allowed_edges,
    joined,
    kept_spans,
    left_edges,
)
from service.checks.clearance.scenes import Scene
from service.checks.clearance.slides import slides
from service.checks.clearance.wall_lane import Ban

#: What no part of each kind may enter [m].
Spans = tuple[list[Ban], ...]
#: Most units of one kind that are counted on one wall.
MOST: Final = 24
#: Part of a unit that counts as room for it where runs are only to hold no less than they do.
_SLACK: Final = 1e-6


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
    spans : tuple of list of (lo, hi, reason)
        What no part of each kind may enter, whatever its width [m].
    """

    edges: tuple[LeftEdges, ...]
    arrangement: Arrangement
    room: tuple[int, ...]
    most: tuple[int, ...]
    spans: Spans


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
    spans = spans_of(scene)
    edges = edges_of(scene, spans)
    lane = _lane(scene, [kind.allowed for kind in edges])
    none = (0,) * len(counts)
    if caps is None:
        return Solved(edges, arrange_in(lane, counts, None), none, none, spans)
    if len(counts) == 1:
        found, largest = arrange_one_kind(lane, counts[0], MOST)
        room: tuple[int, ...] = (largest,)
    else:
        found = arrange_in(lane, counts, None)
        room = tuple([largest_in(lane, at, MOST) for at in range(len(counts))])
    return Solved(edges, found, room, tuple(map(min, room, caps)), spans)


def edges_of(scene: Scene, spans: Spans) -> tuple[LeftEdges, ...]:
    """Return where each kind may go alone [m]."""
    return tuple([left_edges(*each) for each in zip(*scene, spans, strict=True)])


def slides_of(scene: Scene, solved: Solved) -> tuple[Interval, ...]:
    """Return from where to where each unit of the arrangement may slide [m]."""
    lane = _lane(scene, [kind.allowed for kind in solved.edges])
    return slides(lane, solved.arrangement.positions)


def spans_of(scene: Scene) -> Spans:
    """Return what no part of each kind may enter, whatever its width [m]."""
    return tuple([kept_spans(w, u) for w, u in zip(scene.walls, scene.units, strict=True)])


def joined_spans(scene: Scene) -> Spans:
    """Return `spans_of` with those that meet joined [m]."""
    return tuple([joined(some) for some in spans_of(scene)])


def fits(scene: Scene, counts: tuple[int, ...], spans: Spans | None = None) -> bool:
    """Return whether all that are wanted stand; see `placed_in`."""
    kept = joined_spans(scene) if spans is None else spans
    wanted = sum(counts)
    return most_by_runs(scene, counts, kept) == wanted and placed_in(scene, counts, kept) == wanted


def placed_in(scene: Scene, counts: tuple[int, ...], spans: Spans | None = None) -> int:
    """Return how many of those wanted stand together.

    Parameters
    ----------
    scene : Scene
    counts : tuple of int
    spans : Spans, optional
        Those of the scene from left to right, joined or not, where they are known [m].
    """
    kept = joined_spans(scene) if spans is None else spans
    allowed = [allowed_edges(*each) for each in zip(*scene, kept, strict=True)]
    return placed_at_most(_lane(scene, allowed), counts)


def _lane(scene: Scene, allowed: list[tuple[Interval, ...]]) -> Lane:
    return lane_of(scene.walls[0], scene.units, allowed, scene.rooms[0])


def most_by_runs(scene: Scene, counts: tuple[int, ...], spans: Spans) -> int:
    """Return no less than how many units stand: those that the runs between spans hold.

    Notes
    -----
    Each kind as if it were alone, and nothing but the spans in its way, which come from left to
    right. Source: derived.
    """
    total = 0
    for wall, unit, count, some in zip(scene.walls, scene.units, counts, spans, strict=True):
        pitch, free_from, held = unit.width + unit.gap, 0.0, 0
        for lo, hi, _ in (*some, (wall.length, wall.length, 0)):
            if lo > free_from:
                held += int((lo - free_from + unit.gap) / pitch + _SLACK)
            free_from = max(free_from, hi)
        total += min(held, count)
    return total
