"""From a request to what an outage in the course of a year takes, in SI."""

from __future__ import annotations

from math import radians

import numpy as np

from service.checks.outage_runtime.battery_parameters import Ranged, pick
from service.checks.outage_runtime.climate_choice import ClimateChoice, choose_climate
from service.checks.outage_runtime.load_rows import DAY_PROFILE_FACTORS, request_rows
from service.checks.outage_runtime.request import IntervalProfileUse, OutageRuntimeRequest
from service.checks.outage_runtime.weather_units import weather_units
from service.checks.outage_runtime.year_facts import (
    BLACK_START,
    DC_RESTART,
    Answering,
    GeneratorRule,
    Metered,
    Plane,
    RestartRule,
    Sun,
    YearFacts,
)
from service.facts import (
    LEAST_BAND_PERCENT,
    Battery,
    BlackStart,
    DcRestart,
    GeneratorSet,
    LiquidFuel,
    Restart,
    Solar,
    SolarArray,
)
from service.published.generators import fuel_use
from service.published.outage_defaults import outage_defaults
from service.quantities.units import si_factor

_W_PER_KW = si_factor("kW")
_S_PER_H = si_factor("h")


def lit(request: OutageRuntimeRequest) -> bool:
    """Return whether there is solar that runs in an outage."""
    solar = request.solar
    return (
        solar is not None
        and solar.backed_up is True
        and any(array.dc_kw > 0 for array in solar.arrays)
    )


def perhaps_lit(request: OutageRuntimeRequest) -> bool:
    """Return whether there is solar of which nobody said on which side it stands."""
    solar = request.solar
    return (
        solar is not None
        and solar.backed_up is None
        and any(array.dc_kw > 0 for array in solar.arrays)
    )


def needs_weather(request: OutageRuntimeRequest) -> bool:
    """Return whether the answer depends on the weather."""
    return lit(request) or bool(request.conditioning)


def chosen_climate(request: OutageRuntimeRequest) -> ClimateChoice:
    """Return the typical years that answer; an empty choice where the weather does not matter."""
    if not needs_weather(request):
        return ClimateChoice()
    return choose_climate(request.climate)


def perhaps_joins(request: OutageRuntimeRequest) -> bool:
    """Return whether there is a generator of which nobody said how it is connected."""
    return request.generator is not None and request.generator.connection is None


def joins(request: OutageRuntimeRequest) -> bool:
    """Return whether a generator charges the battery and shares its load."""
    generator = request.generator
    return generator is not None and generator.connection == "inverter_input"


def by_charge(request: OutageRuntimeRequest) -> bool:
    """Return whether the charge decides what happens: control, generator, time in the dark."""
    sheds = request.load_control is not None and any(
        row.tier in (1, 2) for row in request_rows(request)
    )
    return sheds or joins(request) or dark_allowed(request) > 0.0


def dark_allowed(request: OutageRuntimeRequest) -> float:
    """Return the time without power that is put up with [h]: none where nothing restarts."""
    comes_back = restarts(request) or joins(request)
    return (request.dark_allowed or 0.0) if comes_back else 0.0


def dated(request: OutageRuntimeRequest) -> bool:
    """Return whether the outage is a matter of the date."""
    weathered = bool(chosen_climate(request).answering)
    return weathered or isinstance(request.use, IntervalProfileUse) or joins(request)


def year_facts(request: OutageRuntimeRequest) -> YearFacts | None:
    """Return what makes the outage a matter of the date; None: nothing does.

    Notes
    -----
    Source of units: the closed list of units; of defaults: table outage_defaults.
    """
    choice = chosen_climate(request)
    weathered = bool(choice.answering)
    if not dated(request):
        return None
    sun = _sun(request.solar, choice.answering) if weathered and lit(request) else None
    return YearFacts(
        answering=choice.answering,
        sun=sun,
        units=weather_units(request) if weathered else (),
        metered=_metered(request.use) if isinstance(request.use, IntervalProfileUse) else None,
        restart=_restart(request.restart),
        generator=_generator(request.generator) if joins(request) else None,
        share=(100.0 if request.starts_carried_percent is None else request.starts_carried_percent)
        / 100.0,
        dark=dark_allowed(request) * _S_PER_H,
        hourly=by_charge(request),
        hotter=(request.outdoor_offset or 0.0) / 1.8,
        outdoor=_outdoor(request, choice.answering),
    )


def _outdoor(request: OutageRuntimeRequest, answering: tuple[Answering, ...]) -> Ranged:
    """Return how much hotter for cooling, or colder for heating, it may be than was stated [K]."""
    if request.outdoor_offset is not None or not request.conditioning:
        return Ranged(0.0, 0.0, 0.0)
    errors = [one.temperature_error or 0.0 for one in answering]
    error = max(errors, default=0.0)
    return Ranged(0.0, error, -error)


def _metered(use: IntervalProfileUse) -> Metered:
    low = DAY_PROFILE_FACTORS[0] if use.low_factor is None else use.low_factor
    high = DAY_PROFILE_FACTORS[1] if use.high_factor is None else use.high_factor
    share = 1.0 if use.share_percent is None else use.share_percent / 100.0
    return Metered(np.array(use.watts) * share, (low, 1.0, high))


