"""The readings side by side, what happens in order, power needed, and what a tenth more buys."""

from __future__ import annotations

from typing import Literal

from service.checks.outage_runtime import answer as an
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import LAYOUT
from service.checks.outage_runtime.power_finding import largest, power
from service.checks.outage_runtime.year_arguments import joins
from service.published.outage_defaults import outage_defaults

_KWH = 3.6e6
_USES: tuple[Literal["low", "typical", "high"], ...] = ("low", "typical", "high")


def _ended_by(case: Judgement, lane: int) -> Literal["energy", "power", "nothing"]:
    if bool(case.of("at_least")[lane]):
        return "nothing"
    return "power" if bool(case.of("by_power")[lane]) else "energy"


def start_hour(case: Judgement) -> float:
    """Return the local hour at which the outage starts [h]."""
    stated = case.request.start_hour
    return outage_defaults()["start_hour"].value if stated is None else stated


def _start_word(case: Judgement, start: int) -> Literal["reserve", "stated", "full"]:
    if start:
        return "full"
    return "reserve" if case.request.battery.start_charge_percent is None else "stated"


def _tier_hours(case: Judgement, name: str, tier: int, lane: int) -> float | None:
    return float(case.of(name)[lane]) / HOUR if any(r.tier == tier for r in case.rows) else None


def readings(case: Judgement) -> list[an.Reading]:
    """Return use by capacity by start charge."""
    found = []
    for (use, age, start), lane in LAYOUT.readings.items():
        dark = float(case.of("dark")[lane]) / HOUR
        at_least = bool(case.of("at_least")[lane])
        found.append(
            an.Reading(
                use=_USES[use],
                capacity="end_of_warranty" if age else "now",
                start=_start_word(case, start),
                start_kwh=float(case.of("start_energy")[lane]) / _KWH,
                hours_to_dark=dark,
                at_least=at_least,
                normal_hours=_tier_hours(case, "normal_off", 1, lane),
                comfort_hours=_tier_hours(case, "comfort_off", 2, lane),
                dark_at_hour=None if at_least else (start_hour(case) + dark) % 24,
                ended_by=_ended_by(case, lane),
            )
        )
    return found


def events(case: Judgement) -> list[an.Event]:
    """Return what happens at typical use, now, from the start charge, in order."""
    lane = LAYOUT.triples["base"].typical
    dark = float(case.of("dark")[lane])
    found: list[
        tuple[float, Literal["start", "comfort_off", "normal_off", "over_power", "dark"], str]
    ] = [(0.0, "start", "The grid goes; the battery carries the backed-up circuits.")]
    comfort, normal = float(case.of("comfort_off")[lane]), float(case.of("normal_off")[lane])
    if any(r.tier == 2 for r in case.rows) and comfort < dark:
        found.append((comfort, "comfort_off", "Load control takes the comfort loads off."))
    if any(r.tier == 1 for r in case.rows) and normal < dark:
        found.append((normal, "normal_off", "Load control takes the normal loads off."))
    over = float(case.of("over_power")[lane])
    if over < dark:
        found.append((over, "over_power", "The loads ask for more than the units carry."))
    if not bool(case.of("at_least")[lane]):
        words = {
            "energy": "The stored energy is used up; the backed-up circuits go dark."
            if not joins(case.request)
            else "The stored energy is used up and the generator gives too little, may not run or "
            "has no fuel left; the backed-up circuits go dark.",
            "power": "The loads ask for more than the units carry; the inverter may trip.",
        }
        found.append((dark, "dark", words[_ended_by(case, lane)]))
    found.sort(key=lambda event: event[0])
    return [
        an.Event(
            hours=time / HOUR,
            hour_of_day=(start_hour(case) + time / HOUR) % 24,
            event=event,
            statement=words,
        )
        for time, event, words in found
    ]


def power_need(case: Judgement) -> an.PowerNeed | None:
    """Return the running power of the chosen loads; None where only energy is known."""
    if not case.by_loads:
        return None
    start = float(case.of("power_start"))
    return an.PowerNeed(
        all_day_kw=power(case, "all_day", 1) / 1000,
        with_largest_kw=power(case, "one", 1) / 1000,
        with_two_largest_kw=power(case, "two", 2) / 1000,
        all_at_once_kw=power(case, "total", 2) / 1000,
        largest_start_kw=start / 1000 if start > 0 else None,
        largest=[row.name for row in largest(case, 2)],
        continuous_kw=None if case.limit is None else case.limit / 1000,
    )


def marginal(case: Judgement) -> an.Marginal:
    """Return what a tenth more energy and a tenth more power buy."""
    dark = case.of("dark")
    typical = float(dark[LAYOUT.triples["base"].typical])
    energy = (float(dark[LAYOUT.single["more-energy"]]) - typical) / HOUR
    power = (float(dark[LAYOUT.single["more-power"]]) - typical) / HOUR
    limited: Literal["energy", "power", "nothing"] = "nothing"
    if _ended_by(case, LAYOUT.triples["base"].typical) == "power":
        limited = "power"
    elif max(energy, power) > 1e-9:
        limited = "power" if power > energy else "energy"
    return an.Marginal(more_energy_hours=energy, more_power_hours=power, limited_by=limited)
