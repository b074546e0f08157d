"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.facts import SegmentsRun

#: Measured on one core [ms]: a request with its questions and readings, and each part more.
_FLAT_MS, _PART_MS = 12.0, 0.8
#: Circuits a second in a large batch, on one core.
ARRAY_RATE = 50_000.0


def work(request: ConductorSizingRequest) -> float:
    """Return the predicted time [ms] on one core."""
    parts = len(request.run.segments) if isinstance(request.run, SegmentsRun) else 1
    return _FLAT_MS + _PART_MS * parts
