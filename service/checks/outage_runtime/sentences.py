"""The estimator's line and the homeowner's sentence."""

from __future__ import annotations

import numpy as np

from service.checks.outage_runtime.heat_findings import counts_heat
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT, NOW
from service.checks.outage_runtime.request import MonthlyUse
from service.checks.outage_runtime.target_findings import conditions
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS
from service.checks.outage_runtime.wording import HOUR, hours, listed, stated_hours
from service.checks.outage_runtime.year_arguments import dark_allowed
from service.checks.outage_runtime.year_rules import weather_left_out

_SEASON = ("summer", "winter")


def _bounds(case: Judgement) -> tuple[int, int, int]:
    """Return the lanes of the lowest, the typical and the highest reading."""
    stated = case.request.battery.start_charge_percent is not None
    return (
        LAYOUT.readings[2, END_OF_WARRANTY, 0],
        LAYOUT.triples["base"].typical,
        LAYOUT.readings[0, NOW, 0 if stated else 1],
    )


def _span(case: Judgement) -> tuple[str, str, str]:
    times, least = case.times(), case.of("at_least")
    dark = case.of("dark")
    end = np.inf if case.year is None else case.year.starts.horizon
    low, typical, high = (
        hours(
            float(times[lane]),
            (bool(least[lane]) and times[lane] >= dark[lane]) or times[lane] >= end,
        )
        for lane in _bounds(case)
    )
    return low, typical, high


def bounding_hours(case: Judgement) -> tuple[float, float, float]:
    """Return the low, typical and high hours that the target is read against [h]."""
    low, typical, high = (float(case.times()[lane]) / HOUR for lane in _bounds(case))
    return low, typical, high


def _by_tier(case: Judgement) -> str:
    """Return when load control takes the lower tiers, empty without load control."""
    if not case.has_control:
        return ""
    lane = LAYOUT.triples["base"].typical
    parts = [
        f"{name} loads {hours(float(case.of(column)[lane]))}"
        for name, column, tier in (("comfort", "comfort_off", 2), ("normal", "normal_off", 1))
        if any(row.tier == tier for row in case.rows)
    ]
    return f" At typical use load control leaves {listed(parts)}."


def body(case: Judgement) -> str:
    """Return the numbers of the estimator's line."""
    low, typical, high = _span(case)
    count = case.request.battery.count or 1
    target = f" against {stated_hours(case.target)}" if case.target else ""
    line = (
        f"{count} unit{'s' if count > 1 else ''}: {low} to {high}{target}, {typical} at typical "
        f"use from the {_start(case)}."
    )
    line += _by_tier(case)
    if case.life_support:
        line += " Life support depends on it: conditional at best."
    line += _left_out(case)
    heat = case.request.heat_derating
    if heat is not None and counts_heat(case):
        line += f" On the hottest days {heat.said()}."
    if case.by_loads:
        line += " Whether motors start is not checked here."
    return line


def _left_out(case: Judgement) -> str:
    """Return what the hours do not count, or count in, in words."""
    if weather_left_out(case.request):
        return " Heating and cooling are not in these hours: the weather is not known."
    allowed = dark_allowed(case.request)
    if allowed and case.year is not None:
        return f" Up to {allowed:g} h without power in between are counted in."
    return ""


def _start(case: Judgement) -> str:
    battery = case.request.battery
    if battery.start_charge_percent is not None:
        return f"stated {battery.start_charge_percent:g} %"
    if battery.reserve_percent is not None:
        return f"reserve of {battery.reserve_percent:g} %"
    return "assumed reserve"


def _what(case: Judgement) -> str:
    use = case.request.use
    if isinstance(use, MonthlyUse) and use.share_percent in (None, 100.0):
        return "Everything behind the main breaker"
    return "The chosen circuits"


def summary(case: Judgement) -> str:
    """Return the homeowner's sentence: the range, and the condition that is open."""
    low, typical, high = _span(case)
    season = _SEASON[int(case.of("season"))]
    what = _what(case)
    text = (
        f"{what} can be expected to run {low} to {high} in a {season} outage, {typical} in "
        "ordinary use, depending on use, on the battery's age and on its charge when the outage "
        "starts."
        f"{_by_tier(case)}{_left_out(case)}"
    )
    open_conditions = conditions(case) if case.rank() == CONDITIONAL else []
    if open_conditions:
        text += " It holds only if " + "; and ".join(open_conditions) + "."
    elif case.target_rank == FAIL:
        text += f" That is short of the {stated_hours(case.target)} asked for."
    elif case.power_rank == FAIL:
        text += " The loads ask for more power than the battery gives."
    elif case.heat_rank == FAIL:
        text += " On the hottest days the loads ask for more power than heat leaves the battery."
    elif case.rank() != PASS:
        text += " Open questions have to be answered before this can be relied on."
    return text
