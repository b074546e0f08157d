"""What the verdicts of many requests are made of, solved at once, the heat left aside."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.checks.surge_feasibility.arguments import arguments
from service.checks.surge_feasibility.columns import columns
from service.checks.surge_feasibility.judgement import judgements
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.weighed import Weighed, weighed


def weighed_starts(requests: Sequence[SurgeFeasibilityRequest]) -> list[Weighed]:
    """Return what each verdict is made of, without what was tried for every motor."""
    if not requests:
        return []
    with np.errstate(all="ignore"):
        solved = columns(**arguments(requests, shown=False))
    return [
        weighed(request, judgements(request, solved, row), shown=False)
        for row, request in enumerate(requests)
    ]
