"""The sentences of safety and scope, each where it belongs."""

from __future__ import annotations

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.year_arguments import joins, lit, restarts
from service.checks.outage_runtime.year_rules import sun_on_bus_kw
from service.findings import ESTIMATE_NOT_DESIGN, Caution

_TEXTS = {
    "medical-equipment": (
        "Never rely on this battery alone for medical equipment: keep a second plan, ask the "
        "doctor and the equipment supplier, and ask the utility about its medical program."
    ),
    "cold-storage": (
        "A refrigerator or freezer that loses power warms up: keep it shut, and throw food and "
        "medicine away by the safe times that the food and drug authorities publish."
    ),
    "sump-pump": (
        "If the sump pump's power ends, water may rise: a storm that takes the grid away also "
        "brings the water, so plan a second pump or an alarm."
    ),
    "reserve-setting": (
        "An outage does not wait for a full battery: what is kept in reserve is what there is. "
        "Anyone can lower the setting later; write the agreed value into the contract."
    ),
    "ageing": (
        "Batteries lose energy with age and heat: the runtime when the warranty ends is the one to "
        "promise, not the runtime of the first day."
    ),
    "hidden-peaks": (
        "A bill, an hourly profile or the average of a class of homes hides the peaks of a minute: "
        "it says nothing about whether the inverter carries or starts the loads."
    ),
    "running-power-only": (
        "Only running power is looked at here: whether motors start is another check, made from "
        "their nameplates."
    ),
    "no-source": "Neither sun nor generator is counted here: the battery is alone.",
    "typical-year": (
        "One typical year stands for all: it smooths spells of bad weather and heat, so the worst "
        "of twenty real years is worse than its worst day."
    ),
    "sun-trips": (
        "When the battery is full the solar inverters are throttled or trip, and wait some five "
        "minutes before they join again; the instructions of both must allow that they run "
        "together without the grid."
    ),
    "sun-dark": (
        "Solar that is not on the backed-up side of the transfer is dark in an outage, whatever "
        "the sun does."
    ),
    "restart-not-tested": (
        "Whether a system that ran down restarts by itself from the sun is for its listing and a "
        "test on site to say."
    ),
    "generator-carbon-monoxide": (
        "Run a generator outdoors only, far from doors, windows and vents: its exhaust holds "
        "carbon monoxide, which kills without warning; have carbon monoxide alarms in the home."
    ),
    "generator-back-feed": (
        "Connect a generator only through listed transfer equipment or a listed generator input, "
        "installed by a licensed electrician: back-feed kills line workers."
    ),
    "generator-and-sun": (
        "Solar inverters must not run on a generator: the sun is counted as held off while it "
        "runs, and the wiring must see to that."
    ),
    "generator-not-counted": (
        "The generator is not counted: on a transfer switch it carries the home without the "
        "battery, and how it is connected must be known before it is."
    ),
    "cooling-counted-twice": (
        "Heating and cooling by weather are added to the other use: take them out of it where the "
        "meter, the bill or a chosen load holds them already."
    ),
    "weather-driven-load": (
        "Heating and cooling follow the outdoor temperature of the typical year; a heat wave "
        "brings both more load and a longer outage."
    ),
    "load-control": (
        "Load control must be listed for the purpose, be fitted and be set as stated; without it "
        "nothing is shed by itself."
    ),
    "left-out-loads": (
        "Loads of tier shed must be on circuits that are not backed up, or be switched off by hand."
    ),
}
_COLD = {"refrigerator", "refrigerator_second", "freezer"}
_SUMP = {"sump_pump_third"}
_MEDICAL = {"medical_cpap", "medical_o2"}


def cautions(case: Judgement) -> list[Caution]:
    """Return the cautions that fit the case."""
    appliances = {row.appliance for row in case.rows}
    request = case.request
    fits = {
        "medical-equipment": case.life_support or bool(appliances & _MEDICAL),
        "cold-storage": bool(appliances & _COLD) or not case.by_loads,
        "sump-pump": bool(appliances & _SUMP),
        "reserve-setting": case.request.battery.start_charge_percent is None,
        "ageing": True,
        "hidden-peaks": not case.by_loads,
        "running-power-only": case.by_loads,
        "no-source": not lit(request) and not joins(request),
        "typical-year": case.year is not None and case.year.answering is not None,
        "sun-trips": case.year is not None and sun_on_bus_kw(request) > 0,
        "sun-dark": request.solar is not None and not lit(request),
        "restart-not-tested": restarts(request),
        "generator-carbon-monoxide": request.generator is not None,
        "generator-back-feed": request.generator is not None,
        "generator-and-sun": joins(request) and request.solar is not None,
        "generator-not-counted": request.generator is not None and not joins(request),
        "weather-driven-load": bool(request.conditioning),
        "cooling-counted-twice": bool(request.conditioning)
        and (not case.by_loads or any((name or "").startswith("ac_") for name in appliances)),
        "load-control": case.has_control,
        "left-out-loads": any(row.tier == 3 for row in case.rows),
    }
    found = [Caution(id=name, text=_TEXTS[name]) for name, fit in fits.items() if fit]
    return [ESTIMATE_NOT_DESIGN, *found]
