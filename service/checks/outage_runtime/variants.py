"""The same request with one thing changed: how its verdict and its hours would be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.checks.outage_runtime.arguments import arguments
from service.checks.outage_runtime.columns import rank_columns, verdict_columns
from service.checks.outage_runtime.judgement import verdict_ranks
from service.checks.outage_runtime.lanes import VERDICT_LAYOUT
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdict import tier_times

_TYPICAL = VERDICT_LAYOUT.triples["base"].typical


@dataclass(frozen=True, slots=True)
class Outcome:
    """Verdict rank of a whole answer, and its typical time from the start charge [s]."""

    rank: int
    typical: float
    at_least: bool


def ranks_of(requests: Sequence[OutageRuntimeRequest]) -> list[int]:
    """Return the verdict ranks of requests, in order: targets alone are followed, no hours shown.

    Notes
    -----
    Source: the check itself.
    """
    if not requests:
        return []
    with np.errstate(all="ignore"):
        found = rank_columns(**arguments(requests))
    return verdict_ranks(requests, found)


def outcomes(
    requests: Sequence[OutageRuntimeRequest],
    season: int,
    left: Sequence[tuple[float, float]] | None = None,
) -> list[Outcome]:
    """Return how requests would be answered, in order.

    Parameters
    ----------
    requests : sequence of OutageRuntimeRequest
    season : int
        Season whose typical time [s] is wanted, the one that the answer shows: 0 summer, 1 winter.
    left : sequence of tuple of float, optional
        Parts of power and energy that are left of each request's units [1]; all by default.

    Notes
    -----
    Source: the check itself.
    """
    if not requests:
        return []
    with np.errstate(all="ignore"):
        arrays = dict(arguments(requests))
        if left is not None:
            power, energy = np.array(left).T
            arrays["unit_power"] = arrays["unit_power"] * power
            arrays["unit_energy"] = arrays["unit_energy"] * energy
        found = verdict_columns(**arrays)
    ranks = verdict_ranks(requests, found)
    answered = []
    for row, rank in enumerate(ranks):
        times = tier_times(found, row, int(found["target_tier"][row, 0]))[:, _TYPICAL]
        least = bool(found["at_least"][row, season, _TYPICAL])
        answered.append(Outcome(rank, float(times[season]), least))
    return answered
