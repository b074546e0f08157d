"""Reruns: how a site stands over every admissible value of its open facts.

A candidate's verdict is the worst over the open facts, taken one at a time and all at their
hardest together. It is ``fail`` only where it fails with the values that stand in; where a value
might make it fail, it is ``undetermined``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import msgspec

from service.assessment.open_facts import ESSENTIAL_SET_POINTER, OpenFact
from service.assessment.order import feeders, in_run_order
from service.assessment.pointers import filled
from service.assessment.request import SiteAssessmentRequest
from service.assessment.site_rules import site_verdict
from service.check import BRIEF, Check, Includes
from service.findings import Verdict, at_best, rank, worst


@dataclass(frozen=True, slots=True)
class Scenario:
    """One site with plain facts, for one candidate."""

    site: SiteAssessmentRequest
    candidate: int


#: A request that a check takes, by its id and bytes; what differs in nothing is worked out once.
_Key = tuple[str, bytes]


@dataclass(slots=True)
class Reruns:
    """Verdicts of scenarios, all that are wanted in one batch, none worked out twice."""

    checks: Sequence[Check]
    order: Sequence[Check] = field(init=False)
    feeders: set[str] = field(init=False)
    known: dict[_Key, Verdict] = field(default_factory=dict)
    answers: dict[tuple[_Key, Includes], Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.order = in_run_order(self.checks)
        self.feeders = feeders(self.checks)

    def run(self, check: Check, request: Any, includes: Includes) -> Any:
        """Return the answer of a check, not worked out again where the request is the same."""
        return self._answer(check, _key(check, request), request, includes)

    def verdicts(self, scenarios: Sequence[Scenario]) -> list[Verdict]:
        """Return the verdict of each scenario: the worst of its checks and of the site rules.

        A check that lacks a fact leaves its scenario undetermined, and so does having no check.
        """
        by_scenario = self._worked_out(scenarios)
        return [
            self._whole(scenario, requests)
            for scenario, requests in zip(scenarios, by_scenario, strict=True)
        ]

    def by_check(self, scenarios: Sequence[Scenario]) -> list[list[Verdict]]:
        """Return the verdict of every check in each scenario."""
        return [
            [self._known(key, request) for key, request in requests]
            for requests in self._worked_out(scenarios)
        ]

    def _worked_out(self, scenarios: Sequence[Scenario]) -> list[list[tuple[_Key, Any]]]:
        """Return the requests of each scenario, all their verdicts known."""
        by_scenario = [list(self._requests(scenario)) for scenario in scenarios]
        for check in self.checks:
            wanted = {
                key: request
                for requests in by_scenario
                for key, request in requests
                if key[0] == check.id and request is not None and key not in self.known
            }
            found = check.verdicts(list(wanted.values()))
            self.known.update(zip(wanted, found, strict=True))
        return by_scenario

    def _known(self, key: _Key, request: Any) -> Verdict:
        return Verdict.UNDETERMINED if request is None else self.known[key]

    def _whole(self, scenario: Scenario, requests: Sequence[tuple[_Key, Any]]) -> Verdict:
        of_checks = [self._known(key, request) for key, request in requests]
        return worst([site_verdict(scenario.site), worst(of_checks)])

    def because(
        self, described: Sequence[tuple[str, SiteAssessmentRequest]], candidate: int
    ) -> list[str]:
        """Return which values of open facts give a worse verdict than the site as it stands."""
        scenarios = [Scenario(site, candidate) for _, site in described]
        verdicts = self.verdicts(scenarios)
        return [
            f"{verdict} if {words}"
            for (words, _), verdict in zip(described, verdicts, strict=True)
            if words and rank(verdict) < rank(verdicts[0])
        ]

    def conditions(
        self, described: Sequence[tuple[str, SiteAssessmentRequest]], candidate: int
    ) -> list[str]:
        """Return what must be so in every scenario; what only some ask for says when."""
        found: dict[str, list[str]] = {}
        for words, site in described:
            for condition in self._conditions(Scenario(site, candidate)):
                found.setdefault(condition, []).append(words)
        # What the site asks for as it stands needs no case; of the others every case is named.
        return [
            condition if "" in cases else f"{condition} (if {' or if '.join(cases)})"
            for condition, cases in found.items()
        ]

    def _conditions(self, scenario: Scenario) -> list[str]:
        by_check = {check.id: check for check in self.checks}
        return [
            condition
            for key, request in self._requests(scenario)
            if request is not None
            for condition in self._answer(by_check[key[0]], key, request).conditions
        ]

    def _requests(self, scenario: Scenario) -> Iterator[tuple[_Key, Any]]:
        candidate = (scenario.site.candidates or [])[scenario.candidate]
        answers: dict[str, Any] = {}
        found: dict[str, tuple[_Key, Any]] = {}
        for check in self.order:
            request = check.from_site(scenario.site, candidate, answers).request
            key = _key(check, request)
            if request is not None and check.id in self.feeders:
                answers[check.id] = self._answer(check, key, request)
                self.known[key] = answers[check.id].verdict
            found[check.id] = key, request
        for check in self.checks:
            yield found[check.id]

    def _answer(self, check: Check, key: _Key, request: Any, includes: Includes = BRIEF) -> Any:
        if (key, includes) not in self.answers:
            self.answers[key, includes] = check.run(request, includes)
        return self.answers[key, includes]


def _key(check: Check, request: Any) -> _Key:
    return check.id, msgspec.json.encode(request)


def sites_of(
    plain: SiteAssessmentRequest, facts: Sequence[OpenFact]
) -> list[SiteAssessmentRequest]:
    """Return the site as it stands, each open fact at each value, and all at their hardest."""
    sites = [plain]
    for fact in facts:
        sites += [
            filled(plain, [(fact.pointer, value)]) for value in fact.values if value != fact.value
        ]
    if len(facts) > 1:
        sites.append(filled(plain, [(fact.pointer, fact.values[-1]) for fact in facts]))
    return sites


def described_scenarios(
    plain: SiteAssessmentRequest, facts: Sequence[OpenFact], settled: OpenFact | None
) -> list[tuple[str, SiteAssessmentRequest]]:
    """Return the scenarios with the words of what differs, empty for the site as it stands.

    An open season that was `settled` on the worse one stands as such, the other as a case.
    """
    words = [""]
    for fact in facts:
        words += [f"{fact.label} is {said(value)}" for value in fact.values if value != fact.value]
    if len(facts) > 1:
        words.append("all open facts are at their hardest together")
    described = list(zip(words, sites_of(plain, facts), strict=True))
    if settled is None:
        return described
    seasons = [(settled.value, ""), (settled.values[0], f"{settled.label} is {settled.values[0]}")]
    stands = [(case, filled(plain, [(settled.pointer, value)])) for value, case in seasons]
    return [*stands, *described[1:]]


def said(value: Any) -> str:
    """Return a fact's value inside a sentence."""
    return f"{value:g}" if isinstance(value, float) else str(value).replace("_", " ")


