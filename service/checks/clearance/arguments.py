"""From requests to the flat arrays of every wall in them."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from itertools import chain
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.clearance.fit import energy_cap, lens_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import numbers_of
from service.checks.clearance.scenes import Scene, scene_of
from service.checks.clearance.spots import spots_of
from service.checks.clearance.wall_lane import KeepOut, Panel, Strip, Unit


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
    made = _Flat()
    lanes = 0
    ends = [0]
    for request in requests:
        rules = numbers_of(request)
        counts = tuple([unit.count for unit in request.units])
        for spot in spots_of(request):
            caps = [energy_cap(request, rules, spot, at) for at in range(len(counts))]
            made.add(scene_of(spot, request.units, rules, lens_of(spot)))
            made.counts.extend(counts)
            made.caps.extend(caps)
            lanes += 1
        ends.append(lanes)
    return made.arrays() | {"lane_offsets": np.array(ends)}


class _Flat:
    """Rows of all lanes one after the other, so that a batch keeps no lane in objects."""

    def __init__(self) -> None:
        self.units, self.walls, self.keep_outs, self.strips, self.panels = (
            array("d") for _ in range(5)
        )
        self.kinds, self.keep_ends, self.strip_ends, self.panel_ends = ([0] for _ in range(4))
        self.counts: list[int] = []
        self.caps: list[int] = []

    def add(self, scene: Scene) -> None:
        """Add the rows of a lane."""
        for unit, wall in zip(scene.units, scene.walls, strict=True):
            self.units.extend(unit)
            self.walls.extend((*wall[:4], wall.passage))
            for rows, ends, some in (
                (self.keep_outs, self.keep_ends, wall.keep_outs),
                (self.strips, self.strip_ends, wall.strips),
                (self.panels, self.panel_ends, wall.panels),
            ):
                ends.append(ends[-1] + len(some))
                rows.extend(chain.from_iterable(some))
        self.kinds.append(self.kinds[-1] + len(scene.units))

    def arrays(self) -> dict[str, NDArray[Any]]:
        """Return the rows as arrays."""
        return {
            "kind_offsets": np.array(self.kinds),
            "units": _rows(self.units, len(Unit._fields)),
            "walls": np.array(self.walls).reshape(-1, 5),
            "keep_outs": _rows(self.keep_outs, len(KeepOut._fields)),
            "keep_out_offsets": np.array(self.keep_ends),
            "strips": _rows(self.strips, len(Strip._fields)),
            "strip_offsets": np.array(self.strip_ends),
            "panels": _rows(self.panels, len(Panel._fields)),
            "panel_offsets": np.array(self.panel_ends),
            "counts": np.array(self.counts, dtype=np.int64),
            "caps": np.array(self.caps, dtype=np.int64),
        }


def _rows(flat: array[float], width: int) -> NDArray[np.float64]:
    return np.array(flat, dtype=np.float64).reshape(-1, width)
