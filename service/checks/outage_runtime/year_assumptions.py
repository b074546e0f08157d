"""Defaults of weather, sun, generator and floor that entered, by pointer."""

from __future__ import annotations

from collections.abc import Iterator

from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.weather_units import design_of, extreme_of
from service.checks.outage_runtime.year_arguments import (
    charge_kw,
    fuel_uses,
    generator_charges,
    joins,
    lit,
)
from service.checks.outage_runtime.year_columns import YearColumn
from service.facts import (
    Conditioning,
    GeneratorSet,
    LiquidFuel,
    RatedPower,
    Solar,
    SolarArray,
)
from service.findings import Assumption
from service.published.conditioning_defaults import Levels, conditioning_defaults
from service.published.outage_defaults import outage_defaults

_ZERO_CELSIUS = 273.15


def _default(pointer: str, name: str, scale: float = 1.0) -> Assumption:
    entry = outage_defaults()[name]
    fixed = entry.low == entry.high
    return Assumption(
        pointer=pointer,
        value=entry.value * scale,
        range=None if fixed else [entry.low * scale, entry.high * scale],
        reason=f"{entry.reason} Standing: {entry.standing.replace('_', ' ')}.",
        source=f"outage_defaults/{name}/value",
    )


def _array(index: int, array: SolarArray) -> Iterator[Assumption]:
    pointer = f"/solar/arrays/{index}"
    if array.shading_percent is None:
        yield _default(f"{pointer}/shading_percent", "shading_percent")
    if array.inverter_kw is None and array.dc_kw > 0:
        entry = outage_defaults()["dc_over_ac"]
        yield Assumption(
            pointer=f"{pointer}/inverter_kw",
            value=array.dc_kw / entry.value,
            reason=f"{entry.reason} Standing: {entry.standing.replace('_', ' ')}.",
            source="outage_defaults/dc_over_ac/value",
        )


def _solar(solar: Solar, column: YearColumn | None) -> Iterator[Assumption]:
    if column is None or column.course.facts.sun is None:
        return
    sun = column.course.facts.sun
    if solar.system_losses_percent is None:
        yield _default("/solar/system_losses_percent", "system_losses_percent")
    if solar.temperature_coefficient is None:
        yield _default("/solar/temperature_coefficient", "temperature_coefficient")
    if solar.yield_factor is None:
        yield Assumption(
            pointer="/solar/yield_factor",
            value=1.0,
            range=[sun.yields.worse, sun.yields.better],
            reason="The typical year as it stands; newer data give 3 % less to 12 % more, and the "
            "site's distance from the home adds to that. Standing: derived.",
            source="outage_defaults/typical_year_low/value",
        )
    for index, array in enumerate(solar.arrays):
        yield from _array(index, array)


def _generator(generator: GeneratorSet) -> Iterator[Assumption]:
    used = dict(zip(("start", "stop"), generator_charges(generator), strict=True))
    for name, stated in (("start", generator.start_percent), ("stop", generator.stop_percent)):
        if stated is None:
            entry = outage_defaults()[f"generator_{name}_percent"]
            yield Assumption(
                pointer=f"/generator/{name}_percent",
                value=used[name],
                reason=f"{entry.reason} Standing: common practice.",
                source=f"outage_defaults/{entry.id}/value",
            )
    if generator.usable_part is None:
        yield _default("/generator/usable_part", "generator_usable_part")
    yield from _fuel(generator)


def _fuel(generator: GeneratorSet) -> Iterator[Assumption]:
    """Fuel use that was not stated: the table's, or the table's ratio of half to full load."""
    fuel = generator.fuel
    liquid = isinstance(fuel, LiquidFuel)
    name, unit = (fuel.fuel, "gal") if isinstance(fuel, LiquidFuel) else ("natural_gas", "ft3")
    stated = [getattr(fuel, f"{part}_load_{unit}_per_hour") for part in ("full", "half")]
    for part, value, used in zip(("full", "half"), stated, fuel_uses(generator), strict=True):
        if value is None:
            yield Assumption(
                pointer=f"/generator/fuel/{part}_load_{unit}_per_hour",
                value=used,
                reason=f"Use at {part} load of such a set{'' if liquid else ' on piped gas'}, the "
                "high end. Standing: common practice, no source.",
                source=f"generator_fuels/{name}/{part}_load",
            )


def _cautious(pointer: str, levels: Levels, name: str, reason: str) -> Assumption:
    return Assumption(
        pointer=pointer,
        value=levels.high,
        reason=f"{reason} The end that takes most; others have {levels.typical:g} to "
        f"{levels.low:g}. Standing: common practice.",
        source=f"conditioning_defaults/{name}/high",
    )


