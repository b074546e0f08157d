"""Every wall of every request solved: places of each kind, the arrangement, the largest numbers."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.clearance.solve import Solved, solve

Held = NDArray[np.object_]


def columns(
    scenes: Held, counts: Held, caps: Held, spots: Held, lane_offsets: NDArray[np.int64]
) -> Arrays:
    """Return every lane solved.

    Parameters
    ----------
    scenes : ndarray of Scene, shape (lanes,)
        Lengths [m].
    counts, caps : ndarray of tuple of int, shape (lanes,)
        Of each kind of unit: how many are wanted, and what other limits leave.
    spots : ndarray, shape (lanes,)
        What the lanes were made of, handed on.
    lane_offsets : ndarray of int, shape (requests + 1,)
        Cuts the lanes by request.

    Returns
    -------
    mapping of str to ndarray
        `solved`, shape (lanes,): what each lane comes to, a `Solved`; `spots` and `lane_offsets`
        again.

    Notes
    -----
    A lane costs as much in a batch as alone, since places are ragged lists of a few intervals,
    sorted and merged one lane at a time. Source: `solve`.
    """
    solved = np.empty(len(scenes), dtype=object)
    for at, (scene, wanted, left) in enumerate(zip(scenes, counts, caps, strict=True)):
        found: Solved = solve(scene, wanted, left)
        solved[at] = found
    return {"solved": solved, "spots": spots, "lane_offsets": lane_offsets}
