"""From requests to the flat arrays of every wall in them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.clearance.fit import energy_cap, lens_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import numbers_of
from service.checks.clearance.scenes import Scene, scene_of
from service.checks.clearance.spots import spots_of


def arguments(requests: Sequence[ClearanceRequest]) -> Arrays:
    """Return the walls of some requests as stated, one lane a wall.

    Parameters
    ----------
    requests : sequence of ClearanceRequest

    Returns
    -------
    mapping of str to ndarray
        `lane_offsets` cuts the lanes by request; in a lane every kind of unit has a row of `units`
        and of `walls`, and every such row its own `keep_outs`, `strips` and `panels` [m].
    """
    lanes: list[tuple[Scene, tuple[int, ...], tuple[int, ...]]] = []
    ends = [0]
    for request in requests:
        rules = numbers_of(request)
        counts = tuple(unit.count for unit in request.units)
        for spot in spots_of(request):
            caps = tuple(energy_cap(request, rules, spot, at) for at in range(len(counts)))
            lanes.append((scene_of(spot, request.units, rules, lens_of(spot)), counts, caps))
        ends.append(len(lanes))
    walls = [wall for scene, _, _ in lanes for wall in scene.walls]
    return {
        "lane_offsets": np.array(ends),
        "kind_offsets": _offsets([scene.units for scene, _, _ in lanes]),
        "units": _rows([unit for scene, _, _ in lanes for unit in scene.units], 14),
        "walls": _rows([wall[:4] for wall in walls], 4),
        "keep_outs": _rows([one for wall in walls for one in wall.keep_outs], 10),
        "keep_out_offsets": _offsets([wall.keep_outs for wall in walls]),
        "strips": _rows([one for wall in walls for one in wall.strips], 7),
        "strip_offsets": _offsets([wall.strips for wall in walls]),
        "panels": _rows([one for wall in walls for one in wall.panels], 7),
        "panel_offsets": _offsets([wall.panels for wall in walls]),
        "counts": np.array([one for _, counts, _ in lanes for one in counts], dtype=np.int64),
        "caps": np.array([one for _, _, caps in lanes for one in caps], dtype=np.int64),
    }


def _rows(rows: Sequence[Sequence[Any]], width: int) -> NDArray[np.float64]:
    return np.array(rows, dtype=np.float64).reshape(len(rows), width)


def _offsets(parts: Sequence[Sequence[Any]]) -> NDArray[np.int64]:
    return np.concatenate(([0], np.cumsum([len(part) for part in parts], dtype=np.int64)))
