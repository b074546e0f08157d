"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.surge_feasibility.request import SurgeFeasibilityRequest

#: Measured on one core [ms]: every version of the starts of one request, and each motor more.
_SOLVE_MS, _MOTOR_MS = 35.0, 15.0
#: Reruns of the open questions, of two values each, and of the other readings.
_RERUNS = 10.0


def work(request: SurgeFeasibilityRequest) -> float:
    """Return the predicted time [ms] on one core."""
    return (1 + _RERUNS) * (_SOLVE_MS + _MOTOR_MS * len(request.motors)) if request.motors else 5.0
