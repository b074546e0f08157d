"""The rules applied to one case, each a finding; what a conditional verdict hangs on."""

from __future__ import annotations

from collections.abc import Iterator

from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import BETTER, END_OF_WARRANTY, LAYOUT, NOW, WORSE
from service.checks.outage_runtime.power_finding import power_condition, power_finding
from service.checks.outage_runtime.questions import ASKED
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, UNDETERMINED, VERDICTS
from service.checks.outage_runtime.wording import hours, listed
from service.findings import Finding, Verdict

_READINGS = [
    (use, age, start) for use in (2, 1) for age in (END_OF_WARRANTY, NOW) for start in (0, 1)
]


def relaxations(case: Judgement) -> list[str]:
    """Return what the smallest relaxed readings that hold the target lean on, in words."""
    times = case.times()
    stated = case.request.battery.start_charge_percent is not None
    holding = [
        reading
        for reading in _READINGS
        if times[LAYOUT.readings[reading]] >= case.target and not (stated and reading[2])
    ]
    if not holding:
        return []
    fewest = min(_relaxed(reading) for reading in holding)
    chosen = next(reading for reading in holding if _relaxed(reading) == fewest)
    use, age, start = chosen
    words = []
    if use == 1:
        words.append("use is typical rather than high")
    if age == NOW:
        words.append("the battery is as it is now rather than at the end of its warranty")
    if start:
        words.append("it is full when the outage starts")
    return words


def doubtful(case: Judgement) -> list[str]:
    """Return the defaulted parameters of which an end takes the verdict down, in words."""
    return [
        asked.label
        for asked in ASKED.values()
        if case.rank(f"{asked.parameter}/{BETTER}") > case.rank()
        or case.rank(f"{asked.parameter}/{WORSE}") < case.rank()
    ]


def _relaxed(reading: tuple[int, int, int]) -> int:
    use, age, start = reading
    return (use == 1) + (age == NOW) + (start == 1)


def conditions(case: Judgement) -> list[str]:
    """Return what must be so for the answer to hold, in words."""
    rank = case.target_rank
    found: list[str] = []
    if rank == CONDITIONAL:
        leans = relaxations(case)
        if leans:
            found.append(listed(leans))
        elif not case.has_control:
            found.append(f"{listed(doubtful(case)) or 'the assumptions'} can be confirmed")
        if case.has_control:
            found.append("listed load control sheds the lower tiers as stated")
    if case.power_rank == CONDITIONAL:
        found.append(power_condition(case))
    if case.life_support:
        found.append("a second plan stands behind the medical equipment")
    return found


def _target(case: Judgement) -> Finding:
    base = LAYOUT.triples["base"]
    rank = case.target_rank
    times = case.times()
    strict = float(times[LAYOUT.readings[2, END_OF_WARRANTY, 0]])
    best = float(times[base.relaxed_default])
    tier = case.request.target_tier or "critical"
    if not case.target:
        return Finding(
            rule="no-criterion-stated",
            verdict=Verdict.UNDETERMINED,
            statement="No target hours were stated, so nothing is held against them.",
            actual=strict / HOUR,
            unit="h",
        )
    aim = hours(case.target)
    sentences = {
        PASS: f"The {tier} loads run {hours(strict)} of {aim} at high use, at the end of the "
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
        actual=(strict if rank >= CONDITIONAL else best) / HOUR,
        limit=case.target / HOUR,
        unit="h",
        sources=_assumed_sources(case),
    )


def _best_start(case: Judgement) -> str:
    return "from full" if case.request.battery.start_charge_percent is None else "as charged"


def _condition_words(case: Judgement) -> str:
    leans = relaxations(case)
    if leans:
        return "the target is held if " + listed(leans)
    if case.has_control:
        return "the target is held while listed load control sheds the lower tiers"
    return f"whether it is held for sure hangs on {listed(doubtful(case)) or 'what was assumed'}"


def _assumed_sources(case: Judgement) -> list[str]:
    return (
        ["outage_defaults/reserve_percent/value"]
        if (case.request.battery.reserve_percent is None)
        else []
    )


def _medical(case: Judgement) -> Iterator[Finding]:
    if case.life_support:
        yield Finding(
            rule="life-support-second-plan",
            verdict=Verdict.CONDITIONAL,
            statement="A load is marked as life support: no runtime stands alone for it, a second "
            "plan must.",
        )


def findings(case: Judgement) -> list[Finding]:
    """Return the findings of the case, the worst first."""
    found = [_target(case), power_finding(case), *_medical(case)]
    return sorted(found, key=lambda finding: VERDICTS.index(finding.verdict))
