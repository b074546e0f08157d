"""Every table cell that was read, line by line, and the sources of an answer."""

from __future__ import annotations

from functools import cache

from service.checks.conductor_sizing.arguments import ambient_of, own_conductors, size_name
from service.checks.conductor_sizing.parts import Part, wall_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.tables import COLUMNS, MATERIALS, WALLS, code_tables
from service.findings import SourceRef, WorkingLine, source_refs
from service.published import Source, conductor_resistance, load
from service.published.conductors import ampacity_row
from service.published.correction_factors import ambient_row, bundling_factor, bundling_row
from service.published.equipment_grounding import grounding_row
from service.published.insulation_columns import insulation_columns
from service.published.overcurrent_ratings import rating_row
from service.published.raceways import raceway_row, raceways
from service.published.small_conductors import protection_row
from service.published.table_arrays import FOOT


def working(request: ConductorSizingRequest, both: list[Sized], edition: str) -> list[WorkingLine]:
    """Return the cells read for both materials, with table, row and column."""
    return [
        line
        for one in both
        for line in (
            *_cells(request, one, edition),
            *(_parts(request, one, edition) if one.size >= 0 else ()),
        )
    ]


def sources(
    request: ConductorSizingRequest, both: list[Sized], edition: str, *, brief: bool
) -> list[SourceRef]:
    """Return the sources of the cells of both materials; to an assessment, of what settles."""
    # Parts lie in the same heat and company whatever the material: they are read once.
    lines = _parts(request, both[0], edition) if both[0].size >= 0 else []
    for one in both[: 1 if brief else 2]:
        lines = [*_cells(request, one, edition), *lines]
    read = [line.source for line in lines]
    cells = [cell for cell in dict.fromkeys(read) if cell is not None]
    if brief:
        cells = [cell for cell in cells if cell.partition("/")[0] in _SIZING]
    return source_refs([_cited(cell) for cell in cells])


#: Tables that settle breaker, phases, ground and raceway.
_SIZING = ("overcurrent_ratings", "ampacity", "equipment_grounding", "raceway_sizes")


@cache
def _cited(cell: str) -> Source:
    table, _, row = cell.partition("/")
    return load(table).cite(row)


def _cells(request: ConductorSizingRequest, one: Sized, edition: str) -> list[WorkingLine]:
    size, lane = one.size, one.lane
    rating = float(one.found.device.rating[lane])
    lines = [
        _line(f"{one.material}: amps", "for the conditions of use", one.current.amps, "A"),
        _line(f"{one.material}: amps raised", "1.25 x continuous", one.current.raised, "A"),
        _line(f"{one.material}: amps at full load", "for the drop", one.current.flowing, "A"),
    ]
    if rating:
        line = _line(f"{one.material}: breaker", "next standard rating", rating, "A")
        line.source = f"overcurrent_ratings/{rating_row(rating)}"
        lines.append(line)
    name = size_name(size)
    if name is None:
        return lines
    lines += _ampacities(one, name, edition)
    lines += _ground(one, rating, edition)
    lines += _drop(request, one, name, edition)
    if one.neutral >= 0:
        area = float(code_tables(edition).area[one.neutral]) * 1e6
        lines.append(
            _line(f"{one.material}: neutral {size_name(one.neutral)}", "its area", area, "mm2")
        )
    return lines + _raceways(request, one, name)


def _ampacities(one: Sized, name: str, edition: str) -> list[WorkingLine]:
    """Return the ampacity in the column of the terminals, and in that of the insulation."""
    tables, lane = code_tables(edition), one.lane
    row = f"ampacity/{ampacity_row(one.material, name)}"  # type: ignore[arg-type]  # one of both
    place = int(one.found.column[lane])
    lines = [
        _line(
            f"{one.material} {name}: ampacity at the terminals",
            f"column degc_{COLUMNS[place]}",
            float(tables.ampacity[lane, place, one.size]),
            "A",
            row,
        )
    ]
    for column in dict.fromkeys(part.column for part in one.parts if part.column is not None):
        lines.append(
            _line(
                f"{one.material} {name}: ampacity where correction starts",
                f"column degc_{column}",
                float(tables.ampacity[lane, COLUMNS.index(column), one.size]),
                "A",
                row,
            )
        )
    cap = float(tables.cap[lane, one.size])
    if cap < float("inf"):
        cell = f"small_conductor_protection/{protection_row(one.material, name)}"  # type: ignore[arg-type]
        what = f"{one.material} {name}: largest breaker of a small conductor"
        lines.append(_line(what, "by material and size", cap, "A", cell))
    return lines


def _parts(request: ConductorSizingRequest, one: Sized, edition: str) -> list[WorkingLine]:
    return [
        line
        for index, part in enumerate(one.parts)
        for line in _factors(request, one, part, index, edition)
    ]


