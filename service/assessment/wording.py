"""The assessment's own sentences, out of the checks' numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence

from service.assessment.answer import CandidateAnswer
from service.findings import Figure, Finding, Verdict, rank

_SLACK = 1e-6


def best_candidate(candidates: Sequence[CandidateAnswer]) -> CandidateAnswer | None:
    """Return the best candidate by verdict, then by its cautious hours, the first of equals."""
    return max(
        candidates,
        key=lambda candidate: (rank(candidate.verdict), *_cautious(candidate)),
        default=None,
    )


def _cautious(candidate: CandidateAnswer) -> tuple[float, float]:
    """Return the low and the typical hours of a candidate [h], zeros where there are none."""
    by_id = {figure.id: figure.value for check in candidate.checks for figure in check.figures}
    return by_id.get("hours-low", 0.0), by_id.get("hours-typical", 0.0)


def _figure(figures: Sequence[Figure], name: str) -> str | None:
    """Return a number in words: times rounded down, what is asked for rounded up."""
    found = next((figure for figure in figures if figure.id == name), None)
    if found is None:
        return None
    if found.unit == "h":
        figure = math.floor(found.value * 10 + _SLACK) / 10
        return f"{'at least ' if found.at_least else ''}{figure:g} h"
    return f"{math.ceil(found.value * 10 - _SLACK) / 10:g} {found.unit}"


def _hours(candidate: CandidateAnswer) -> tuple[str, str, str] | None:
    figures = [figure for check in candidate.checks for figure in check.figures]
    named = [_figure(figures, f"hours-{level}") for level in ("low", "typical", "high")]
    if any(word is None for word in named):
        return None
    return str(named[0]), str(named[1]), str(named[2])


def _needs(needs: Sequence[Figure], named: bool) -> str:
    energy, power = _figure(needs, "daily-energy-typical"), _figure(needs, "running-power-all")
    what = "The chosen loads take" if named else "The home takes"
    text = f"{what} {energy} a day at typical use" if energy else f"{what} an unknown energy"
    return f"{text}, up to {power} at once." if power else f"{text}."


def body(
    candidate: CandidateAnswer | None,
    needs: Sequence[Figure],
    named: bool,
    site: Sequence[Finding],
) -> str:
    """Return the numbers of the estimator's line."""
    first = " ".join(finding.statement for finding in site[:1])
    tail = f" {first}" if first else ""
    if candidate is None:
        return f"No candidate given. {_needs(needs, named)}{tail}"
    hours = _hours(candidate)
    if hours is None:
        return f"Candidate {candidate.id}. {_needs(needs, named)}{tail}"
    return (
        f"Candidate {candidate.id}: {hours[0]} to {hours[2]}, {hours[1]} at typical use, as "
        f"assumed. Panel and price are not checked here.{tail}"
    )


def summary(
    verdict: Verdict, candidate: CandidateAnswer | None, needs: Sequence[Figure], named: bool
) -> str:
    """Return the homeowner's sentence."""
    hours = None if candidate is None else _hours(candidate)
    if candidate is None or hours is None:
        return f"{_needs(needs, named)} Which battery suits the home is still open."
    what = "the chosen circuits" if named else "everything behind the main breaker"
    text = (
        f"With the better of the batteries looked at, {what} can be expected to run {hours[0]} to "
        f"{hours[2]}, {hours[1]} in ordinary use, depending on use, on the battery's age and on "
        "its charge when the outage starts."
    )
    if verdict is Verdict.CONDITIONAL:
        return f"{text} It holds only if {'; and '.join(candidate.conditions)}."
    if verdict is Verdict.FAIL:
        return f"{text} None of the batteries looked at carries what is wanted."
    if verdict is Verdict.PASS:
        return text
    return f"{text} Open questions have to be answered before this can be relied on."
