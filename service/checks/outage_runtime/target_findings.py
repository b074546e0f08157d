"""The rules applied to one case, each a finding; what a conditional verdict hangs on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from service.checks.outage_runtime.battery_parameters import pick
from service.checks.outage_runtime.caps import (
    at_240_volts,
    beyond_warranty,
    left_out,
    voltage_rank,
)
from service.checks.outage_runtime.heat_findings import counts_heat, heat_conditions, heat_finding
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT, NOW
from service.checks.outage_runtime.load_rows import TIERS, Row
from service.checks.outage_runtime.power_finding import power_condition, power_finding, spoken
from service.checks.outage_runtime.readings import start_hour
from service.checks.outage_runtime.running_power import ALL
from service.checks.outage_runtime.verdict import (
    CONDITIONAL,
    FAIL,
    PASS,
    UNDETERMINED,
    VERDICTS,
    held,
)
from service.checks.outage_runtime.wording import hours, kwh, listed, stated_hours
from service.checks.outage_runtime.year_rules import year_rules
from service.findings import Assumption, Finding, Verdict

_KWH = 3.6e6


def relaxations(case: Judgement) -> list[str]:
    """Return what the target leans on, over the whole range of what was assumed, in words.

    Of the readings that hold it with every default at its worse end, the one that departs least
    from high use, end of warranty and the start charge.
    """
    times = case.times()
    holding = [
        reading for reading, lane in LAYOUT.hardest.items() if held(times[lane], case.target)
    ]
    if not holding:
        return []
    use, age, start = min(holding, key=_relaxed)
    words = []
    if use == 1:
        daily = math.floor(float(case.of("daily_energy")[1]) / _KWH * 10) / 10
        words.append(f"the loads take no more than the typical {daily:g} kWh a day")
    if age == NOW:
        lane = LAYOUT.triples["base"].typical
        words.append(
            f"the battery still holds the {kwh(float(case.of('capacity')[lane]))} of today"
        )
    if start and case.request.battery.start_charge_percent is None:
        words.append("the battery is full when the outage starts")
    return words


def _relaxed(reading: tuple[int, int, int]) -> int:
    use, age, start = reading
    return (use == 1) + (age == NOW) + (start == 1)


def conditions(case: Judgement) -> list[str]:
    """Return what must be so for the answer to hold, in every admissible season, in words."""
    by_season = {
        season: _conditions(replace(case, season=season))
        for season in (0, 1)
        if case.ranks_of(season) == CONDITIONAL
    }
    found: list[str] = []
    for season, conditions_of in by_season.items():
        alone = {words for other, some in by_season.items() if other != season for words in some}
        for words in conditions_of:
            apart = len(by_season) > 1 and words not in alone
            found.append(f"{words} ({_SEASONS[season]} outage)" if apart else words)
    return list(dict.fromkeys(found))


_SEASONS = ("summer", "winter")


def _conditions(case: Judgement) -> list[str]:
    found: list[str] = []
    if case.target_rank == CONDITIONAL:
        leans = relaxations(case)
        if leans:
            found.append(listed(leans))
        if case.has_control:
            found.append("listed load control sheds the lower tiers as stated")
    if case.power_rank == CONDITIONAL:
        found.append(power_condition(case))
    if case.heat_rank == CONDITIONAL:
        found += heat_conditions(case)
    plan = case.request.medical_plan
    if case.life_support:
        stated = plan is not None and plan.second_plan
        found.append(
            "the second plan for the medical equipment stays ready, as stated"
            if stated
            else "a second plan stands behind the medical equipment"
        )
    if voltage_rank(case.rows, case.request.battery) == CONDITIONAL:
        found.append(f"the unit gives 240 V for {_named(at_240_volts(case.rows))}")
    if left_out(case.rows):
        found.append(f"{_named(left_out(case.rows))} stays off the backed-up circuits")
    found += [rule.condition for rule in year_rules(case.request) if rule.condition]
    return found


def _named(rows: list[Row]) -> str:
    """Return loads by name, none twice."""
    return listed(list(dict.fromkeys(spoken(row) for row in rows)))


def _target(case: Judgement, assumed: list[Assumption]) -> Finding:
    base = LAYOUT.triples["base"]
    rank = case.target_rank
    times = case.times()
    strict = float(times[LAYOUT.readings[2, END_OF_WARRANTY, 0]])
    best = float(times[base.relaxed_default])
    tier = TIERS[case.tier] if case.has_control else "chosen"
    if not case.target:
        return Finding(
            rule="no-criterion-stated",
            verdict=Verdict.UNDETERMINED,
            statement="No target hours were stated, so nothing is held against them.",
            actual=strict / HOUR,
            unit="h",
        )
    aim = stated_hours(case.target)
    sure = float(times[base.strict])
    in_heat = " and of what heat leaves" if counts_heat(case) else ""
    sentences = {
        PASS: f"The {tier} loads run {hours(sure)} where {aim} are wanted: at high use, at the end "
        f"of the warranty, from the start charge, in an outage that starts at {_clock(case)}, over "
        f"the whole range of what was assumed{in_heat}.",
        CONDITIONAL: f"The {tier} loads run {hours(strict)} where {aim} are wanted, at high use, "
        f"at the end of the warranty and from the start charge; {_condition_words(case)}.",
        UNDETERMINED: f"The {tier} loads run {hours(best)} where {aim} are wanted, at best with "
        f"what was assumed; at the other end of what was assumed{in_heat} they fall short.",
        FAIL: f"The {tier} loads run {hours(best)} where {aim} are wanted, even at typical use, "
        f"with the battery as it is now and {_best_start(case)}, as assumed{_worst_day(case)}.",
    }
    return Finding(
        rule="target-held",
        verdict=VERDICTS[rank],
        statement=sentences[rank],
        actual={PASS: sure, CONDITIONAL: strict}.get(rank, best) / HOUR,
        limit=case.target / HOUR,
        unit="h",
        sources=[a.source for a in assumed if a.source],
    )


def _clock(case: Judgement) -> str:
    """Return the hour at which the outage starts, as on a clock, and on which days."""
    hour = start_hour(case)
    clock = f"{int(hour):02d}:{round(hour % 1 * 60):02d}"
    return clock if case.year is None else f"{clock} on {days_carried(case)}"


def days_carried(case: Judgement) -> str:
    """Return which days of the year must be carried, in words."""
    share = case.request.starts_carried_percent
    if share is None or share >= 100.0:
        return "any day of the typical year"
    return f"{share:g} of 100 days of each half of the typical year"


def _worst_day(case: Judgement) -> str:
    if case.year is None:
        return ""
    share = case.request.starts_carried_percent
    if share is None or share >= 100.0:
        return ", on the worst day of the typical year"
    return f", on the worst day that {share:g} of 100 leave behind"


def _best_start(case: Judgement) -> str:
    return "from full" if case.request.battery.start_charge_percent is None else "as charged"


def _condition_words(case: Judgement) -> str:
    leans = relaxations(case)
    if leans:
        return "the target is held if " + listed(leans)
    if case.has_control:
        return "the target is held while listed load control sheds the lower tiers"
    return "it is held as far as the day shape of the class is the home's own"


def _medical(case: Judgement) -> Iterator[Finding]:
    if case.life_support:
        yield Finding(
            rule="life-support-second-plan",
            verdict=Verdict.CONDITIONAL,
            statement="A load is marked as life support: no runtime stands alone for it, a second "
            "plan must.",
        )


def _caps(case: Judgement) -> Iterator[Finding]:
    """Findings that hold the verdict down whatever the hours are."""
    battery, rows = case.request.battery, case.rows
    if bool(case.of("nothing_runs")[ALL]):
        yield Finding(
            rule="nothing-to-run",
            verdict=Verdict.UNDETERMINED,
            statement="No chosen load draws anything in this season, so nothing is held.",
        )
    if beyond_warranty(battery):
        yield Finding(
            rule="beyond-warranty",
            verdict=Verdict.UNDETERMINED,
            statement="The unit is older than its warranty: nothing says what energy is left.",
            actual=battery.age_years,
            limit=pick(battery.warranty_years, "warranty_years").value,
            unit="year",
        )
    voltage = voltage_rank(rows, battery)
    if voltage in (FAIL, CONDITIONAL):
        what = _named(at_240_volts(rows))
        alone = voltage == FAIL
        gives = "the unit gives 120 V alone" if alone else "whether the unit gives it is not stated"
        yield Finding(
            rule="needs-240-volts",
            verdict=VERDICTS[voltage],
            statement=f"240 V is needed for {what}; {gives}.",
        )
    if left_out(rows):
        yield Finding(
            rule="left-out",
            verdict=Verdict.CONDITIONAL,
            statement=f"Will not run in an outage: {_named(left_out(rows))}. The circuits must not "
            "be backed up, or be switched off by hand.",
        )


def _of_year(case: Judgement) -> Iterator[Finding]:
    """Rules on weather, sun and generator."""
    for rule in year_rules(case.request):
        yield Finding(
            rule=rule.rule,
            verdict=VERDICTS[rule.rank],
            statement=rule.statement,
            actual=rule.actual,
            limit=rule.limit,
            unit=rule.unit,
            sources=list(rule.sources),
        )


def findings(case: Judgement, assumed: list[Assumption]) -> list[Finding]:
    """Return the findings of the case, the worst first."""
    found = [
        _target(case, assumed),
        power_finding(case),
        *heat_finding(case),
        *_medical(case),
        *_caps(case),
        *_of_year(case),
    ]
    return sorted(found, key=lambda finding: VERDICTS.index(finding.verdict))
