"""The loads on the hottest days: finding, conditions, and the answer with what heat leaves."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor

from service.checks.outage_runtime.arguments import SEASONS
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.lanes import LAYOUT
from service.checks.outage_runtime.power_finding import largest, power, power_condition, spoken
from service.checks.outage_runtime.power_in_heat import parts_left
from service.checks.outage_runtime.request import changed
from service.checks.outage_runtime.variants import Outcome, outcomes
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, UNDETERMINED, VERDICTS
from service.checks.outage_runtime.wording import asked_kilowatts, given_kilowatts, hours
from service.facts import HeatDeratingWithEnergy
from service.findings import Alternative, Finding, Verdict

RULE = "power-in-the-heat"
_TYPICAL, _HIGH = 1, 2
_SUMMER, _WINTER = 0, 1
_SLACK = 1e-6


def counts_heat(case: Judgement) -> bool:
    """Return whether heat takes anything in an outage that is asked about."""
    return case.request.heat_derating is not None and case.request.season != SEASONS[_WINTER]


def heat_finding(case: Judgement) -> Iterator[Finding]:
    """Return how the loads stand on the hottest days; nothing where no heat was stated."""
    heat, parts = case.request.heat_derating, parts_left(case.request)
    if heat is None or parts is None:
        return
    if case.request.season == SEASONS[_WINTER]:
        words = "The outage asked about is one of winter: what the hottest days leave is not taken."
        yield Finding(rule=RULE, verdict=Verdict.PASS, statement=words)
        return
    said = f"On the hottest days {heat.said()}{_energy(heat)}"
    if not case.by_loads or case.limit is None:
        words = f"{said}; nothing is known of the power that it is a part of, or of the loads'."
        yield Finding(rule=RULE, verdict=Verdict.UNDETERMINED, statement=words)
        return
    rank = int(case.heat_ranks[_SUMMER, 0]) if case.request.season is None else case.heat_rank
    high, low, worst = (case.limit * part for part in parts)
    held = {PASS: worst, FAIL: high}.get(rank, low)
    yield Finding(
        rule=RULE,
        verdict=VERDICTS[rank],
        statement=f"{said}: {given_kilowatts(held)}. {_outcome(case, rank)}",
        actual=(power(case, "one", _TYPICAL) if rank == FAIL else power(case, "total", _HIGH))
        / 1000,
        limit=held / 1000,
        unit="kW",
    )


def _energy(heat: HeatDeratingWithEnergy) -> str:
    if heat.energy_percent is None:
        return ""
    return f", and {floor(heat.energy_percent + _SLACK)} % of the energy"


def _outcome(case: Judgement, rank: int) -> str:
    total = asked_kilowatts(power(case, "total", _HIGH))
    if rank == PASS:
        return f"All loads at once, {total} at high use, are carried then too."
    if rank == CONDITIONAL:
        asked = " and ".join(heat_conditions(case))
        return f"It holds only if {asked}." if asked else "It holds on the same condition."
    if rank == UNDETERMINED:
        return (
            "Whether the loads are carried then, one at a time at least, hangs on what is not "
            "known of the heat."
        )
    one = asked_kilowatts(power(case, "one", _TYPICAL))
    rows = largest(case, _TYPICAL)
    if not rows:
        return f"The all-day loads alone take {one} at typical use: more than that."
    return (
        f"The all-day loads with {spoken(rows[0])} alone beside them take {one} at typical use: "
        "more than that."
    )


def heat_conditions(case: Judgement) -> list[str]:
    """Return what must be so for the loads to be carried on the hottest days."""
    heat, parts = case.request.heat_derating, parts_left(case.request)
    if heat is None or parts is None:
        return []
    _, low, worst = parts
    limit = case.limit or 0.0
    # Where the worst end can be met it asks for all; where not, the low end has to hold.
    met = power(case, "one", _TYPICAL) <= limit * worst
    part = worst if met else low
    found = []
    if power(case, "total", _HIGH) > limit * part:
        asked = power_condition(case, part)
        if case.power_rank != CONDITIONAL or asked != power_condition(case):
            found.append(f"on the hottest days {asked}")
    if not met:
        percent = floor(heat.power_percent_low + _SLACK)
        found.append(f"the hottest days leave {percent} % of the power, as estimated")
    return found


def heat_alternatives(case: Judgement) -> Iterator[Alternative]:
    """Return the same outage with what the heat leaves, at the low end and at the worst."""
    heat, parts = case.request.heat_derating, parts_left(case.request)
    if heat is None or parts is None or not counts_heat(case):
        return
    _, low, worst = parts
    lane, winter = LAYOUT.triples["base"].typical, case.ranks_of(_WINTER)
    at_least = bool(case.columns["at_least"][case.row, _SUMMER, lane])
    before = hours(float(case.both[_SUMMER, lane]), at_least)
    ends = [("in-the-heat", heat.power_percent_low, low, "that the hottest days leave")]
    if heat.worst < heat.power_percent_low:
        words = "that they leave at the worst of all that is not known"
        ends.append(("in-the-heat-at-worst", heat.worst, worst, words))
    energy = 1.0 if heat.energy_percent is None else heat.energy_percent / 100.0
    asked = changed(case.request, heat_derating=None, season=SEASONS[_SUMMER])
    # Where nothing is left nothing runs: there is nothing to work out.
    running = [(part, energy) for _, _, part, _ in ends if part > 0.0]
    found = iter(outcomes([asked] * len(running), _SUMMER, running))
    for name, percent, part, words in ends:
        one = next(found) if part > 0.0 else Outcome(FAIL, 0.0, False)
        rank = one.rank if case.request.season is not None else min(one.rank, winter)
        yield Alternative(
            id=name,
            reading=f"With the {floor(percent + _SLACK)} % of the power {words}.",
            verdict=VERDICTS[rank],
            flips_verdict=rank != case.rank(),
            statement=f"Typical use, now, in summer: {hours(one.typical, one.at_least)} "
            f"instead of {before}.",
        )
