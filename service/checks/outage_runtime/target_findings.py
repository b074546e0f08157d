"""The rules applied to one case, each a finding; what a conditional verdict hangs on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT, NOW
from service.checks.outage_runtime.load_rows import TIERS
from service.checks.outage_runtime.power_finding import power_condition, power_finding
from service.checks.outage_runtime.verdict import (
    CONDITIONAL,
    FAIL,
    PASS,
    UNDETERMINED,
    VERDICTS,
    held,
)
from service.checks.outage_runtime.wording import hours, listed, stated_hours
from service.findings import Assumption, Finding, Verdict


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
        words.append("use is typical rather than high")
    if age == NOW:
        words.append("the battery is as it is now rather than at the end of its warranty")
    if start and case.request.battery.start_charge_percent is None:
        words.append("it is full when the outage starts")
    return words


def _relaxed(reading: tuple[int, int, int]) -> int:
    use, age, start = reading
    return (use == 1) + (age == NOW) + (start == 1)


def conditions(case: Judgement) -> list[str]:
    """Return what must be so for the answer to hold, in every admissible season, in words."""
    found = [
        words
        for season in (0, 1)
        if case.ranks_of(season) == CONDITIONAL
        for words in _conditions(replace(case, season=season))
    ]
    return list(dict.fromkeys(found))


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
    if case.life_support:
        found.append("a second plan stands behind the medical equipment")
    if any(row.life_support and row.tier == 3 for row in case.rows):
        found.append("the medical equipment that is left out has a supply of its own")
    return found


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
    sentences = {
        PASS: f"The {tier} loads run {hours(sure)} of {aim} at high use, at the end of the "
        "warranty and from the start charge, over the whole range of what was assumed.",
        CONDITIONAL: f"The {tier} loads run {hours(strict)} of {aim} at high use, at the end of "
        f"the warranty and from the start charge; {_condition_words(case)}.",
        UNDETERMINED: f"The {tier} loads run {hours(best)} of {aim} at best with what was assumed; "
        "at the other end of what was assumed they do not.",
        FAIL: f"The {tier} loads run {hours(best)} of {aim} even at typical use, with the battery "
        f"as it is now and {_best_start(case)}.",
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


def _best_start(case: Judgement) -> str:
    return "from full" if case.request.battery.start_charge_percent is None else "as charged"


def _condition_words(case: Judgement) -> str:
    leans = relaxations(case)
    if leans:
        return "the target is held if " + listed(leans)
    return "the target is held while listed load control sheds the lower tiers"


def _medical(case: Judgement) -> Iterator[Finding]:
    if case.life_support:
        yield Finding(
            rule="life-support-second-plan",
            verdict=Verdict.CONDITIONAL,
            statement="A load is marked as life support: no runtime stands alone for it, a second "
            "plan must.",
        )


def _nothing(case: Judgement) -> Iterator[Finding]:
    if bool(case.of("nothing_runs")):
        yield Finding(
            rule="nothing-to-run",
            verdict=Verdict.UNDETERMINED,
            statement="No chosen load draws anything in this season, so nothing is held.",
        )


def findings(case: Judgement, assumed: list[Assumption]) -> list[Finding]:
    """Return the findings of the case, the worst first."""
    found = [_target(case, assumed), power_finding(case), *_medical(case), *_nothing(case)]
    return sorted(found, key=lambda finding: VERDICTS.index(finding.verdict))
