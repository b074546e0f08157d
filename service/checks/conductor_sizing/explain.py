"""From sized circuits to the answer, in words."""

from __future__ import annotations

from service.check import Arrays, Includes
from service.checks.conductor_sizing.answer import ConductorSizingAnswer, MaterialSizing
from service.checks.conductor_sizing.arguments import edition_of
from service.checks.conductor_sizing.assumptions import assumptions
from service.checks.conductor_sizing.cautions import cautions
from service.checks.conductor_sizing.circuit_kinds import KINDS, CircuitKind
from service.checks.conductor_sizing.material_rows import material_rows
from service.checks.conductor_sizing.other_readings import alternatives
from service.checks.conductor_sizing.questions import questions
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import said
from service.checks.conductor_sizing.sized import sized
from service.checks.conductor_sizing.verdicts import verdict_of
from service.checks.conductor_sizing.working import sources, working
from service.findings import Basis, Finding, Verdict, headline, worst_first
from service.published import data_edition
from service.published.raceways import raceways


def explain(
    request: ConductorSizingRequest, columns: Arrays, row: int, includes: Includes
) -> ConductorSizingAnswer:
    """Return the answer of one row of the sized circuits."""
    edition, known = edition_of(request)
    kind = KINDS[request.circuit.kind]
    both = sized(request, columns["solved"][row], edition)
    made = material_rows(request, both)
    verdict = verdict_of(made)
    chosen = next(one for one in made if one.row.verdict is verdict)
    brief = "brief" in includes
    whole = not brief or "alternatives" in includes
    asked = questions(request, verdict, both, [one.row for one in made]) if whole else []
    hangs_on = chosen.conditions if verdict is Verdict.CONDITIONAL else []
    current = both[0].current
    answer = ConductorSizingAnswer(
        verdict=verdict,
        headline=headline(
            verdict, hangs_on, _body(kind, [one.row for one in made], verdict), asked
        ),
        summary=_summary(kind, chosen.row, verdict),
        conditions=hangs_on,
        findings=worst_first(_told(chosen.row, brief=brief)),
        alternatives=alternatives(request, both, verdict) if whole else [],
        assumptions=assumptions(request),
        questions=asked,
        cautions=cautions(request, source=kind.source),
        sources=sources(request, both, edition, brief=brief),
        basis=Basis(code_edition=edition if known else None, data_edition=data_edition()),
        reference=request.reference,
        amps=current.amps,
        raised_a=current.raised,
        length_ft=both[0].length / 0.3048,
        materials=[one.row for one in made],
    )
    if "working" in includes:
        answer.working = working(request, both, edition)
    return answer


def _told(row: MaterialSizing, *, brief: bool) -> list[Finding]:
    """Return the findings; to an assessment those that are open, and the one that governs."""
    if not brief:
        return row.findings
    return [f for f in row.findings if f.verdict is not Verdict.PASS or f.rule == row.governing]


def _body(kind: CircuitKind, rows: list[MaterialSizing], verdict: Verdict) -> str:
    """Return what is pulled in the materials that stand as the answer, and why another does not."""
    good = [_line(kind, row) for row in rows if row.verdict is verdict and row.phase is not None]
    if verdict is Verdict.FAIL:
        return " ".join(f"{row.material.capitalize()}: {_why(row)}" for row in rows)
    return " ".join(good + [_left_out(row) for row in rows if row.verdict is Verdict.FAIL])


def _left_out(row: MaterialSizing) -> str:
    return f"{row.material.capitalize()} does not do: {_why(row)}"


def _why(row: MaterialSizing) -> str:
    return next(one.statement for one in row.findings if one.verdict is Verdict.FAIL)


def _line(kind: CircuitKind, row: MaterialSizing) -> str:
    kinds = raceways()
    held = dict.fromkeys(
        (kinds[part.way].label, part.trade_size) for part in row.raceways if part.trade_size
    )
    conduit = "".join(
        f"{' and ' if index else ' in '}trade size {size} of {label}"
        for index, (label, size) in enumerate(held)
    )
    what = "rise" if kind.source else "drop"
    return (
        f"In {row.material} {said(row.phase)}, ground {said(row.ground)} copper{conduit}, breaker "
        f"{row.breaker_a:g} A, {what} {row.drop_percent:.2f} %."
    )


def _summary(kind: CircuitKind, row: MaterialSizing, verdict: Verdict) -> str:
    if verdict is Verdict.FAIL:
        if row.phase is None:
            return f"As it is planned, no conductor fits the {kind.label}."
        return f"As it is planned, the {kind.label} cannot be built so: {_why(row)}"
    if verdict is Verdict.UNDETERMINED:
        return f"The conductors of the {kind.label} cannot be settled yet: some facts are missing."
    tail = ", if the conditions are met" if verdict is Verdict.CONDITIONAL else ""
    return (
        f"The {kind.label} is expected to take conductors of {said(row.phase)} {row.material}"
        f"{tail}."
    )