def _temperatures(index: int, unit: Conditioning, column: YearColumn) -> Iterator[Assumption]:
    """Design and extreme temperature that the typical year stood in for."""
    climate = column.answering
    if climate is None:
        return
    found, air = column.course.facts.units[index], climate.weather.dry_bulb
    for name, stated, kelvin in (
        ("design", unit.design, design_of(found, air)),
        ("extreme", unit.extreme, extreme_of(found, air)),
    ):
        if stated is None:
            yield Assumption(
                pointer=f"/conditioning/{index}/{name}",
                value=(kelvin - _ZERO_CELSIUS) * 1.8 + 32.0,
                reason="Of the one typical year, no design standard: percentiles of it lie some 2 "
                "degF low, in places 10 degF, and it holds no record heat. Standing: derived.",
                source=None
                if climate.weather.id == "own_year"
                else f"climate_sites/{climate.weather.id}",
            )


def _unit(index: int, unit: Conditioning) -> Iterator[Assumption]:
    defaults = conditioning_defaults()
    pointer = f"/conditioning/{index}"
    side = "cooling" if unit.kind == "cooling" else "heating"
    if unit.indoor is None:
        name = f"{side}_indoor_degf"
        yield _cautious(f"{pointer}/indoor", defaults[name], name, f"Indoor set-point for {side}.")
    ratio = {"cooling": "cooling_eer", "heat_pump_heating": "heat_pump_ratio"}.get(unit.kind)
    if unit.eer is None and ratio is not None and not isinstance(unit.size, RatedPower):
        yield _cautious(
            f"{pointer}/eer", defaults[ratio], ratio, "Efficiency ratio of such a unit."
        )


def _joining(request: OutageRuntimeRequest) -> Iterator[Assumption]:
    if request.generator is not None and joins(request):
        yield from _generator(request.generator)


def _charging(request: OutageRuntimeRequest) -> Iterator[Assumption]:
    if request.battery.charge_kw is not None:
        return
    by_power = request.battery.continuous_kw is not None
    name = "charge_over_continuous" if by_power else "charge_over_energy"
    entry = outage_defaults()[name]
    yield Assumption(
        pointer="/battery/charge_kw",
        value=charge_kw(request.battery),
        reason=f"{entry.reason} Standing: common practice.",
        source=f"outage_defaults/{name}/value",
    )


def _criteria(request: OutageRuntimeRequest) -> Iterator[Assumption]:
    if request.restart is None and (lit(request) or joins(request)):
        yield Assumption(
            pointer="/restart/mode",
            value="none",
            reason="The cautious case: once the battery has run down the sun does not bring it "
            "back.",
        )
    if request.starts_carried_percent is None:
        yield Assumption(
            pointer="/starts_carried_percent",
            value=100.0,
            reason="Every day of the typical year must be carried; a lower share stands among the "
            "alternatives.",
        )
    if request.dark_allowed is None:
        yield Assumption(
            pointer="/dark_allowed", value=0.0, reason="No time without power is put up with."
        )


def _outdoor(request: OutageRuntimeRequest, column: YearColumn) -> Iterator[Assumption]:
    error = column.course.facts.outdoor.better
    if request.outdoor_offset is None and column.course.facts.units:
        spread = abs(error) * 1.8
        climate = column.answering
        tiered = climate is not None and climate.tier in ("A", "B", "C")
        yield Assumption(
            pointer="/outdoor_offset",
            value=0.0,
            range=[-spread, spread] if spread else None,
            reason="The temperatures of the climate site as they stand; nine of ten homes as far "
            "from theirs lie within the range. Standing: derived.",
            source=f"climate_tiers/{climate.tier}" if tiered and climate else None,
        )


def year_assumptions(
    request: OutageRuntimeRequest, column: YearColumn | None
) -> Iterator[Assumption]:
    """Return every default of weather, sun, generator and floor that entered."""
    if request.solar is not None:
        yield from _solar(request.solar, column)
    yield from _joining(request)
    for index, unit in enumerate(request.conditioning or ()):
        yield from _unit(index, unit)
        if column is not None and column.course.facts.units:
            yield from _temperatures(index, unit, column)
    if column is None:
        return
    facts = column.course.facts
    if facts.sun is not None or facts.generator is not None:
        yield from _charging(request)
    yield from _outdoor(request, column)
    yield from _criteria(request)
