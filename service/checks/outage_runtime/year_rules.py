"""Rules on weather, sun and generator that hold the verdict down, whatever the hours are.

Ranks are those of ``verdict``: 0 fail, 1 undetermined, 2 conditional, 3 pass.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.checks.outage_runtime.load_rows import request_rows
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, UNDETERMINED
from service.checks.outage_runtime.year_arguments import (
    chosen_climate,
    dark_allowed,
    joins,
    lit,
    needs_weather,
    perhaps_joins,
    perhaps_lit,
    restarts,
)
from service.facts import GeneratorSet
from service.published.generators import generator_limit, quality_class
from service.published.outage_defaults import outage_defaults


@dataclass(frozen=True, slots=True)
class YearRule:
    """One rule as it stands: what it found, and what must be so where it is conditional."""

    rule: str
    rank: int
    statement: str
    condition: str | None = None
    actual: float | None = None
    limit: float | None = None
    unit: str | None = None
    sources: tuple[str, ...] = ()


def _limit(name: str) -> str:
    return f"generator_limits/{name}/value"


_BARRED = {
    "climate-unknown": "The weather of the place is not known, so neither its sun nor its heating "
    "and cooling can be counted.",
    "climate-too-far": "No climate site lies within 200 km (124 mi) of the place: send 8,760 "
    "values of a year of its own.",
    "climate-far": "The nearest climate site is far away or on other ground: name a site, or "
    "accept it, knowing that sun and hot hours may lie far off.",
}


def _climate(request: OutageRuntimeRequest) -> Iterator[YearRule]:
    barred = chosen_climate(request).barred if needs_weather(request) else None
    if barred is not None:
        yield YearRule(barred, UNDETERMINED, _BARRED[barred])


def sun_on_bus_kw(request: OutageRuntimeRequest) -> float:
    """Return the AC power of the solar inverters on the backed-up bus [kW]. Source: request."""
    solar = request.solar
    if solar is None or not lit(request):
        return 0.0
    ratio = outage_defaults()["dc_over_ac"].value
    return sum(
        array.dc_kw / ratio if array.inverter_kw is None else array.inverter_kw
        for array in solar.arrays
        if array.coupling == "ac" and array.dc_kw > 0
    )


def _ratio(request: OutageRuntimeRequest) -> Iterator[YearRule]:
    on_bus = sun_on_bus_kw(request)
    power = request.battery.continuous_kw
    if on_bus <= 0.0:
        return
    if power is None:
        yield YearRule(
            "solar-to-inverter-ratio",
            UNDETERMINED,
            "Solar inverters stand on the backed-up bus, and the battery inverter's continuous "
            "power, which they are held against, is not known.",
            actual=on_bus,
            unit="kW",
        )
        return
    total = power * (request.battery.count or 1)
    check, stop = generator_limit("solar_ratio_check"), generator_limit("solar_ratio_stop")
    ratio = on_bus / total
    words = f"Solar inverters of {on_bus:.4g} kW on the backed-up bus, {ratio:.3g} times the "
    words += f"{total:.4g} kW of the battery inverters"
    if ratio > stop + 1e-9:
        rank, tail = UNDETERMINED, ": not without the maker's letter."
    elif ratio > check + 1e-9:
        rank, tail = CONDITIONAL, ": above the usual one to one, so the instructions must allow it."
    else:
        rank, tail = PASS, ", within the usual one to one."
    yield YearRule(
        "solar-to-inverter-ratio",
        rank,
        words + tail,
        "the instructions of the battery inverter allow this much solar on its bus"
        if rank == CONDITIONAL
        else None,
        actual=on_bus,
        limit=total * check,
        unit="kW",
        sources=(_limit("solar_ratio_stop" if rank == UNDETERMINED else "solar_ratio_check"),),
    )


def _distortion(generator: GeneratorSet) -> Iterator[YearRule]:
    distortion = generator.voltage_distortion_percent
    if distortion is None:
        return
    good, bad = generator_limit("distortion_check"), generator_limit("distortion_stop")
    above_good = distortion > good + 1e-9
    above_bad = distortion > bad + 1e-9
    yield YearRule(
        "generator-distortion",
        FAIL if above_bad else CONDITIONAL if above_good else PASS,
        f"The generator's voltage is distorted by {distortion:.3g} %; up to {good:g} % is "
        f"usual for charging through an inverter, above {bad:g} % it is not to be tried.",
        "the inverter's maker accepts the distortion of the generator's voltage"
        if above_good and not above_bad
        else None,
        actual=distortion,
        limit=bad if above_bad else good,
        unit="%",
        sources=(_limit("distortion_stop" if above_bad else "distortion_check"),),
    )


def _quality(generator: GeneratorSet) -> Iterator[YearRule]:
    if generator.quality_class is None:
        return
    frequency = quality_class(generator.quality_class).no_load_frequency
    most = generator_limit("over_frequency")
    high = frequency > most
    yield YearRule(
        "generator-frequency",
        CONDITIONAL if high else PASS,
        f"Class {generator.quality_class.upper()} lets the frequency rise to {frequency:.1f} Hz at "
        "no load"
        + (
            ", which an inverter takes for a fault of the grid."
            if high
            else ", which an inverter usually accepts."
        ),
        "the inverter's generator input accepts the generator's frequency at light load"
        if high
        else None,
        actual=frequency,
        limit=most,
        unit="Hz",
        sources=(f"generator_quality/{generator.quality_class}", _limit("over_frequency")),
    )


def _generator(request: OutageRuntimeRequest) -> Iterator[YearRule]:
    generator = request.generator
    if perhaps_joins(request):
        yield YearRule(
            "generator-connection",
            CONDITIONAL,
            "How the generator is connected is not known: it is not counted, and if it joins the "
            "battery it must suit the inverter.",
            "the generator stays on a transfer switch of its own, or suits the inverter's input",
        )
    if generator is None or not joins(request):
        return
    yield YearRule(
        "generator-joins",
        CONDITIONAL,
        "A generator is counted on: somebody must keep it fuelled and able to start, and the "
        "inverter's generator input must be listed for it.",
        "the generator starts, has the stated fuel, and is listed for the inverter's input",
    )
    yield from _distortion(generator)
    yield from _quality(generator)
    usable = generator.usable_part or outage_defaults()["generator_usable_part"].value
    if generator.charge_kw is not None and generator.charge_kw > generator.rated_kw * usable:
        yield YearRule(
            "generator-size",
            CONDITIONAL,
            f"It is told to charge with {generator.charge_kw:g} kW and gives "
            f"{generator.rated_kw * usable:.3g} kW for loads and charging together.",
            "charging is turned down to what the generator gives beside the loads",
            actual=generator.charge_kw,
            limit=generator.rated_kw * usable,
            unit="kW",
        )


def _restart(request: OutageRuntimeRequest) -> Iterator[YearRule]:
    allowed = dark_allowed(request)
    if not allowed:
        return
    if any(row.life_support for row in request_rows(request)):
        yield YearRule(
            "life-support-dark",
            UNDETERMINED,
            f"Up to {allowed:g} h without power are put up with, and a load is marked as life "
            "support: no time without power may be assumed for it.",
            actual=allowed,
            limit=0.0,
            unit="h",
        )
    if not restarts(request):
        return
    yield YearRule(
        "restarts-by-itself",
        CONDITIONAL,
        "Time without power is put up with because the system restarts by itself from the sun.",
        "the listing says that the unit restarts from the sun as stated, and it is tested",
    )


def year_rules(request: OutageRuntimeRequest) -> list[YearRule]:
    """Return the rules on weather, sun and generator that apply to a request."""
    return [
        *_climate(request),
        *_ratio(request),
        *_generator(request),
        *_restart(request),
    ]


def year_rank(request: OutageRuntimeRequest) -> int:
    """Return the best verdict that weather, sun and generator allow."""
    return min((rule.rank for rule in year_rules(request)), default=PASS)


def weather_left_out(request: OutageRuntimeRequest) -> bool:
    """Return whether heating and cooling are not in the hours for want of weather."""
    return bool(request.conditioning) and chosen_climate(request).barred is not None


def might_be_carried(request: OutageRuntimeRequest) -> bool:
    """Return whether sun or a generator of which too little is known might carry the loads."""
    return (
        (lit(request) and chosen_climate(request).barred is not None)
        or perhaps_lit(request)
        or perhaps_joins(request)
    )
