"""Verdicts alone, many at once: for reruns of questions, and of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.checks.surge_feasibility.arguments import arguments
from service.checks.surge_feasibility.columns import columns
from service.checks.surge_feasibility.judgement import judgements
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.weighed import weighed
from service.findings import Verdict


def verdicts(requests: Sequence[SurgeFeasibilityRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    with np.errstate(all="ignore"):
        solved = columns(**arguments(requests, shown=False))
    return [
        weighed(request, judgements(request, solved, row), shown=False).verdict
        for row, request in enumerate(requests)
    ]
