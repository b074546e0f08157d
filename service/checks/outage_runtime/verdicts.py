"""Verdicts alone, for the reruns of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.variants import ranks_of
from service.checks.outage_runtime.verdict import VERDICTS
from service.findings import Verdict


def verdicts(requests: Sequence[OutageRuntimeRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    return [VERDICTS[rank] for rank in ranks_of(requests)]
