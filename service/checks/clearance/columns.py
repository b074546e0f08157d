"""Every wall of every request solved: places of each kind, the arrangement, the largest numbers."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.clearance.scenes import Scene
from service.checks.clearance.solve import Solved, solve
from service.checks.clearance.wall_lane import KeepOut, Panel, Strip, Unit, Wall

Rows = NDArray[np.float64]
Counts = NDArray[np.int64]


def columns(
    lane_offsets: Counts,
    kind_offsets: Counts,
    units: Rows,
    walls: Rows,
    keep_outs: Rows,
    keep_out_offsets: Counts,
    strips: Rows,
    strip_offsets: Counts,
    panels: Rows,
    panel_offsets: Counts,
    counts: Counts,
    caps: Counts,
) -> Arrays:
    """Return every lane solved.

    Parameters
    ----------
    lane_offsets : ndarray of int, shape (requests + 1,)
        Cuts the lanes by request.
    kind_offsets : ndarray of int, shape (lanes + 1,)
        Cuts units, walls, counts and caps by lane.
    units, walls : ndarray, shape (kinds, 14) and (kinds, 4)
        As `Unit` and the first four of `Wall` [m].
    keep_outs, strips, panels : ndarray, shape (..., 10), (..., 7), (..., 7)
        As `KeepOut`, `Strip` and `Panel`, cut by their offsets for each row of walls [m].
    keep_out_offsets, strip_offsets, panel_offsets : ndarray of int, shape (kinds + 1,)
    counts, caps : ndarray of int, shape (kinds,)
        Wanted, and what other limits leave.

    Returns
    -------
    mapping of str to ndarray
        `scenes` and `solved`, shape (lanes,): each lane and what it comes to, a `Scene` and a
        `Solved`; `lane_offsets` again.

    Notes
    -----
    A lane costs as much in a batch as alone, since places are ragged lists of a few intervals,
    sorted and merged one lane at a time. Source: `solve`.
    """
    ends = kind_offsets.tolist()
    lanes = _lanes(
        [Unit(*row) for row in _whole(units.tolist(), 5)],
        walls.tolist(),
        [
            KeepOut._make((*row[:7], bool(row[7]), bool(row[8]), int(row[9])))
            for row in keep_outs.tolist()
        ],
        keep_out_offsets.tolist(),
        [Strip._make((*row[:5], bool(row[5]), int(row[6]))) for row in strips.tolist()],
        strip_offsets.tolist(),
        [Panel._make((*row[:6], int(row[6]))) for row in panels.tolist()],
        panel_offsets.tolist(),
        ends,
    )
    asked, most = counts.tolist(), caps.tolist()
    solved, scenes = (np.empty(len(lanes), dtype=object) for _ in range(2))
    for at, (lo, hi) in enumerate(pairwise(ends)):
        found: Solved = solve(lanes[at], tuple(asked[lo:hi]), tuple(most[lo:hi]))
        solved[at], scenes[at] = found, lanes[at]
    return {"scenes": scenes, "solved": solved, "lane_offsets": lane_offsets}


def _whole(rows: list[list[Any]], column: int) -> list[list[Any]]:
    """Return the rows with a column as whole numbers."""
    return [[*row[:column], int(row[column]), *row[column + 1 :]] for row in rows]


def _lanes(
    units: list[Unit],
    walls: list[list[float]],
    keep_outs: list[KeepOut],
    keep_ends: list[int],
    strips: list[Strip],
    strip_ends: list[int],
    panels: list[Panel],
    panel_ends: list[int],
    ends: list[int],
) -> list[Scene]:
    made = [
        Wall(
            length,
            bool(left),
            bool(right),
            walkway,
            tuple(keep_outs[keep_ends[at] : keep_ends[at + 1]]),
            tuple(strips[strip_ends[at] : strip_ends[at + 1]]),
            tuple(panels[panel_ends[at] : panel_ends[at + 1]]),
        )
        for at, (length, left, right, walkway) in enumerate(walls)
    ]
    return [Scene(tuple(made[lo:hi]), tuple(units[lo:hi])) for lo, hi in pairwise(ends)]
