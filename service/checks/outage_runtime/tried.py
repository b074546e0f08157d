"""Questions whose claim needs the whole request answered again, one field filled in."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.request import with_field
from service.checks.outage_runtime.variants import ranks_of
from service.findings import Question

#: Ends of pointers whose claim no lane of the answer makes.
_MOVED_APART = ("/shading_percent", "/solar/backed_up", "/generator/connection")


def _needs_rerun(case: Judgement, question: Question) -> bool:
    """Return whether the lanes of the one answer cannot say what the field would change.

    They run under the one climate site that answers, while with another value another site may be
    the worst; and they move the shade of all arrays together.
    """
    if question.range is None or question.pointer.startswith("/climate"):
        return False
    column = case.year
    several = column is not None and len(column.course.facts.answering) > 1
    return several or question.pointer.endswith(_MOVED_APART)


def tried(case: Judgement, questions: Sequence[Question]) -> list[Question]:
    """Return the questions, those that need it claimed anew by answering the request again."""
    open_ = [question for question in questions if _needs_rerun(case, question)]
    requests = [
        with_field(case.request, question.pointer, value)
        for question in open_
        for value in question.range or ()
    ]
    found = iter(ranks_of(requests))
    for question in open_:
        ranks = [next(found) for _ in question.range or ()]
        question.can_change_verdict = any(rank != case.rank() for rank in ranks)
    return list(questions)
