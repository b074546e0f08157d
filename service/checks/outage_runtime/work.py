"""Predicted cost of one request, before any of it is done."""

from __future__ import annotations

from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest

#: Cases a second on one core in a large batch, measured by tests/benchmarks. A single request is
#: a batch already, of some three hundred lanes a season; a larger one has little left to share.
ARRAY_RATE = 100.0
_BASE_MS = 5.0
_ROW_MS = 0.15


def work(request: OutageRuntimeRequest) -> float:
    """Return the predicted time on one core [ms]."""
    rows = len(request.use.rows) if isinstance(request.use, LoadsUse) else 48
    target = request.target_hours or 0.0
    return (_BASE_MS + _ROW_MS * rows) * max(1.0, target / 168.0)
