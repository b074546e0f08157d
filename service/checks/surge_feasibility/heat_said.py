"""The starts on the hottest days in words: finding, conditions, alternatives."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

from service.checks.surge_feasibility.power_in_heat import InHeat, verdict_of
from service.checks.surge_feasibility.weighed import Weighed
from service.findings import Alternative, Finding, Verdict, rank

RULE = "power-in-the-heat"
_SLACK = 1e-6


def heat_finding(found: InHeat) -> Finding:
    """Return how the starts stand on the hottest days."""
    said, verdict = f"On the hottest days {found.heat.said()}", found.verdict
    if found.unchanged:
        words = f"{said}: that changes nothing of what starts and runs."
    elif verdict is Verdict.FAIL:
        words = f"{said}. {_deciding(found.high)}"
    else:
        holds = _low_holds(found)
        end = "At the worst" if holds else "At the low end"
        words = f"{said}. {end}: {_deciding(found.worst if holds else found.low)}"
    return Finding(rule=RULE, verdict=verdict, statement=words)


def with_heat(weighed: Weighed, found: InHeat) -> Weighed:
    """Return what a verdict is made of with the hottest days beside it."""
    return weighed._replace(
        findings=[*weighed.findings, heat_finding(found)],
        conditions=[*weighed.conditions, *heat_conditions(found, weighed.conditions)],
    )


def _low_holds(found: InHeat) -> bool:
    """Return whether it is the worst end alone that does not hold."""
    low = Verdict.FAIL if found.low is None else found.low.verdict
    return rank(verdict_of(found.worst)) < rank(low)


def _deciding(found: Weighed | None) -> str:
    """Return what decides at one end of the heat."""
    if found is None:
        return "So little starts nothing and carries nothing."
    return next(one.statement for one in found.findings if one.verdict is found.verdict)


def heat_conditions(found: InHeat, known: Sequence[str]) -> list[str]:
    """Return what must be so on the hottest days beside what must be so anyway."""
    if found.verdict is not Verdict.CONDITIONAL:
        return []
    # Where the worst end can be met it asks for all; where not, the low end has to hold.
    end = found.low if _low_holds(found) else found.worst
    more = [] if end is None else end.conditions
    said = [f"on the hottest days {one}" for one in more if one not in known]
    if _low_holds(found):
        percent = floor(found.heat.power_percent_low + _SLACK)
        said.append(f"the hottest days leave {percent} % of the power, as estimated")
    return said


def heat_alternatives(found: InHeat, verdict: Verdict) -> list[Alternative]:
    """Return the answer with what heat leaves, at the low end and at the worst."""
    heat = found.heat
    ends = [("in-the-heat", heat.power_percent_low, found.low, "that the hottest days leave")]
    if heat.worst < heat.power_percent_low:
        words = "that they leave at the worst of all that is not known"
        ends.append(("in-the-heat-at-worst", heat.worst, found.worst, words))
    return [
        Alternative(
            id=name,
            reading=f"With the {floor(percent + _SLACK)} % of the power {words}.",
            verdict=verdict_of(one),
            flips_verdict=verdict_of(one) is not verdict,
            statement=_starts(one),
        )
        for name, percent, one, words in ends
    ]


def _starts(found: Weighed | None) -> str:
    if found is None:
        return _deciding(None)
    said = [f"{motor.id}: {motor.word.replace('_', ' ')}" for motor in found.motors]
    if not said:
        return _deciding(found)
    words = f"For the starts alone: {'; '.join(said)}."
    motors = {motor.statement for motor in found.motors}
    decides = _deciding(found)
    return words if decides in motors else f"{words} {decides}"
