"""The reference lists that a form is filled from: ``GET /v1/reference/<id>``.

Each list is built once at start, from the tables and from the operations themselves, so that a
new check, unit or site fact appears without anyone listing it a second time.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from msgspec import Struct, defstruct

from service import ids
from service.check import Check, Operation
from service.climate import cite_site, climate_sites
from service.codes import code_editions
from service.http import reference_rows as rows
from service.http.fact_rows import fact_rows
from service.http.schema_text import units_taken
from service.http.wiring_lists import conductor_rows, raceway_rows
from service.http.wiring_rows import ConductorRow, RacewayRow
from service.published import data_edition, load
from service.published.appliances import catalogue
from service.published.motors import motor_kind, motor_kind_ids
from service.quantities.encoder import round_answer, to_json
from service.quantities.fields import said
from service.quantities.units import UNITS, si_factor

_SI_UNITS = {
    "energy": "J",
    "power": "W",
    "apparent_power": "VA",
    "current": "A",
    "voltage": "V",
    "length": "m",
    "duration": "s",
    "temperature": "K",
    "mass": "kg",
    "volume": "m3",
    "fraction": "1",
}


@dataclass(frozen=True, slots=True)
class ReferenceList:
    """One list: where it is read, what it holds, and the struct that the contract describes."""

    id: str
    title: str
    description: str
    answer: type[Struct]
    content: Struct

    @property
    def path(self) -> str:
        """Return the path it is read at."""
        return f"/v1/reference/{self.id}"

    @property
    def operation_id(self) -> str:
        """Return its operationId in the contract."""
        return "reference_" + self.id.replace("-", "_")

    def body(self) -> bytes:
        """Return the JSON text that the path answers."""
        return to_json(self.content)


def reference_lists(operations: Sequence[Operation]) -> tuple[ReferenceList, ...]:
    """Return every reference list, from the tables and the operations at hand."""
    return tuple(
        _listed(name, title, words, row, make(operations), note)
        for name, title, words, row, make, note in _LISTS
    )


def _listed(
    name: str, title: str, words: str, row: type[Struct], made: list[Any], note: str | None
) -> ReferenceList:
    answer = _answer_struct(row)
    content = answer(list=name, data_edition=data_edition(), note=note, rows=made)
    return ReferenceList(name, title, words, answer, round_answer(content))


def _answer_struct(row: type[Struct]) -> type[Struct]:
    """Return the struct of a list of such rows: four fields, the same in every list."""
    fields = [
        ("list", Annotated[str, said("Id of the list.", example="units")]),
        (
            "data_edition",
            Annotated[str, said("Digest of the data files.", example="0123456789abcdef")],
        ),
        (
            "note",
            Annotated[str | None, said("What to know of the list; null: nothing.", example=None)],
        ),
        ("rows", Annotated[list[row], said("Its rows.", example=None)]),  # type: ignore[valid-type]
    ]
    return defstruct(
        row.__name__.removesuffix("Row") + "List",
        fields,
        kw_only=True,
        forbid_unknown_fields=True,
        namespace={"__doc__": f"A reference list: {(row.__doc__ or '').splitlines()[0]}"},
    )


def _appliances(_operations: Sequence[Operation]) -> list[rows.ApplianceRow]:
    table = load("appliances")
    return [
        rows.ApplianceRow(
            id=a.id,
            name=a.name,
            volts_v=a.volts,
            run_w_low=a.run_w_low,
            run_w_typical=a.run_w_typ,
            run_w_high=a.run_w_high,
            start_w=a.total_start_w,
            duty_low=a.duty_low,
            duty_typical=a.duty_typ,
            duty_high=a.duty_high,
            hours_per_day=a.hours_per_day,
            windows=[rows.DayWindow(start_hour=s, end_hour=e) for s, e in a.windows],
            tier=str(a.tier),
            season=str(a.season),
            winter_factor=a.season_factor_winter,
            has_motor=a.has_motor,
            always_on=a.always_on,
            life_support=a.life_support,
            standing=str(a.standing),
            source=table.cite(a.id).id,
        )
        for a in catalogue().values()
    ]


def _motors(_operations: Sequence[Operation]) -> list[rows.MotorRow]:
    table = load("motor_kinds")
    return [
        rows.MotorRow(
            id=name,
            name=table.row(name)["label"],
            locked_rotor_power_factor=kind.locked_rotor_power_factor,
            running_power_factor=kind.running_power_factor,
            locked_rotor_torque=kind.locked_rotor_torque,
            breakaway_torque=kind.breakaway,
            inertia_s=kind.inertia_s,
            lra_over_rla_low=kind.lra_over_rla_low,
            lra_over_rla=kind.lra_over_rla,
            lra_over_rla_high=kind.lra_over_rla_high,
            soft_startable=bool(kind.soft_startable),
            standing=str(table.cite(name).standing),
            source=table.cite(name).id,
        )
        for name, kind in ((name, motor_kind(name)) for name in motor_kind_ids())
    ]


def _climate_sites(_operations: Sequence[Operation]) -> list[rows.ClimateSiteRow]:
    table = load("climate_sites")
    return [
        rows.ClimateSiteRow(
            id=site.id,
            name=site.name,
            state=site.state,
            latitude_deg=site.latitude_deg,
            longitude_deg=site.longitude_deg,
            elevation_ft=site.elevation_m / si_factor("ft"),
            utc_offset_h=site.utc_offset_h,
            climate_zone=site.climate_zone,
            climate_zone_standing=table.row(site.id)["standing_zone"] or None,
            terrain=site.terrain_class,
            hot_hour_degf=site.cooling_0_4_c * 1.8 + 32.0,
            cold_hour_degf=site.heating_99_6_c * 1.8 + 32.0,
            not_observed_percent=site.not_observed_percent,
            notes=site.notes,
            standing=str(cite_site(site.id).standing),
            source=cite_site(site.id).id,
        )
        for site in climate_sites().values()
    ]


def _code_editions(_operations: Sequence[Operation]) -> list[rows.CodeEditionRow]:
    table = load("code_editions")
    return [
        rows.CodeEditionRow(
            id=e.id,
            title=e.title,
            jurisdiction=e.jurisdiction,
            county=e.county,
            city=e.city,
            electrical=e.electrical,
            residential=e.residential,
            fire=e.fire,
            valid_from=e.first.isoformat(),
            valid_to=e.last.isoformat() if e.last else None,
            standing=str(table.cite(e.id).standing),
            source=table.cite(e.id).id,
        )
        for e in code_editions().values()
    ]


def _units(_operations: Sequence[Operation]) -> list[rows.UnitRow]:
    return [
        rows.UnitRow(
            unit=unit.name,
            dimension=unit.dimension,
            spellings=[s for s in unit.spellings if s in units_taken(unit.name)],
            si_unit=_SI_UNITS[unit.dimension],
            factor=float(unit.factor),
            offset=float(unit.offset),
        )
        for unit in UNITS.values()
    ]


def _ids(_operations: Sequence[Operation]) -> list[rows.IdRow]:
    return [rows.IdRow(id=i.id, kind=str(i.kind), meaning=i.meaning) for i in ids.listed()]


def _checks(operations: Sequence[Operation]) -> list[rows.CheckRow]:
    return [
        rows.CheckRow(
            id=operation.id,
            title=operation.title,
            path=operation.path,
            includes=list(operation.includes),
            composed=isinstance(operation, Check),
            facts_read=list(operation.facts_read) if isinstance(operation, Check) else [],
            after=list(operation.after) if isinstance(operation, Check) else [],
        )
        for operation in operations
    ]


def _facts(operations: Sequence[Operation]) -> list[rows.FactRow]:
    site = [operation for operation in operations if operation.id == "site-assessment"]
    return [row for operation in site for row in fact_rows(operation.request)]


_Make = Callable[[Sequence[Operation]], list[Any]]
_LISTS: tuple[tuple[str, str, str, type[Struct], _Make, str | None], ...] = (
    (
        "appliances",
        "Appliance catalogue",
        "Default watts, hours and tiers of household appliances, each a start to be replaced.",
        rows.ApplianceRow,
        _appliances,
        "Common practice unless the standing says otherwise; what the home really has goes first.",
    ),
    (
        "motors",
        "Motor kinds",
        "What stands in for a motor of a kind where neither nameplate nor maker says it.",
        rows.MotorRow,
        _motors,
        "Our own choices, varied by the corners of every start; a nameplate goes before them. "
        "drive_fed is no row: behind a drive there is no surge.",
    ),
    (
        "conductors",
        "Conductors",
        "Sizes of conductors in copper and aluminum: area, ampacities, resistance and room.",
        ConductorRow,
        lambda _operations: conductor_rows(),
        "Ampacities are at 30 degC, of up to three current-carrying conductors, before any factor "
        "and any cap of small conductors. An answer takes the larger of both resistances and no "
        "size above 500 kcmil. Aluminum of compact strand takes less room.",
    ),
    (
        "raceways",
        "Raceways",
        "Trade sizes of raceways, and the room that conductors may fill in each.",
        RacewayRow,
        lambda _operations: raceway_rows(),
        "Where they may lie is told by POST /v1/conductor-sizing.",
    ),
    (
        "climate-sites",
        "Climate sites",
        "Places with a typical year of sun and temperature, hour by hour.",
        rows.ClimateSiteRow,
        _climate_sites,
        "Typical meteorological years TMY3. Hot and cold hours are those of one typical year, no "
        "design standard: the hot ones lie 2 degF low in the mean, in some places 6 degF.",
    ),
    (
        "code-editions",
        "Code editions",
        "Editions of codes, with the permit dates and places they apply to.",
        rows.CodeEditionRow,
        _code_editions,
        "Local amendments are not listed; `model` stands in where a place is unknown.",
    ),
    (
        "units",
        "Units",
        "Every unit that a text may carry, with its exact factor to SI.",
        rows.UnitRow,
        _units,
        None,
    ),
    (
        "ids",
        "Ids",
        "Every rule, reason, caution, alternative and problem id with its meaning.",
        rows.IdRow,
        _ids,
        None,
    ),
    (
        "checks",
        "Checks",
        "Every operation, what it can include, and the site facts that move it.",
        rows.CheckRow,
        _checks,
        None,
    ),
    (
        "facts",
        "Site facts",
        "Every fact of a site: its question, who answers it how, and what answers are taken.",
        rows.FactRow,
        _facts,
        None,
    ),
)
