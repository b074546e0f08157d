"""The verdicts alone, as the whole answers have them."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.clearance.judged import judge_all, verdict_of
from service.checks.clearance.request import ClearanceRequest
from service.findings import Verdict


def verdicts(requests: Sequence[ClearanceRequest]) -> list[Verdict]:
    """Return the verdict of each request."""
    return [verdict_of(judge_all(request)) for request in requests]
