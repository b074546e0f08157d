"""Verdicts alone, many at once: for reruns of questions, and of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.surge_feasibility.power_in_heat import in_heat
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.weighed_starts import weighed_starts
from service.findings import Verdict, worst


def verdicts(requests: Sequence[SurgeFeasibilityRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    plain = weighed_starts(requests)
    heated = in_heat(requests, plain)
    return [
        one.verdict if heat is None else worst((one.verdict, heat.verdict))
        for one, heat in zip(plain, heated, strict=True)
    ]
