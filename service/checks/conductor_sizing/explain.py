"""From sized circuits to the answer, in words."""

from __future__ import annotations

from service.check import Arrays, Includes
from service.checks.conductor_sizing.answer import ConductorSizingAnswer, MaterialSizing
from service.checks.conductor_sizing.arguments import edition_of
from service.checks.conductor_sizing.assumptions import assumptions
from service.checks.conductor_sizing.cautions import cautions
from service.checks.conductor_sizing.circuit_kinds import KINDS
from service.checks.conductor_sizing.material_rows import material_row
from service.checks.conductor_sizing.other_readings import alternatives
from service.checks.conductor_sizing.questions import questions
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import said
from service.checks.conductor_sizing.sized import sized
from service.checks.conductor_sizing.verdicts import verdict_of
from service.checks.conductor_sizing.working import sources, working
from service.findings import Basis, Finding, Verdict, headline, worst_first
from service.published import data_edition


def explain(
    request: ConductorSizingRequest, columns: Arrays, row: int, includes: Includes
) -> ConductorSizingAnswer:
    """Return the answer of one row of the sized circuits."""
    edition, known = edition_of(request)
    both = sized(request, columns["solved"][row], edition)
    made = [material_row(request, one) for one in both]
    verdict = verdict_of(made)
    chosen = next(one for one in made if one.row.verdict is verdict)
    brief = "brief" in includes
    whole = not brief or "alternatives" in includes
    asked = questions(request, verdict, made[0].row.phase) if whole else []
    hangs_on = chosen.conditions if verdict is Verdict.CONDITIONAL else []
    current = both[0].current
    answer = ConductorSizingAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body([one.row for one in made]), asked),
        summary=_summary(request, chosen.row, verdict),
        conditions=hangs_on,
        findings=worst_first(_told(chosen.row, brief=brief)),
        alternatives=alternatives(request, verdict) if whole else [],
        assumptions=assumptions(request),
        questions=asked,
        cautions=cautions(request, source=KINDS[request.circuit.kind].source),
        sources=sources(both[:1] if brief else both, edition),
        basis=Basis(code_edition=edition if known else None, data_edition=data_edition()),
        reference=request.reference,
        amps=current.amps,
        raised_a=current.raised,
        length_ft=both[0].length / 0.3048,
        materials=[one.row for one in made],
    )
    if "working" in includes:
        answer.working = working(both, edition)
    return answer


def _told(row: MaterialSizing, *, brief: bool) -> list[Finding]:
    """Return the findings; to an assessment those that are open, and the one that governs."""
    if not brief:
        return row.findings
    return [f for f in row.findings if f.verdict is not Verdict.PASS or f.rule == row.governing]


def _body(rows: list[MaterialSizing]) -> str:
    return " ".join(_line(row) for row in rows)


def _line(row: MaterialSizing) -> str:
    if row.phase is None:
        return f"In {row.material} no size fits: {row.governing.replace('-', ' ')}."
    raceway = next((part for part in row.raceways if part.trade_size), None)
    conduit = f" in {raceway.way} {raceway.trade_size}" if raceway else ""
    return (
        f"In {row.material} {said(row.phase)}, ground {said(row.ground)} copper{conduit}, breaker "
        f"{row.breaker_a:g} A, drop {row.drop_percent:.2f} %."
    )


def _summary(request: ConductorSizingRequest, row: MaterialSizing, verdict: Verdict) -> str:
    what = KINDS[request.circuit.kind].label
    if verdict is Verdict.FAIL:
        return f"As it is planned, no conductor fits the {what}."
    if verdict is Verdict.UNDETERMINED:
        return f"The conductors of the {what} cannot be settled yet: some facts are missing."
    return (
        f"The {what} is expected to take conductors of {said(row.phase)} {row.material}, if the "
        "conditions are met."
    )
