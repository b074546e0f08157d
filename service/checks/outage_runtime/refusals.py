"""Rules between fields that the contract cannot say."""

from __future__ import annotations

from service.check import FieldError
from service.checks.outage_runtime.request import (
    IntervalProfileUse,
    LoadsUse,
    OutageRuntimeRequest,
)
from service.facts import (
    climate_refusals,
    generator_refusals,
    heat_refusals,
    interval_refusals,
    row_refusals,
)


def refusals(request: OutageRuntimeRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    found = []
    if isinstance(request.use, LoadsUse):
        found += row_refusals(request.use.rows, "/use/rows")
    if isinstance(request.use, IntervalProfileUse):
        found += interval_refusals(request.use.watts, "/use/watts")
    found += climate_refusals(request.climate, "/climate")
    found += generator_refusals(request.generator, "/generator")
    found += heat_refusals(request.heat_derating, "/heat_derating")
    return [FieldError(*row) for row in found]
