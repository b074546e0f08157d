"""Questions of the whole site, ranked by reruns, and the rounds in which they are asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from service.assessment.answer import Round
from service.assessment.open_facts import OpenFact, declared_facts
from service.assessment.pointers import filled, mapped
from service.assessment.request import SiteAssessmentRequest
from service.assessment.reruns import Reruns, Scenario, Variant, candidate_verdicts, said
from service.check import FromSite
from service.findings import Answer, AskBy, Assumption, Question, Verdict, best

_ROUND: dict[AskBy, Literal["telephone", "photos", "records", "visit"]] = {
    AskBy.TELEPHONE: "telephone",
    AskBy.PHOTO: "photos",
    AskBy.RECORDING: "photos",
    AskBy.RECORD: "records",
    AskBy.VISIT: "visit",
}
_ROUNDS: tuple[Literal["telephone", "photos", "records", "visit"], ...] = (
    "telephone",
    "photos",
    "records",
    "visit",
)


@dataclass(frozen=True, slots=True)
class Answered:
    """One check's whole answer for one candidate."""

    candidate: int
    made: FromSite
    answer: Answer | None


def of_facts(facts: Sequence[OpenFact]) -> Iterator[Question]:
    """Return a question for every open fact."""
    for fact in facts:
        yield Question(
            pointer=fact.pointer,
            label=fact.label,
            question=fact.asked["x-question"],
            ask_by=AskBy(fact.asked["x-ask-by"]),
            can_change_verdict=False,
            range=fact.range,
            why=f"Assumed: {said(fact.value)}. It may be {_choices(fact.values)}.",
        )


def _choices(values: Sequence[Any]) -> str:
    words = [said(value) for value in values]
    if isinstance(values[0], float):
        return f"{said(min(values))} to {said(max(values))}"
    return ", ".join(words[:-1]) + " or " + words[-1] if len(words) > 1 else words[0]


def of_checks(request: SiteAssessmentRequest, answered: Sequence[Answered]) -> Iterator[Question]:
    """Return the checks' questions, their pointers those of the site request.

    Those of a check that could not decide come first: one answer may not settle the whole, and
    still be the one that is needed.
    """
    names = [candidate.id for candidate in request.candidates or []]
    for one in sorted(answered, key=lambda one: (_decided(one.answer), names[one.candidate])):
        name = names[one.candidate]
        for pointer, question in _of_one(one):
            if pointer is not None:
                own = pointer.startswith("/candidates/")
                whose = f" of candidate {name}" if own else ""
                yield Question(
                    pointer=pointer,
                    label=question.label + whose,
                    question=f"{question.question} ({name})" if own else question.question,
                    ask_by=question.ask_by,
                    can_change_verdict=False,
                    # A field that stands for several of the check's is tried as a whole.
                    range=None if _tried_whole(pointer, one) else question.range,
                    why=question.why if own or len(names) == 1 else f"{name}: {question.why}",
                )


def _of_one(one: Answered) -> Iterator[tuple[str | None, Question]]:
    """Return a check's questions, or those for what it lacks, and where they stand in the site."""
    for question in one.answer.questions if one.answer else ():
        yield mapped(question.pointer, one.made.pointers, one.candidate), question
    for question in one.made.asked:
        yield question.pointer.replace("*", str(one.candidate)), question


def _tried_whole(pointer: str, one: Answered) -> bool:
    return any(pointer == whole.replace("*", str(one.candidate)) for whole in one.made.trials)


def _decided(answer: Answer | None) -> bool:
    return answer is not None and answer.verdict is not Verdict.UNDETERMINED


def of_missing(answered: Sequence[Answered]) -> Iterator[Question]:
    """Return a question for every fact that keeps a check from being made."""
    declared = declared_facts()
    for pointer in dict.fromkeys(p for one in answered for p in one.made.missing):
        asked = declared.get(pointer)
        if asked is not None:
            yield Question(
                pointer=pointer,
                label=OpenFact(pointer, None, (), asked, "").label,
                question=asked["x-question"],
                ask_by=AskBy(asked["x-ask-by"]),
                can_change_verdict=False,
                why="Without it a check cannot be made, and what is not checked is not known.",
            )


