"""Rules between fields that the contract cannot say."""

from __future__ import annotations

from service.check import FieldError
from service.checks.outage_runtime.load_rows import window_hours
from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest
from service.facts import CatalogueLoad, OwnLoad


def row_refusals(rows: list[CatalogueLoad | OwnLoad], pointer: str) -> list[FieldError]:
    """Return where a row's hours do not fit in its windows, or its watts are out of order."""
    errors = []
    for index, row in enumerate(rows):
        at = f"{pointer}/{index}"
        if row.windows and row.hours_per_day is not None:
            fits = window_hours([(w.start_hour, w.end_hour) for w in row.windows])
            if row.hours_per_day > fits + 1e-9:
                errors.append(
                    FieldError(
                        f"{at}/hours_per_day",
                        f"{row.hours_per_day:g} h do not fit in windows of {fits:g} h; widen "
                        "windows or lower hours_per_day",
                    )
                )
        if isinstance(row, OwnLoad):
            if row.watts_low is not None and row.watts_low > row.watts:
                errors.append(
                    FieldError(f"{at}/watts_low", "must not be above watts; lower it or omit it")
                )
            if row.watts_high is not None and row.watts_high < row.watts:
                errors.append(
                    FieldError(f"{at}/watts_high", "must not be below watts; raise it or omit it")
                )
    return errors


def refusals(request: OutageRuntimeRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    if isinstance(request.use, LoadsUse):
        return row_refusals(request.use.rows, "/use/rows")
    return []
