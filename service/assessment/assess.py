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
from service.assessment.open_facts import (
    ESSENTIAL_SET_POINTER,
    SEASON,
    OpenFact,
    open_season,
    resolve,
)
from service.assessment.place import assumed_date, basis
from service.assessment.pointers import filled
from service.assessment.request import SiteAssessmentRequest
from service.assessment.reruns import (
    Reruns,
    Variant,
    candidate_verdicts,
    described_scenarios,
)
from service.assessment.site_rules import site_findings
from service.assessment.wording import best_candidate, body, summary
from service.check import BRIEF, WITH_ALTERNATIVES, Check, FromSite, Includes
from service.findings import (
    ESTIMATE_NOT_DESIGN,
    Answer,
    Caution,
    Finding,
    Verdict,
    best,
    headline,
    rank,
    worst_first,
)

_UNCHECKED = Caution(
    id="only-listed-checks",
    text=(
        "Only the checks named in this answer were made; whatever they do not name, such as the "
        "service panel or the cost, is not decided here."
    ),
)


_MEDICAL = Caution(
    id="medical-not-asked",
    text=(
        "Whether anybody in the home depends on powered medical equipment is not known: ask before "
        "anything is signed."
    ),
)


def _medical(facts: Sequence[OpenFact]) -> list[Caution]:
    return [_MEDICAL] if any(f.pointer == "/home/medical_equipment" for f in facts) else []


def _unnamed(facts: Sequence[OpenFact]) -> list[Finding]:
    if all(fact.pointer != ESSENTIAL_SET_POINTER for fact in facts):
        return []
    return [
        Finding(
            rule="loads-not-named",
            verdict=Verdict.UNDETERMINED,
            statement="Nobody has named the loads that are wanted; a usual set stands in, and "
            "nothing is decided for it.",
        )
    ]


def _named(plain: SiteAssessmentRequest) -> bool:
    """Return whether loads were named, so that it is not the whole bill that is counted."""
    return bool(plain.wishes.loads or plain.wishes.essential_set)


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
            self._candidate(unsettled, facts, settled, place, stand[place], answered)
            for place in range(len(plain.candidates or []))
        ]
        verdict = best(candidate.verdict for candidate in candidates)
        assumptions = merged_assumptions(
            [*facts, *settled], [one for one, _ in answered], assumed_date(self.request)
        )
        questions = ranked(
            [
                *unknown_fields(self.request),
                *of_missing([one for one, _ in answered]),
                *of_facts([*facts, *settled]),
                *of_checks(plain, [one for one, _ in answered]),
            ],
            assumptions,
            unsettled,
            facts,
            self.reruns,
            stand,
            {
                pointer.replace("*", str(one.candidate)): tried
                for one, _ in answered
                for pointer, tried in one.made.trials.items()
            },
        )
        chosen = best_candidate(candidates)
        needs = [figure for check in self.checks for figure in check.needs(plain)]
        return SiteAssessmentAnswer(
            verdict=verdict,
            headline=headline(
                verdict,
                chosen.conditions if chosen else [],
                body(chosen, needs, _named(plain), [*site_findings(plain), *_unnamed(facts)]),
                questions,
            ),
            summary=summary(verdict, chosen, needs, named=_named(plain)),
            conditions=chosen.conditions if chosen and verdict is Verdict.CONDITIONAL else [],
            findings=worst_first(
                [*site_findings(plain), *_unnamed(facts), *self._without(candidates)]
            ),
            alternatives=[],
            assumptions=assumptions,
            questions=questions,
            cautions=merged_cautions(
                [one for one, _ in answered], [ESTIMATE_NOT_DESIGN, _UNCHECKED, *_medical(facts)]
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
            return plain, [], self._answered(plain, WITH_ALTERNATIVES)
        sites = {season: filled(plain, [(SEASON, season)]) for season in ("summer", "winter")}
        answered = {season: self._answered(site, BRIEF) for season, site in sites.items()}

        def badness(season: str) -> tuple[int, float]:
            made = [(one.answer, check) for one, check in answered[season] if one.answer]
            shown = [f.value for answer, check in made for f in check.figures(answer)]
            return sum(rank(answer.verdict) for answer, _ in made), sum(shown)

        worse = min(sites, key=badness)
        shown = self._answered(sites[worse], WITH_ALTERNATIVES)
        return sites[worse], [open_season(worse)], shown

    def _answered(
        self, plain: SiteAssessmentRequest, includes: Includes
    ) -> list[tuple[Answered, Check]]:
        found: list[tuple[Answered, Check]] = []
        for place, candidate in enumerate(plain.candidates or []):
            answers: dict[str, Any] = {}
            mine: dict[str, tuple[Answered, Check]] = {}
            for check in self.reruns.order:
                made: FromSite = check.from_site(plain, candidate, answers)
                answer: Answer | None = None
                if made.request is not None:
                    answer = self.reruns.run(check, made.request, includes)
                    answers[check.id] = answer
                mine[check.id] = Answered(place, made, answer), check
            found += [mine[check.id] for check in self.checks]
        return found

    def _candidate(
        self,
        plain: SiteAssessmentRequest,
        facts: Sequence[OpenFact],
        settled: Sequence[OpenFact],
        place: int,
        verdict: Verdict,
        answered: Sequence[tuple[Answered, Check]],
    ) -> CandidateAnswer:
        mine = [(one, check) for one, check in answered if one.candidate == place]
        made = [(one.answer, check) for one, check in mine if one.answer]
        described = described_scenarios(plain, facts, settled[0] if settled else None)
        conditional = verdict is Verdict.CONDITIONAL
        return CandidateAnswer(
            id=(plain.candidates or [])[place].id,
            verdict=verdict,
            because=self.reruns.because(described, place),
            conditions=self.reruns.conditions(described, place) if conditional else [],
            checks=[
                CheckSummary(
                    check=check.id,
                    verdict=answer.verdict,
                    headline=answer.headline,
                    findings=answer.findings,
                    alternatives=answer.alternatives,
                    figures=check.figures(answer),
                )
                for answer, check in made
            ]
            + [_not_made(check, one.made) for one, check in mine if not one.answer],
        )

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
