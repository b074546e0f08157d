"""Every wall of every request solved: places of each kind, the arrangement, the largest numbers."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.clearance.panel_space import panel_rooms
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
    units, walls : ndarray, shape (kinds, 14) and (kinds, 5)
        As `Unit`, and the first four of `Wall` and its passage [m].
    keep_outs, strips, panels : ndarray, shape (..., 10), (..., 7), (..., 7)
        As `KeepOut`, `Strip` and `Panel`, cut by their offsets for each row of walls [m].
    keep_out_offsets, strip_offsets, panel_offsets : ndarray of int, shape (kinds + 1,)
    counts, caps : ndarray of int, shape (kinds,)
        Wanted, and what other limits leave.

    Returns
    -------
    mapping of str to ndarray
        `solved`, shape (lanes,): what each lane comes to, a `Solved`; `lane_offsets` again.

    Notes
    -----
    A lane costs as much in a batch as alone, since places are ragged lists of a few intervals,
    sorted and merged one lane at a time. Source: `solve`.
    """
    ends, asked, most = kind_offsets.tolist(), counts.tolist(), caps.tolist()
    keep_ends, strip_ends = keep_out_offsets.tolist(), strip_offsets.tolist()
    panel_ends = panel_offsets.tolist()
    solved = np.empty(len(ends) - 1, dtype=object)
    # Lane by lane, so that a batch holds the rows of one wall at a time.
    for at, (lo, hi) in enumerate(pairwise(ends)):
        made = tuple(
            [
                _wall(
                    walls[kind],
                    keep_outs[keep_ends[kind] : keep_ends[kind + 1]],
                    strips[strip_ends[kind] : strip_ends[kind + 1]],
                    panels[panel_ends[kind] : panel_ends[kind + 1]],
                )
                for kind in range(lo, hi)
            ]
        )
        boxes = tuple([_unit(row) for row in units[lo:hi].tolist()])
        scene = Scene(made, boxes, tuple([panel_rooms(wall) for wall in made]))
        found: Solved = solve(scene, tuple(asked[lo:hi]), tuple(most[lo:hi]))
        solved[at] = found
    return {"solved": solved, "lane_offsets": lane_offsets}


def _unit(row: list[Any]) -> Unit:
    return Unit._make((*row[:5], int(row[5]), *row[6:]))


def _wall(wall: Rows, keep_outs: Rows, strips: Rows, panels: Rows) -> Wall:
    length, left, right, walkway, passage = wall.tolist()
    return Wall(
        length,
        bool(left),
        bool(right),
        walkway,
        tuple(
            [
                KeepOut(x1, x2, y1, y2, z1, z2, apart, bool(any_height), bool(solid), int(reason))
                for x1, x2, y1, y2, z1, z2, apart, any_height, solid, reason in keep_outs.tolist()
            ]
        ),
        tuple(
            [
                Strip(x1, x2, clear1, clear2, depth, bool(walked), int(thing))
                for x1, x2, clear1, clear2, depth, walked, thing in strips.tolist()
            ]
        ),
        tuple(
            [
                Panel(x1, x2, top, depth, wide, deep, int(reason))
                for x1, x2, top, depth, wide, deep, reason in panels.tolist()
            ]
        ),
        passage,
    )
