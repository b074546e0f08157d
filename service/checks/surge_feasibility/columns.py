"""From arrays to solved starts: every version of every start in one march."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.surge_feasibility.judged_start import Known
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.start_case import StartCase
from service.checks.surge_feasibility.starts import Changes
from service.checks.surge_feasibility.versions import Solved, solved

Ints = NDArray[np.int64]


def columns(
    *,
    source_offsets: Ints,
    made: NDArray[np.object_],
    lane_offsets: Ints,
    shown: NDArray[np.bool_],
    **lanes: Any,
) -> Arrays:
    """Solve every start.

    Parameters
    ----------
    source_offsets, made, lane_offsets, shown : ndarray
        As `arguments` gives them.
    **lanes : ndarray
        Members of the starts, shape (L,) or (L, K) [V, A, ohm, s, W + j var].

    Returns
    -------
    dict
        ``source_offsets`` and ``made`` as given; ``solved``, shape (S,) of `Solved` or None: the
        starts on each source; None: there are none.

    Notes
    -----
    Source: derived; see `nominal_start.start`.
    """
    count = len(lane_offsets) - 1
    found = np.full(count, None, dtype=object)
    if lanes:
        load = MotorLoad(**_members(lanes, MotorLoad._fields))
        names = [name for name in StartCase._fields if name != "load"]
        everything = solved(
            StartCase(load=load, **_members(lanes, names)),
            Known(**_members(lanes, Known._fields)),
            VoltageLimits(**_members(lanes, VoltageLimits._fields)),
            Changes(**_members(lanes, Changes._fields)),
            shown=bool(shown),
        )
        for source in range(count):
            found[source] = _of(everything, lane_offsets[source], lane_offsets[source + 1])
    return {"source_offsets": source_offsets, "made": made, "solved": found}


def _members(lanes: dict[str, Any], names: Any) -> dict[str, Any]:
    return {name: lanes[name] for name in names}


def _of(everything: Solved, first: int, last: int) -> Solved | None:
    return None if first == last else everything.lanes(slice(int(first), int(last)))
