"""From requests to the scene of every wall in them."""

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
from service.checks.clearance.spots import Spot, spots_of


def arguments(requests: Sequence[ClearanceRequest]) -> Arrays:
    """Return the walls of some requests as stated, one lane a wall.

    Parameters
    ----------
    requests : sequence of ClearanceRequest

    Returns
    -------
    mapping of str to ndarray
        `lane_offsets` cuts the lanes by request; of each lane `scenes` holds its `Scene`, `counts`
        and `caps` a number for each kind of unit, and `spots` the wall it was made of.
    """
    spots: list[Spot] = []
    scenes: list[Scene] = []
    counts: list[tuple[int, ...]] = []
    caps: list[tuple[int, ...]] = []
    ends = [0]
    for request in requests:
        rules, units = numbers_of(request), request.units
        wanted = tuple([unit.count for unit in units])
        for spot in spots_of(request):
            spots.append(spot)
            scenes.append(scene_of(spot, units, rules, lens_of(spot)))
            counts.append(wanted)
            caps.append(tuple([energy_cap(request, rules, spot, at) for at in range(len(units))]))
        ends.append(len(spots))
    return {
        "scenes": _held(scenes),
        "counts": _held(counts),
        "caps": _held(caps),
        "spots": _held(spots),
        "lane_offsets": np.array(ends),
    }


def _held(things: Sequence[Any]) -> NDArray[np.object_]:
    """Return things as an array that looks into none of them."""
    found = np.empty(len(things), dtype=object)
    for at, thing in enumerate(things):
        found[at] = thing
    return found
