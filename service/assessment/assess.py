"""One assessment: checks run, verdicts composed, questions ranked, sentences written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from service.assessment.answer import CandidateAnswer, CheckSummary, SiteAssessmentAnswer
from service.assessment.asking import (
    Answered,
    of_checks,
    of_facts,
    of_missing,
    ranked,
    rounds,
    unknown_fields,
)
from service.assessment.merging import merged_assumptions, merged_cautions, merged_sources
from service.assessment.open_facts import SEASON, OpenFact, open_season, resolve
from service.assessment.place import assumed_date, basis
from service.assessment.pointers import filled
from service.assessment.request import SiteAssessmentRequest
from service.assessment.reruns import Reruns, Variant, candidate_verdicts
from service.assessment.site_rules import site_findings, site_verdict
from service.assessment.wording import best_candidate, body, summary
from service.check import Check, FromSite
from service.findings import (
    ESTIMATE_NOT_DESIGN,
    Answer,
    Caution,
    Finding,
    Verdict,
    best,
    headline,
    rank,
    worst,
    worst_first,
)

_UNCHECKED = Caution(
    id="only-listed-checks",
    text=(
        "Only the checks named in this answer were made; whatever they do not name, such as "
        "motor starting, wiring, clearances, the service panel or the cost, is not decided here."
    ),
)


@dataclass(slots=True)
class Assessment:
    """A lead being assessed by checks that stand in order."""

    checks: Sequence[Check]
    request: SiteAssessmentRequest
    reruns: Reruns = field(init=False)

    def __post_init__(self) -> None:
        self.reruns = Reruns(self.checks)

    def answer(self) -> SiteAssessmentAnswer:
        """Return the whole answer."""
        unsettled, facts = resolve(self.request)
        plain, settled, answered = self._seasoned(unsettled)
        stand = candidate_verdicts(self.reruns, [Variant(unsettled, facts)])[0]
        candidates = [
            self._candidate(unsettled, facts, place, stand[place], answered)
            for place in range(len(plain.candidates or []))
        ]
        verdict = best(candidate.verdict for candidate in candidates)
        assumptions = merged_assumptions(
            [*facts, *settled], [one for one, _ in answered], assumed_date(self.request)
        )
        questions = ranked(
            [
                *unknown_fields(self.request),
                *of_facts([*facts, *settled]),
                *of_checks(plain, [one for one, _ in answered]),
                *of_missing([one for one, _ in answered]),
            ],
            assumptions,
            unsettled,
            facts,
            self.reruns,
            stand,
        )
        chosen = best_candidate(candidates)
        needs = [figure for check in self.checks for figure in check.needs(plain)]
        return SiteAssessmentAnswer(
            verdict=verdict,
            headline=headline(
                verdict, chosen.conditions if chosen else [], body(chosen, needs), questions
            ),
            summary=summary(verdict, chosen, needs),
            conditions=chosen.conditions if chosen and verdict is Verdict.CONDITIONAL else [],
            findings=worst_first([*site_findings(plain), *self._without(candidates)]),
            alternatives=[],
            assumptions=assumptions,
            questions=questions,
            cautions=merged_cautions(
                [one for one, _ in answered], [ESTIMATE_NOT_DESIGN, _UNCHECKED]
            ),
            sources=merged_sources([one for one, _ in answered], []),
            basis=basis(self.request),
            reference=self.request.reference,
            needs=needs,
            candidates=candidates,
            rounds=rounds(questions),
        )

    def _seasoned(
        self, plain: SiteAssessmentRequest
    ) -> tuple[SiteAssessmentRequest, list[OpenFact], list[tuple[Answered, Check]]]:
        """Settle an open season on the one that is worse for the candidates together.

        The numbers shown are of that season; reruns leave it open, so that a verdict holds in
        both.
        """
        if plain.wishes.season is not None or not plain.candidates:
            return plain, [], self._answered(plain)
        sites = {season: filled(plain, [(SEASON, season)]) for season in ("summer", "winter")}
        answered = {season: self._answered(site) for season, site in sites.items()}

        def badness(season: str) -> tuple[int, float]:
            made = [(one.answer, check) for one, check in answered[season] if one.answer]
            shown = [f.value for answer, check in made for f in check.figures(answer)]
            return sum(rank(answer.verdict) for answer, _ in made), sum(shown)

        worse = min(sites, key=badness)
        return sites[worse], [open_season(worse)], answered[worse]

    def _answered(self, plain: SiteAssessmentRequest) -> list[tuple[Answered, Check]]:
        found: list[tuple[Answered, Check]] = []
        for place, candidate in enumerate(plain.candidates or []):
            answers: dict[str, Any] = {}
            for check in self.checks:
                made: FromSite = check.from_site(plain, candidate, answers)
                answer: Answer | None = None
                if made.request is not None:
                    answer = check.run(made.request, frozenset())
                    answers[check.id] = answer
                found.append((Answered(place, made, answer), check))
        return found

    def _candidate(
        self,
        plain: SiteAssessmentRequest,
        facts: Sequence[OpenFact],
        place: int,
        verdict: Verdict,
        answered: Sequence[tuple[Answered, Check]],
    ) -> CandidateAnswer:
        mine = [(one, check) for one, check in answered if one.candidate == place]
        own = [(one.answer, check) for one, check in mine if one.answer]
        stands = worst([site_verdict(plain), *(answer.verdict for answer, _ in own)])
        conditions = [c for answer, _ in own for c in answer.conditions]
        if verdict is Verdict.CONDITIONAL and stands is Verdict.PASS:
            conditions.append(self._doubt(plain, facts, place))
        return CandidateAnswer(
            id=(plain.candidates or [])[place].id,
            verdict=verdict,
            conditions=conditions if verdict is Verdict.CONDITIONAL else [],
            checks=[
                CheckSummary(
                    check=check.id,
                    verdict=answer.verdict,
                    headline=answer.headline,
                    findings=answer.findings,
                    alternatives=answer.alternatives,
                    figures=check.figures(answer),
                )
                for answer, check in own
            ]
            + [_not_made(check, one.made) for one, check in mine if not one.answer],
        )

    def _doubt(self, plain: SiteAssessmentRequest, facts: Sequence[OpenFact], place: int) -> str:
        """Return the open facts that keep a candidate from passing, as a condition."""
        alone = [Variant(plain, [fact], place) for fact in facts]
        stand = [Verdict.PASS] * len(plain.candidates or [])
        found = candidate_verdicts(self.reruns, alone, stand)
        doubted = [
            fact.label
            for fact, verdicts in zip(facts, found, strict=True)
            if verdicts[place] is not Verdict.PASS
        ]
        # Facts that only together take the pass away, or the season alone: name them all.
        named = doubted or [*(fact.label for fact in facts), *self._open_season(plain)]
        return "what was assumed is confirmed: " + ", ".join(named)

    def _open_season(self, plain: SiteAssessmentRequest) -> list[str]:
        return ["the season"] if plain.wishes.season is None else []

    def _without(self, candidates: Sequence[CandidateAnswer]) -> list[Finding]:
        if candidates:
            return []
        return [
            Finding(
                rule="no-candidate",
                verdict=Verdict.UNDETERMINED,
                statement="No candidate was given: the answer states what the site needs and what "
                "to ask.",
            )
        ]


def _not_made(check: Check, made: FromSite) -> CheckSummary:
    """Return the summary of a check that lacks facts."""
    lacking = ", ".join(made.missing) or "facts of the site"
    finding = Finding(
        rule="facts-missing",
        verdict=Verdict.UNDETERMINED,
        statement=f"The check could not be made: {lacking} must be known first.",
    )
    return CheckSummary(
        check=check.id,
        verdict=Verdict.UNDETERMINED,
        headline="not yet. Facts are missing.",
        findings=[finding],
        alternatives=[],
        figures=[],
    )
