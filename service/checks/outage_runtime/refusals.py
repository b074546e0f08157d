"""Rules between fields that the contract cannot say."""

from __future__ import annotations

from service.check import FieldError
from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest
from service.facts import row_refusals


def refusals(request: OutageRuntimeRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    if isinstance(request.use, LoadsUse):
        return [FieldError(*row) for row in row_refusals(request.use.rows, "/use/rows")]
    return []