def _factors(
    request: ConductorSizingRequest, one: Sized, part: Part, index: int, edition: str
) -> list[WorkingLine]:
    """Return what heat, company and both leave in a part."""
    around = ambient_of(request, part, edition) - _ZERO
    counted = own_conductors(request) + part.counted
    where = f"{one.material}, part {index + 1}"
    both = float(one.found.conditions.factor[one.lane, index])
    alone = part.nipple or counted <= _NO_ADJUSTMENT
    company = 1.0 if alone else float(bundling_factor(counted))
    heat = ambient_row(around)
    lines = [
        _line(
            f"{where}: what heat leaves",
            f"{around:.1f} degC, column degc_{part.column}",
            both / company,
            "1",
            None if heat is None else f"ambient_correction/{heat}",
        )
    ]
    if alone:
        return lines
    row = bundling_row(counted)
    what = f"{where}: what company leaves"
    cell = None if row is None else f"bundling_adjustment/{row}"
    return [*lines, _line(what, f"{counted} current-carrying conductors", company, "1", cell)]


_ZERO = 273.15
#: Conductors that lie together without any adjustment. Source: NEC 310.15(C)(1). Standing:
#: secondary.
_NO_ADJUSTMENT = 3


def _ground(one: Sized, rating: float, edition: str) -> list[WorkingLine]:
    rated = grounding_row(rating, "copper")
    if rated is None:
        return []
    tables, found = code_tables(edition), one.found.ground
    lines = [
        _line(
            f"{one.material}: ground by the breaker",
            "column size, before it grows; its area",
            float(tables.area[int(found.table_size[one.lane])]) * 1e6,
            "mm2",
            f"equipment_grounding/{rated}",
        )
    ]
    grown = f"{one.material}: ground that has grown with the phases"
    area = float(found.needed_area[one.lane]) * 1e6
    return [*lines, _line(grown, "area that it needs", area, "mm2")]


def _drop(
    request: ConductorSizingRequest, one: Sized, name: str, edition: str
) -> list[WorkingLine]:
    """Return resistance, reactance and the drop, each with the table it was read in."""
    tables, wall, lane = code_tables(edition), wall_of(one.parts), one.lane
    place = WALLS.index(wall)
    metres = one.length / request.circuit.sets
    direct = float(conductor_resistance.dc_resistance(MATERIALS[lane])[one.size])
    by_dc = direct >= float(tables.resistance[lane, place, one.size]) * (1 - 1e-12)
    row = conductor_resistance.dc_row(name)
    cell = f"conductor_properties/{row}" if by_dc else f"ac_impedance/{name}"
    kind = "direct" if by_dc else f"alternating current, {wall},"
    known = name in load("ac_impedance").rows
    return [
        _line(
            f"{one.material} {name}: resistance of the run",
            f"{kind} table, {one.length / FOOT:.0f} ft of one conductor",
            one.resistance,
            "ohm",
            cell if by_dc or known else None,
        ),
        _line(
            f"{one.material} {name}: reactance of the run",
            f"{wall}, {one.length / FOOT:.0f} ft of one conductor",
            float(tables.reactance[place, one.size]) * metres,
            "ohm",
            f"ac_impedance/{name}" if known else None,
        ),
        _line(
            f"{one.material} {name}: drop or rise",
            f"2 x {one.current.flowing:.4g} A x impedance, power factor as stated",
            float(one.found.drop[lane, 0]),
            "V",
        ),
    ]


def _raceways(request: ConductorSizingRequest, one: Sized, name: str) -> list[WorkingLine]:
    held = [part for part in one.raceways if part.trade_size is not None]
    if not held:
        return []
    over = insulation_columns()[request.insulation].over
    rows = load("insulated_conductors").rows
    lines = []
    for size in dict.fromkeys(filter(None, (name, size_name(one.neutral), size_name(one.ground)))):
        if f"{over}/{size}" in rows:
            area = _room(over, size)
            what = f"{one.material}: room that {size} takes"
            cell = f"insulated_conductors/{over}/{size}"
            lines.append(_line(what, "column area", area, "in2", cell))
    return lines + [
        _line(
            f"{one.material}: {raceways()[part.way].label}, {part.trade_size}",
            "part filled",
            part.filled_percent or 0.0,
            "%",
            f"raceway_sizes/{raceway_row(part.way, part.trade_size or '')}",
        )
        for part in held
    ]


@cache
def _room(over: str, size: str) -> float:
    return load("insulated_conductors").number(f"{over}/{size}", "area")


def _line(
    quantity: str, expression: str, value: float, unit: str, source: str | None = None
) -> WorkingLine:
    return WorkingLine(
        quantity=quantity, expression=expression, value=value, unit=unit, source=source
    )