def folded(verdicts: Sequence[Verdict]) -> Verdict:
    """Return a candidate's verdict out of those of its scenarios, the first as it stands."""
    stands = verdicts[0]
    if stands is Verdict.FAIL:
        return Verdict.FAIL
    lowest = worst(verdicts)
    return Verdict.UNDETERMINED if lowest is Verdict.FAIL else lowest


@dataclass(frozen=True, slots=True)
class Variant:
    """One way that the site may be: plain facts, and those that stay open.

    ``only`` is the one candidate that it differs for; None: it may differ for all.
    """

    plain: SiteAssessmentRequest
    facts: Sequence[OpenFact]
    only: int | None = None


def _cap(facts: Sequence[OpenFact]) -> Verdict:
    """Return the best verdict while these facts are open: loads nobody named decide nothing."""
    unnamed = any(fact.pointer == ESSENTIAL_SET_POINTER for fact in facts)
    return Verdict.UNDETERMINED if unnamed else Verdict.PASS


def candidate_verdicts(
    reruns: Reruns, variants: Iterable[Variant], known: Sequence[Verdict] = ()
) -> list[list[Verdict]]:
    """Return the verdicts of all candidates in each variant; `known` where it does not differ."""
    spans: list[tuple[int | None, int, Verdict]] = []
    scenarios: list[Scenario] = []
    for variant in variants:
        sites = sites_of(variant.plain, variant.facts)
        for candidate in range(len(variant.plain.candidates or [])):
            if variant.only in (None, candidate):
                scenarios += [Scenario(site, candidate) for site in sites]
        spans.append((variant.only, len(sites), _cap(variant.facts)))
    found = iter(reruns.verdicts(scenarios))
    answers: list[list[Verdict]] = []
    count = len(known) or len({scenario.candidate for scenario in scenarios})
    for only, length, cap in spans:
        answers.append(
            [
                at_best(folded([next(found) for _ in range(length)]), cap)
                if only in (None, candidate)
                else known[candidate]
                for candidate in range(count)
            ]
        )
    return answers
