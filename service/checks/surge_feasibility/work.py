"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.surge_feasibility.request import SurgeFeasibilityRequest

#: Measured on one core [ms]: a request, and each motor on each source more, its questions too.
_FLAT_MS, _MOTOR_MS = 30.0, 60.0
#: Starts a second in a large batch, on one core.
ARRAY_RATE = 60.0


def work(request: SurgeFeasibilityRequest) -> float:
    """Return the predicted time [ms] on one core."""
    sources = 2.0 if request.inverter is not None and request.generator is not None else 1.0
    return _FLAT_MS + _MOTOR_MS * len(request.motors) * sources
