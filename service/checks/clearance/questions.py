"""What to ask next, and which answers change the verdict, by rerun."""

from __future__ import annotations

from typing import Any

from service.checks.clearance.asked import Asked
from service.checks.clearance.by_telephone import coarse_asked
from service.checks.clearance.fit import Fit
from service.checks.clearance.judged import Judged, judge_all, verdict_of
from service.checks.clearance.questions_of_place import of_the_place
from service.checks.clearance.questions_of_units import of_the_job, of_the_units
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.tape_questions import tape_questions
from service.facts import filled
from service.findings import Question, Verdict


def questions(
    request: ClearanceRequest,
    rules: RuleNumbers,
    judged: list[Judged],
    chosen: Judged | None,
    verdict: Verdict,
    *,
    tried: bool,
) -> list[Question]:
    """Return what to ask, the deciding questions first.

    Parameters
    ----------
    request : ClearanceRequest
    rules : RuleNumbers
    judged : list of Judged
    chosen : Judged or None
        The place that stands for the answer.
    verdict : Verdict
        Of the answer.
    tried : bool
        Whether answers are tried by reruns.
    """
    # Where no wall is known, the place goes before the data sheet.
    asked = coarse_asked(request) if chosen is None else []
    asked += [*of_the_job(request, rules, judged, chosen), *of_the_units(request, rules, chosen)]
    if chosen is not None:
        asked += of_the_place(request, rules, chosen)
        asked += tape_questions(request, rules, chosen)
    fits = {one.spot.pointer: one.fit for one in judged}
    found = []
    for one in asked:
        changes = tried and any(
            (one.then or _verdict_with(request, one, value, fits)) is not verdict
            for value in one.values
        )
        if one.minor and not changes:
            continue
        found.append(
            Question(
                pointer=one.pointer,
                label=one.label,
                question=one.question,
                ask_by=one.ask_by,
                can_change_verdict=changes,
                range=_plain(one.values),
                why=one.why,
            )
        )
    return sorted(found, key=lambda question: not question.can_change_verdict)


def _verdict_with(
    request: ClearanceRequest, asked: Asked, value: Any, fits: dict[str, Fit]
) -> Verdict:
    """Return the verdict with one fact told; the units are placed again where it moves them."""
    told = filled(request, asked.pointer, value)
    return verdict_of(judge_all(told, None if asked.moves else fits))


def _plain(values: tuple[Any, ...]) -> list[Any] | None:
    plain = bool(values) and all(isinstance(value, str | float | bool) for value in values)
    return list(values) if plain else None
