"""Verdicts alone, many at once: for reruns of questions, and of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.surge_feasibility.power_in_heat import all_in_heat
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import Verdict, worst


def verdicts(requests: Sequence[SurgeFeasibilityRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    return [
        plain.verdict if heat is None else worst((plain.verdict, heat.verdict))
        for plain, heat in all_in_heat(requests)
    ]