def _plane(array: SolarArray) -> Plane:
    rated = array.dc_kw * _W_PER_KW
    limit = (
        rated / outage_defaults()["dc_over_ac"].value
        if array.inverter_kw is None
        else array.inverter_kw * _W_PER_KW
    )
    shade = array.shading_percent
    by_month = shade if isinstance(shade, list) else [-100.0 if shade is None else shade] * 12
    return Plane(
        tilt=radians(array.tilt),
        facing=radians(array.azimuth),
        rated=rated,
        limit=limit,
        direct=array.coupling == "dc",
        shade=tuple(part / 100.0 for part in by_month),
    )


def _yields(solar: Solar, answering: tuple[Answering, ...]) -> Ranged:
    if solar.yield_factor is not None:
        return Ranged(solar.yield_factor, solar.yield_factor, solar.yield_factor)
    return Ranged(
        1.0,
        min(one.yields[0] for one in answering),
        max(one.yields[1] for one in answering),
    )


def _sun(solar: Solar | None, answering: tuple[Answering, ...]) -> Sun | None:
    if solar is None:
        return None
    coefficient = pick(solar.temperature_coefficient, "temperature_coefficient").value
    return Sun(
        planes=tuple(_plane(array) for array in solar.arrays),
        losses=pick(solar.system_losses_percent, "system_losses_percent", 0.01),
        shading=pick(None, "shading_percent", 0.01),
        yields=_yields(solar, answering),
        temperature_coefficient=coefficient / 100.0,
    )


def restarts(request: OutageRuntimeRequest) -> bool:
    """Return whether the sun may bring a lost bus back."""
    return isinstance(request.restart, (BlackStart, DcRestart))


def _restart(restart: Restart | None) -> RestartRule:
    if isinstance(restart, BlackStart):
        return RestartRule(
            mode=BLACK_START, least=restart.least_kw * _W_PER_KW, wait=restart.wait * 60.0
        )
    if isinstance(restart, DcRestart):
        return RestartRule(mode=DC_RESTART, fraction=restart.restart_charge_percent / 100.0)
    return RestartRule()


def _generator(generator: GeneratorSet | None) -> GeneratorRule | None:
    if generator is None:
        return None
    usable = pick(generator.usable_part, "generator_usable_part").value
    fixed, linear = fuel_burn(generator)
    fuel = generator.fuel
    start, stop = (percent / 100.0 for percent in generator_charges(generator))
    return GeneratorRule(
        power=generator.rated_kw * _W_PER_KW * usable,
        start=start,
        stop=stop,
        charge=np.inf if generator.charge_kw is None else generator.charge_kw * _W_PER_KW,
        quiet=tuple(
            (window.start_hour * _S_PER_H, window.end_hour * _S_PER_H)
            for window in generator.quiet_hours or ()
        ),
        tank=fuel.tank if isinstance(fuel, LiquidFuel) else np.inf,
        refills=float(fuel.refills) if isinstance(fuel, LiquidFuel) else 0.0,
        burn_fixed=fixed,
        burn_linear=linear,
    )


def charge_kw(battery: Battery) -> float:
    """Return the charging power of a unit [kW]: as stated, or the cautious end of what is usual.

    Notes
    -----
    Source: table outage_defaults where it is not stated.
    """
    if battery.charge_kw is not None:
        return battery.charge_kw
    defaults = outage_defaults()
    if battery.continuous_kw is not None:
        return battery.continuous_kw * defaults["charge_over_continuous"].value
    return battery.energy.kwh * defaults["charge_over_energy"].value


def generator_charges(generator: GeneratorSet) -> tuple[float, float]:
    """Return the charges at which a generator starts and stops [%].

    Notes
    -----
    What is not stated keeps its distance from what is. Source: table outage_defaults.
    """
    defaults = outage_defaults()
    start, stop = generator.start_percent, generator.stop_percent
    usual_start, usual_stop = (
        defaults[f"generator_{name}_percent"].value for name in ("start", "stop")
    )
    if start is None:
        start = usual_start if stop is None else min(usual_start, stop - LEAST_BAND_PERCENT)
    return start, max(usual_stop, start + LEAST_BAND_PERCENT) if stop is None else stop


def fuel_uses(generator: GeneratorSet) -> tuple[float, float]:
    """Return the fuel used at full and at half load [gal/h, natural gas ft3/h].

    Parameters
    ----------
    generator : GeneratorSet
        Rated power [kW], use as far as it is stated.

    Notes
    -----
    Source: table generator_fuels where it is not.
    """
    fuel = generator.fuel
    name: str
    if isinstance(fuel, LiquidFuel):
        name, full, half = fuel.fuel, fuel.full_load_gal_per_hour, fuel.half_load_gal_per_hour
    else:
        name, full, half = (
            "natural_gas",
            fuel.full_load_ft3_per_hour,
            fuel.half_load_ft3_per_hour,
        )
    usual_full, usual_half = fuel_use(name, generator.rated_kw)
    if full is None and half is not None:
        full = half * usual_full / usual_half
    full = usual_full if full is None else full
    return full, full * usual_half / usual_full if half is None else half


def fuel_burn(generator: GeneratorSet) -> tuple[float, float]:
    """Return the fuel burnt a second while it runs and a joule given, in gal or ft3.

    Parameters
    ----------
    generator : GeneratorSet
        Rated power [kW], use at full and half load [gal/h or ft3/h].

    Notes
    -----
    A straight line through the use at half and at full load. Source: common practice.
    """
    full, half = fuel_uses(generator)
    at_rest = max(2.0 * half - full, 0.0)
    return (
        at_rest / _S_PER_H,
        (full - at_rest) / _S_PER_H / (generator.rated_kw * _W_PER_KW),
    )
