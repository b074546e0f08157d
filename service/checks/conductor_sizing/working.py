"""Every table cell that was read, line by line, and the sources of an answer."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import size_name
from service.checks.conductor_sizing.parts import wall_of
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.tables import COLUMNS, code_tables
from service.findings import SourceRef, WorkingLine, source_refs
from service.published import Source, load
from service.published.conductors import ampacity_row
from service.published.correction_factors import ambient_row, bundling_row
from service.published.equipment_grounding import grounding_row
from service.published.overcurrent_ratings import rating_row
from service.published.raceways import raceway_row


def working(both: list[Sized], edition: str) -> list[WorkingLine]:
    """Return the cells read for both materials, with table, row and column."""
    lines: list[WorkingLine] = []
    for one in both:
        lines += _cells(one, edition)
    return lines


def sources(both: list[Sized], edition: str) -> list[SourceRef]:
    """Return the sources of the cells of both materials."""
    found: list[Source] = []
    for one in both:
        for line in _cells(one, edition):
            if line.source is not None:
                table, _, row = line.source.partition("/")
                found.append(load(table).cite(row))
    return source_refs(found)


def _cells(one: Sized, edition: str) -> list[WorkingLine]:
    size, lane = one.size, one.lane
    rating = float(one.found.device.rating[lane])
    lines = [
        _line(f"{one.material}: amps", "as they flow", one.current.amps, "A"),
        _line(f"{one.material}: amps raised", "1.25 x continuous", one.current.raised, "A"),
    ]
    if rating:
        line = _line(f"{one.material}: breaker", "next standard rating", rating, "A")
        line.source = f"overcurrent_ratings/{rating_row(rating)}"
        lines.append(line)
    name = size_name(size)
    if name is None:
        return lines
    column = COLUMNS[int(one.found.column[lane])]
    tables = code_tables(edition)
    row = ampacity_row(one.material, name)  # type: ignore[arg-type]  # one of both
    at_terminals = float(tables.ampacity[lane, int(one.found.column[lane]), size])
    lines.append(
        _line(
            f"{one.material} {name}: ampacity at the terminals",
            f"column degc_{column}",
            at_terminals,
            "A",
            f"ampacity/{row}",
        )
    )
    lines += _factors(one)
    rated = grounding_row(rating, "copper")
    if rated is not None:
        lines.append(
            _line(
                f"{one.material}: ground by the breaker",
                "column size, before it grows; its area",
                float(tables.area[int(one.found.ground.table_size[lane])]) * 1e6,
                "mm2",
                f"equipment_grounding/{rated}",
            )
        )
    lines.append(
        _line(
            f"{one.material} {name}: resistance of the run",
            f"larger of direct and alternating current, {wall_of(one.parts)}, one conductor",
            one.resistance,
            "ohm",
            f"conductor_properties/{name}/stranded",
        )
    )
    lines += [
        _line(
            f"{one.material}: {part.way} {part.trade_size}",
            "part filled",
            part.filled_percent or 0.0,
            "%",
            f"raceway_sizes/{raceway_row(part.way, part.trade_size)}",
        )
        for part in one.raceways
        if part.trade_size is not None
    ]
    return lines


def _factors(one: Sized) -> list[WorkingLine]:
    lines = []
    for index, part in enumerate(one.parts):
        factor = float(one.found.conditions.factor[one.lane, index])
        key = ambient_row(part.ambient)
        lines.append(
            _line(
                f"{one.material}, part {index + 1}: what heat and company leave",
                f"{part.ambient:.1f} degC before a roof, {part.counted} others beside it",
                factor,
                "1",
                None if key is None else f"ambient_correction/{key}",
            )
        )
        company = bundling_row(3 + part.counted)
        if part.counted and company is not None:
            lines[-1].source = f"bundling_adjustment/{company}"
    return lines


def _line(
    quantity: str, expression: str, value: float, unit: str, source: str | None = None
) -> WorkingLine:
    return WorkingLine(
        quantity=quantity, expression=expression, value=value, unit=unit, source=source
    )
