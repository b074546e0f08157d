"""The site assessment as an operation: composes the checks it is handed."""

from __future__ import annotations

from collections.abc import Sequence

from service.assessment.answer import SiteAssessmentAnswer
from service.assessment.assess import Assessment
from service.assessment.open_facts import resolve
from service.assessment.order import in_order
from service.assessment.refusals import refusals
from service.assessment.request import SiteAssessmentRequest
from service.check import MIB, Check, Includes, Operation

#: Predicted times on one core [ms], measured by tests/benchmarks.
_SITE_MS = 20.0
_CANDIDATE_MS = 80.0
#: A site is answered many times over, as a bulk run is, and is given as much time [ms].
_MOST_MS = 10_000.0


def site_assessment(checks: Sequence[Check]) -> Operation:
    """Return the operation that assesses a site by the given checks."""
    ordered = in_order(checks)

    def run(request: SiteAssessmentRequest, _includes: Includes) -> SiteAssessmentAnswer:
        return Assessment(ordered, request).answer()

    def work(request: SiteAssessmentRequest) -> float:
        plain, _ = resolve(request)
        candidates = plain.candidates or []
        # A check that takes another's answer is not looked at before there is one.
        made = [
            check.reruns * check.work(stated)
            for candidate in candidates
            for check in ordered
            if not check.after
            and (stated := check.from_site(plain, candidate, {}).request) is not None
        ]
        flat = _CANDIDATE_MS * len(candidates) * max(1, len(ordered))
        return _SITE_MS + flat + sum(made)

    return Operation(
        id="site-assessment",
        title="Site assessment",
        description=(
            "The whole job for one lead: which candidate suits the home, under which conditions, "
            "and which question to ask next. Place and wishes are required, every other fact may "
            "be absent, a range, one of a few values or a coarse answer; the answer says what "
            "stands in for it and whether it can change the verdict."
        ),
        tag="assessment",
        request=SiteAssessmentRequest,
        answer=SiteAssessmentAnswer,
        run=run,
        work=work,
        work_limit=_MOST_MS,
        lighten=(
            "state the position of the home instead of its county, say where its walls face, ask "
            "for fewer target hours, or send fewer candidates at once"
        ),
        refusals=refusals,
        limit=4 * MIB,
        includes=(),
        examples={
            "a-demo-lead": "A lead with half of the facts, one candidate in a garage (invented).",
            "b-no-candidate": "A lead without a candidate: what the site needs, what to ask.",
            "c-bill-only": "No loads, a coarse answer on the bill.",
            "d-two-candidates": "Two batteries of which little is known (invented).",
            "e-a-side-yard-told": "Two units for a side yard as told by telephone (invented).",
        },
    )
