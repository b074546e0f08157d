"""From requests to arrays: every start of every request on every source a lane."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from service.check import Arrays
from service.checks.surge_feasibility.judged_start import Known
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.recommended_order import order_of
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.source import sources_of
from service.checks.surge_feasibility.start_case import StartCase
from service.checks.surge_feasibility.starts import Changes, Starts, starts


def _starts_of(request: SurgeFeasibilityRequest) -> list[Starts | None]:
    """Return the starts of a request on each of its sources, the planned one first."""
    order = order_of(request)
    sources = sources_of(request.inverter, request.generator)
    return [starts(request, source, order) for source in sources]


def arguments(requests: Sequence[SurgeFeasibilityRequest], *, shown: bool = True) -> Arrays:
    """Return the starts of some requests.

    Parameters
    ----------
    requests : sequence of SurgeFeasibilityRequest
        R requests.
    shown : bool
        Whether all that is shown is wanted, or the verdict alone.

    Returns
    -------
    dict
        ``source_offsets``, shape (R + 1,), of the sources of each request; ``made``, shape (S,) of
        `Starts` or None, on each source; ``lane_offsets``, shape (S + 1,), of the starts on each;
        members of `StartCase`, `MotorLoad`, `Known`, `VoltageLimits` and `Changes` by name, shape
        (L,) or (L, K); ``shown``, shape ().
    """
    by_request = [_starts_of(request) for request in requests]
    flat = [one for found in by_request for one in found]
    solvable = [one for one in flat if one is not None]
    found: dict[str, Any] = {
        "source_offsets": _offsets([len(found) for found in by_request]),
        "lane_offsets": _offsets([0 if one is None else len(one.places) for one in flat]),
        "made": _objects(flat),
        "shown": np.asarray(shown),
    }
    if not solvable:
        return found
    longest = max(one.case.rating_amps.shape[1] for one in solvable)
    cases = [_filled_up(one.case, longest) for one in solvable]
    for name in StartCase._fields:
        if name != "load":
            found[name] = np.concatenate([getattr(case, name) for case in cases])
    for members, parts in (
        (MotorLoad._fields, [one.case.load for one in solvable]),
        (Known._fields, [one.known for one in solvable]),
        (VoltageLimits._fields, [one.limits for one in solvable]),
        (Changes._fields, [one.changes for one in solvable]),
    ):
        for name in members:
            found[name] = np.concatenate([getattr(part, name) for part in parts])
    return found


def _objects(found: Sequence[Starts | None]) -> Any:
    made = np.full(len(found), None, dtype=object)
    made[:] = found
    return made


def _offsets(counts: Sequence[int]) -> Any:
    return np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)


def _filled_up(case: StartCase, longest: int) -> StartCase:
    """Return starts with as many ratings as the longest has, the last one once more."""
    missing = ((0, 0), (0, longest - case.rating_amps.shape[1]))
    return case._replace(
        rating_seconds=np.pad(case.rating_seconds, missing, mode="edge"),
        rating_amps=np.pad(case.rating_amps, missing, mode="edge"),
    )
