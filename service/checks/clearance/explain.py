"""From places to the answer, in words."""

from __future__ import annotations

from service.check import Arrays, Includes
from service.checks.clearance.answer import ClearanceAnswer
from service.checks.clearance.assumptions import assumptions
from service.checks.clearance.by_telephone import coarse_held, measures
from service.checks.clearance.cautions import cautions
from service.checks.clearance.fit import fit_of
from service.checks.clearance.fixes import fixes_of
from service.checks.clearance.held import Held, conditions_of
from service.checks.clearance.inches import feet_and_inches
from service.checks.clearance.judged import Judged, chosen_of, judge, verdict_of
from service.checks.clearance.other_readings import alternatives
from service.checks.clearance.position_rules import wanted, way_of
from service.checks.clearance.questions import questions
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers, numbers_of
from service.checks.clearance.shown import place_answer
from service.checks.clearance.to_panel import way_to_panel
from service.checks.clearance.working import working
from service.findings import Basis, Question, Verdict, headline, source_refs, worst_first
from service.published import data_edition
from service.quantities.units import si

_FOOT = si(1.0, "ft")


def explain(
    request: ClearanceRequest, columns: Arrays, row: int, includes: Includes
) -> ClearanceAnswer:
    """Return the answer of one row."""
    rules = numbers_of(request)
    judged = []
    for lane in range(*columns["lane_offsets"][row : row + 2].tolist()):
        spot, solved = columns["spots"][lane], columns["solved"][lane]
        judged.append(judge(request, rules, spot, fit_of(request, rules, spot, solved)))
    return answer_of(request, rules, judged, includes)


def answer_of(
    request: ClearanceRequest, rules: RuleNumbers, judged: list[Judged], includes: Includes
) -> ClearanceAnswer:
    """Return the answer to a request whose places are judged."""
    verdict = verdict_of(judged)
    chosen = chosen_of(judged) if judged else None
    held = coarse_held(request, rules) if chosen is None else chosen.held
    shown = "brief" not in includes or "alternatives" in includes
    asked = questions(request, rules, judged, chosen, verdict, tried="brief" not in includes)
    hangs_on = conditions_of(held) if verdict is Verdict.CONDITIONAL else []
    answer = ClearanceAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(request, chosen, held), asked),
        summary=_summary(request, chosen, verdict, asked),
        conditions=hangs_on,
        findings=worst_first(one.finding() for one in held),
        alternatives=alternatives(request, rules, judged, verdict) if shown and judged else [],
        assumptions=assumptions(request, rules),
        questions=asked,
        cautions=cautions(request),
        sources=source_refs(source for one in held for source in one.sources),
        basis=Basis(code_edition=rules.edition, data_edition=data_edition()),
        reference=request.reference,
        place=None if chosen is None else chosen.spot.name,
        way_to_panel_ft=None if chosen is None else _way_to_panel(chosen),
        places=[place_answer(request, rules, one) for one in judged],
        fixes=fixes_of(request, rules, judged, chosen) if shown and chosen is not None else [],
        measure=measures(request),
    )
    if "working" in includes and chosen is not None:
        answer.working = working(request, rules, chosen)
    return answer


def _way_to_panel(chosen: Judged) -> float | None:
    """Return the longest way from a unit to the panel [ft]."""
    way = way_to_panel(chosen.spot, chosen.fit)
    return None if way is None else way[1] / _FOOT


def _body(request: ClearanceRequest, chosen: Judged | None, held: list[Held]) -> str:
    """Return the numbers of the headline."""
    if chosen is None:
        return held[0].statement if held else "No place was stated."
    placed, where = chosen.fit.shown, chosen.spot.name
    failed = [one.statement for one in held if one.verdict is Verdict.FAIL]
    if failed:
        return f"At {where}: {failed[0]}"
    unsure = [
        one.statement
        for one in held
        if one.rule == "placed-units" and one.verdict is Verdict.UNDETERMINED
    ]
    if unsure:
        return f"At {where}: {unsure[0]}"
    at = ", ".join(feet_and_inches(x, "up") for _, x in placed)
    total = sum(chosen.fit.counts)
    if total == 1 and placed:
        body = f"At {where} the unit fits, left edge at {at}."
    else:
        edges = f", left edges at {at}" if placed else ""
        body = f"At {where} {len(placed)} of {wanted(request)} fit{edges}."
    way = way_of(chosen.fit).after
    if way < float("inf"):
        body += f" {feet_and_inches(way, 'down')} of way is left."
    return body


def _summary(
    request: ClearanceRequest,
    chosen: Judged | None,
    verdict: Verdict,
    asked: list[Question],
) -> str:
    if chosen is None:
        return (
            "Where the battery may hang cannot be settled by telephone: a few lengths and photos "
            "settle it."
        )
    where = chosen.spot.name
    placed = chosen.placed
    room = f"there is room for {placed} of {wanted(request)} at {where}"
    if verdict is Verdict.FAIL:
        failed = [one for one in chosen.held if one.verdict is Verdict.FAIL]
        reason = (
            "the rules do not allow it there"
            if chosen.fit.solved.arrangement.complete
            else ("there is not enough room")
        )
        return f"As planned it may not hang at {where}: {reason} ({failed[0].rule})."
    if verdict is Verdict.UNDETERMINED:
        words = "some facts are missing" if asked else "what is known does not settle it"
        return f"As far as is known {room}. Whether it may hang there is not settled: {words}."
    if verdict is Verdict.CONDITIONAL:
        return f"By these lengths {room}. It may hang there if the conditions are met."
    return f"By these lengths {room}. The authority has the last word."
