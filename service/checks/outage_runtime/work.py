"""Predicted cost of one request, before any of it is done."""

from __future__ import annotations

from service.checks.outage_runtime.request import (
    IntervalProfileUse,
    LoadsUse,
    OutageRuntimeRequest,
)
from service.checks.outage_runtime.year_arguments import by_charge, chosen_climate, dated

#: Cases a second on one core in a large batch, measured by tests/benchmarks. A single request is
#: a batch already, of some three hundred lanes a season; a larger one has little left to share.
ARRAY_RATE = 100.0
_BASE_MS = 5.0
_ROW_MS = 0.15
#: An outage that is a matter of the date: straight through the year, and one more climate site.
_YEAR_MS = 90.0
_SITE_MS = 10.0
#: Where the charge decides what happens: the survey of all start hours and what is shown of a
#: week, and a day of the target that everything else is held against.
_STEPPED_MS = 500.0
_STEPPED_DAY_MS = 75.0
_WEEK_HOURS = 168.0


def work(request: OutageRuntimeRequest) -> float:
    """Return the predicted time on one core [ms]."""
    rows = len(request.use.rows) if isinstance(request.use, LoadsUse) else 48
    target = request.target_hours or 0.0
    weeks = max(1.0, target / _WEEK_HOURS)
    predicted = (_BASE_MS + _ROW_MS * rows) * weeks
    if not dated(request):
        return predicted
    sites = _SITE_MS * max(len(chosen_climate(request).answering) - 1, 0)
    if by_charge(request):
        return predicted + sites + _STEPPED_MS * weeks + _STEPPED_DAY_MS * target / 24.0
    return predicted + (sites + _YEAR_MS * weeks) * _fineness(request)


def _fineness(request: OutageRuntimeRequest) -> float:
    """Return how many times an hour the year is cut, at most."""
    if isinstance(request.use, IntervalProfileUse):
        return max(len(request.use.watts) / 8760.0, 1.0)
    edges = [request.start_hour or 0.0]
    if isinstance(request.use, LoadsUse):
        for row in request.use.rows:
            for window in row.windows or ():
                edges += [window.start_hour, window.end_hour]
    return 1.0 if all(edge == int(edge) for edge in edges) else 4.0
