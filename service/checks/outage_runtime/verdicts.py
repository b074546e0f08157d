"""Verdicts alone, for the reruns of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.checks.outage_runtime.arguments import arguments
from service.checks.outage_runtime.columns import rank_columns
from service.checks.outage_runtime.judgement import verdict_ranks
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdict import VERDICTS
from service.findings import Verdict


def verdicts(requests: Sequence[OutageRuntimeRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    if not requests:
        return []
    with np.errstate(all="ignore"):
        found = rank_columns(**arguments(requests))
    return [VERDICTS[rank] for rank in verdict_ranks(requests, found)]