def unknown_fields(request: SiteAssessmentRequest) -> Iterator[Question]:
    """Return what must be asked because nothing stands in for it."""
    if not request.candidates:
        yield Question(
            pointer="/candidates",
            label="the candidate batteries",
            question="Which batteries might be offered: energy, power and number of units?",
            ask_by=AskBy.RECORD,
            can_change_verdict=True,
            why="Without a candidate nothing can be held against what the site needs.",
        )
        if request.wishes.target_hours is None:
            yield Question(
                pointer="/wishes/target_hours",
                label="the target hours",
                question="How many hours must the chosen loads run?",
                ask_by=AskBy.TELEPHONE,
                can_change_verdict=False,
                why="The energy that any candidate must store hangs on it.",
            )


def ranked(
    questions: Sequence[Question],
    assumptions: Sequence[Assumption],
    plain: SiteAssessmentRequest,
    facts: Sequence[OpenFact],
    reruns: Reruns,
    stand: Sequence[Verdict],
    trials: Mapping[str, Sequence[Any]],
) -> list[Question]:
    """Return the questions, by rerun at each value of their range, the deciding ones first."""
    unique: dict[str, Question] = {}
    for question in questions:
        unique.setdefault(question.pointer, question)
    asked = list(unique.values())
    variants: list[Variant] = []
    owners: list[Question] = []
    if plain.candidates:
        for question in asked:
            left = [fact for fact in facts if fact.pointer != question.pointer]
            for value in question.range or trials.get(question.pointer, ()):
                fills = [*_siblings(question.pointer, assumptions), (question.pointer, value)]
                variants.append(Variant(filled(plain, fills), left, _owner(question.pointer)))
                owners.append(question)
    found = candidate_verdicts(reruns, variants, stand)
    for question, verdicts in zip(owners, found, strict=True):
        question.can_change_verdict |= best(verdicts) is not best(stand)
    hopeful = [at for at, verdict in enumerate(stand) if verdict is best(stand)]
    now = reruns.by_check([Scenario(plain, at) for at in hopeful])
    moving = {
        question.pointer
        for question, variant in zip(owners, variants, strict=True)
        if reruns.by_check([Scenario(variant.plain, at) for at in hopeful]) != now
    }
    return sorted(asked, key=lambda question: _urgency(question, moving))


def _urgency(question: Question, moving: set[str]) -> tuple[bool, bool, bool]:
    """Return the order of asking: whose health depends on it, what decides, what moves a check.

    Where several checks wait for facts no answer decides alone; then those come first that settle
    one check of a candidate that may still do.
    """
    return (
        question.pointer != "/home/medical_equipment",
        not question.can_change_verdict,
        question.pointer not in moving,
    )


def _owner(pointer: str) -> int | None:
    """Return the candidate that a pointer belongs to, None where it is the site's."""
    steps = pointer.split("/")
    return int(steps[2]) if steps[1] == "candidates" and len(steps) > 2 else None


def _siblings(pointer: str, assumptions: Sequence[Assumption]) -> list[tuple[str, Any]]:
    """Return the assumed tag of the object that a field would bring with it."""
    tag = pointer.rsplit("/", 1)[0] + "/kind"
    return [(a.pointer, a.value) for a in assumptions if a.pointer == tag != pointer]


def rounds(questions: Sequence[Question]) -> list[Round]:
    """Return the questions grouped by the way they are asked."""
    found = []
    for name in _ROUNDS:
        pointers = [q.pointer for q in questions if _ROUND[q.ask_by] == name]
        if pointers:
            found.append(Round(round=name, pointers=pointers))
    return found
