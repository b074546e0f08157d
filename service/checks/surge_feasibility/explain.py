"""From solved starts to the answer, in words."""

from __future__ import annotations

import math

from service.check import Arrays, Includes
from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.assumptions import assumptions
from service.checks.surge_feasibility.cautions import cautions
from service.checks.surge_feasibility.judgement import Judgement, judgements
from service.checks.surge_feasibility.other_readings import alternatives
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
    planned, verdict = stands[0], found.verdict
    # The reruns of an assessment read neither alternatives nor questions.
    whole = "brief" not in includes or "alternatives" in includes
    asked = questions(request, verdict) if whole else []
    hangs_on = found.conditions if verdict is Verdict.CONDITIONAL else []
    order = order_of(request)
    edition, _ = standby_rule(request.state or "", request.permit_date)
    answer = an.SurgeFeasibilityAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(found), asked),
        summary=_summary(found, verdict),
        conditions=hangs_on,
        findings=worst_first(found.findings),
        alternatives=alternatives(request, planned, found.carried, verdict) if whole else [],
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


def _body(found: Weighed) -> str:
    starts = " ".join(motor.statement for motor in found.motors) or "No motor is to start."
    amps = math.ceil(found.carried.numbers.leg_likely_a)
    return f"{starts} Everything together takes about {amps} A on the heavier leg."


def _summary(found: Weighed, verdict: Verdict) -> str:
    if verdict is Verdict.FAIL:
        return "As it is planned, the battery does not start and carry everything that was chosen."
    if verdict is Verdict.UNDETERMINED:
        return (
            "Whether the battery starts and carries everything that was chosen is not known yet: "
            "some facts are missing."
        )
    names = ", ".join(motor.id for motor in found.motors) or "the chosen circuits"
    tail = ", if the conditions are met" if verdict is Verdict.CONDITIONAL else ""
    return f"The battery is expected to start and carry {names} beside the chosen circuits{tail}."
