"""From solved starts to the answer, in words."""

from __future__ import annotations

import math

from service.check import Arrays, Includes
from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.assumptions import assumptions
from service.checks.surge_feasibility.cautions import cautions
from service.checks.surge_feasibility.heat_said import heat_alternatives, with_heat
from service.checks.surge_feasibility.judgement import Judgement, judgements
from service.checks.surge_feasibility.other_readings import alternatives
from service.checks.surge_feasibility.power_in_heat import in_heat
from service.checks.surge_feasibility.questions import questions
from service.checks.surge_feasibility.recommended_order import order_of
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.series import series
from service.checks.surge_feasibility.weighed import Weighed, weighed
from service.checks.surge_feasibility.working import working
from service.codes import standby_rule
from service.findings import (
    Basis,
    SourceRef,
    Verdict,
    headline,
    source_refs,
    worst_first,
)
from service.published import data_edition, load


def explain(
    request: SurgeFeasibilityRequest, columns: Arrays, row: int, includes: Includes
) -> an.SurgeFeasibilityAnswer:
    """Return the answer of one row of the solved starts."""
    stands = judgements(request, columns, row)
    found = weighed(request, stands, shown=True)
    # The reruns of an assessment read neither alternatives nor questions.
    whole = "brief" not in includes or "alternatives" in includes
    heat = in_heat(request, found)
    if heat is not None:
        found = with_heat(found, heat)
    planned, verdict = stands[0], found.verdict
    asked = questions(request, verdict) if whole else []
    hangs_on = found.conditions if verdict is Verdict.CONDITIONAL else []
    order = order_of(request)
    edition, _ = standby_rule(request.state or "", request.permit_date)
    answer = an.SurgeFeasibilityAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(found, verdict), asked),
        summary=_summary(request, found, verdict),
        conditions=hangs_on,
        findings=worst_first(found.findings),
        alternatives=[
            *([] if heat is None else heat_alternatives(heat, verdict)),
            *alternatives(request, planned, found.carried, found.findings, verdict),
        ]
        if whole
        else [],
        assumptions=assumptions(request, planned.made),
        questions=asked,
        cautions=cautions(request),
        sources=_sources(planned),
        basis=Basis(code_edition=edition, data_edition=data_edition()),
        reference=request.reference,
        motors=found.motors,
        steady=found.carried.numbers,
        restart_order=[
            request.motors[place].id for place in sorted(range(len(order)), key=order.__getitem__)
        ],
    )
    if "series" in includes:
        answer.series = series(request, planned)
    if "working" in includes:
        answer.working = working(request, planned)
    return answer


def _sources(stands: Judgement) -> list[SourceRef]:
    evidence = [] if stands.made is None else stands.made.evidence
    rules = load("island_rules")
    return source_refs(
        [
            *(source for one in evidence for source in one.sources),
            *(rules.cite(rule) for rule in rules.rows),
        ]
    )


def _body(found: Weighed, verdict: Verdict) -> str:
    """Return what decides: the findings of the worst verdict, or the starts where all is well."""
    worst = [finding for finding in found.findings if finding.verdict is verdict]
    open_ = verdict in (Verdict.FAIL, Verdict.UNDETERMINED)
    # What a motor's own amps decide stands before what the code asks.
    said = [finding.statement for finding in worst] if open_ else []
    said = said[:_MOST_SAID] or [motor.statement for motor in found.motors]
    amps = math.ceil(found.carried.numbers.leg_likely_a)
    if not any("Everything together" in line for line in said):
        said.append(f"Everything together takes about {amps} A on the heavier leg.")
    return " ".join(said)


#: Findings that a headline tells at most.
_MOST_SAID = 3


def _summary(request: SurgeFeasibilityRequest, found: Weighed, verdict: Verdict) -> str:
    source = "generator" if request.inverter is None else "battery"
    does = "start and carry" if found.motors else "carry"
    if verdict is Verdict.FAIL:
        return f"As it is planned, the {source} does not {does} everything that was chosen."
    if verdict is Verdict.UNDETERMINED:
        does = "starts and carries" if found.motors else "carries"
        return (
            f"Whether the {source} {does} everything that was chosen is not known yet: some facts "
            "are missing."
        )
    names = [motor.id for motor in found.motors]
    what = f"{', '.join(names)} beside the chosen circuits" if names else "the chosen circuits"
    tail = ", if the conditions are met" if verdict is Verdict.CONDITIONAL else ""
    return f"The {source} is expected to {does} {what}{tail}."
