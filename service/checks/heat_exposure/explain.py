"""From temperatures to the answer, in words."""

from __future__ import annotations

from itertools import islice

from service.check import Arrays, Includes
from service.checks.heat_exposure.answer import HeatClimateUsed, HeatExposureAnswer
from service.checks.heat_exposure.assumptions import assumptions
from service.checks.heat_exposure.cautions import cautions
from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.climate_questions import of_the_climate
from service.checks.heat_exposure.cold_end import coldest_hour
from service.checks.heat_exposure.columns import Heated
from service.checks.heat_exposure.findings_of import (
    barred,
    conditions_of,
    felt,
    findings_of,
    kind,
    percent,
)
from service.checks.heat_exposure.other_readings import alternatives
from service.checks.heat_exposure.other_sites import other_sites
from service.checks.heat_exposure.questions import asked_of, questions
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.reruns import Told, rerun
from service.checks.heat_exposure.shown import (
    band,
    days_of,
    degf,
    power_of,
    ranked,
    remedies_of,
)
from service.checks.heat_exposure.sources import sources, with_sources, working
from service.checks.heat_exposure.through_year import day_series, through_year
from service.checks.heat_exposure.verdicts import Judged, judge_all, verdict_of
from service.findings import (
    Basis,
    Finding,
    Question,
    Verdict,
    headline,
    rank,
    worst_first,
)
from service.published import data_edition

_F_PER_K = 1.8


def explain(
    request: HeatExposureRequest, columns: Arrays, row: int, includes: Includes
) -> HeatExposureAnswer:
    """Return the answer of one row."""
    climate: ClimateDays = columns["days"][row]
    judged = judge_all(request, climate, columns["solved"][row])
    if not judged:
        return _barred(request, climate)
    verdict = verdict_of(judged)
    chosen = min(judged, key=lambda one: (-rank(one.verdict), _heat(one)))
    # The reruns of an assessment read no alternatives.
    shown = "brief" not in includes or "alternatives" in includes
    asked = _tried(request, climate, columns["solved"][row], chosen, verdict, includes)
    hangs_on = conditions_of(request, climate, chosen) if verdict is Verdict.CONDITIONAL else []
    findings = findings_of(request, climate, chosen)
    answer = HeatExposureAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(request, chosen, findings), asked),
        summary=_summary(request, chosen, verdict, asked),
        conditions=hangs_on,
        findings=worst_first(with_sources(findings, request, climate)),
        alternatives=[
            *alternatives(request, climate, judged, chosen),
            *other_sites(request, climate, chosen, verdict),
        ]
        if shown
        else [],
        assumptions=assumptions(request, climate),
        questions=asked,
        cautions=cautions(request),
        sources=sources(request, climate),
        basis=Basis(code_edition=None, data_edition=data_edition()),
        reference=request.reference,
        estimate="screening_and_ranking",
        climate=_climate(request, climate),
        spot=chosen.heat.spot.id,
        hottest=band(chosen.heat.hot_peak, chosen.heat.hot_end),
        days=days_of(request, chosen.heat),
        walls=ranked(judged),
        remedies=remedies_of(chosen.heat),
        power=power_of(request, chosen),
    )
    if "working" in includes:
        answer.working = working(request, chosen)
    if "series" in includes:
        year, lines = through_year(request, climate, chosen.heat)
        answer.year, answer.series = year, [*day_series(chosen.heat), *lines]
    return answer


def _heat(judged: Judged) -> float:
    return round(max(map(max, judged.heat.hot_peak)), 6)


def _tried(
    request: HeatExposureRequest,
    climate: ClimateDays,
    solved: Heated,
    chosen: Judged,
    verdict: Verdict,
    includes: Includes,
) -> list[Question]:
    """Return the questions, all run again at once.

    An assessment tries them itself, but for those that are asked only where they decide; its
    reruns ask nothing.
    """
    open_facts = asked_of(request, climate, chosen)
    whole = "brief" not in includes
    values = [
        one.values if whole or (one.minor and "alternatives" in includes) else ()
        for one in open_facts
    ]
    told = [
        Told(((one.pointer, value),))
        for one, some in zip(open_facts, values, strict=True)
        for value in some
    ]
    found = iter(rerun(request, climate, solved, told))
    tried = [list(islice(found, len(some))) for some in values]
    return questions(open_facts, tried, verdict)


def _where(chosen: Judged) -> str:
    spot = chosen.heat.spot
    if spot.wall is not None:
        return f'on the wall "{spot.id}"'
    return "in the garage" if spot.id == "garage" else "wherever it hangs"


def _body(request: HeatExposureRequest, chosen: Judged, findings: list[Finding]) -> str:
    """Return the numbers of the headline: heat always, the cold where it decides."""
    line = (
        f"By screening estimate {kind(request, chosen)} {_where(chosen)} is {felt(chosen)} on the "
        "hottest days"
    )
    if chosen.parts is None:
        line += "."
    elif percent(chosen.parts.least):
        line += f"; {percent(chosen.parts.least)} % of its power is sure."
    else:
        line += "; it may shut off."
    cold = next(one for one in findings if one.rule == "cold-limit")
    bad = cold.verdict in (Verdict.FAIL, Verdict.UNDETERMINED)
    return f"{line} {cold.statement}" if bad and cold.limit is not None else line


def _summary(
    request: HeatExposureRequest, chosen: Judged, verdict: Verdict, asked: list[Question]
) -> str:
    sun = "" if chosen.heat.spot.id == "garage" else ", sun included"
    inside = request.limits.speak_of == "inside" and chosen.ends is not None
    like = "the air inside it is" if inside else "it gets as hot as in shaded air of"
    line = f"By estimate, {_where(chosen)} {like} {felt(chosen)} on the hottest days{sun}"
    if verdict is Verdict.FAIL:
        words = {
            "heat-limit": "that is more than the unit allows",
            "heat-power": "too little of its power is left",
            "cold-limit": "winters there are colder than the unit allows",
        }
        failed = [words[rule] for rule, one in chosen.rules.items() if one is Verdict.FAIL]
        return f"{line}: {', and '.join(failed)}."
    if verdict is Verdict.UNDETERMINED:
        cause = (
            "some facts are missing" if asked else "wind and sky decide, which no answer settles"
        )
        return f"{line}. Whether it may hang there cannot be settled yet: {cause}."
    if verdict is Verdict.CONDITIONAL:
        return f"{line}. It is expected to stand that if the conditions are met."
    return f"{line}. It is expected to stand that; this screens, and promises no temperature."


def _climate(request: HeatExposureRequest, climate: ClimateDays) -> HeatClimateUsed:
    coldest = coldest_hour(request, climate)
    return HeatClimateUsed(
        chosen_by=climate.how,  # type: ignore[arg-type]  # one of the six
        sites=[place.site for place in climate.places if place.site is not None],
        temperature_error_degf=climate.error * _F_PER_K,
        coldest_degf=None if coldest is None else degf(coldest[0]),
    )


def _barred(request: HeatExposureRequest, climate: ClimateDays) -> HeatExposureAnswer:
    found = barred(climate.barred or "climate-unknown")
    asked = [of_the_climate(climate.barred)]
    return HeatExposureAnswer(
        verdict=Verdict.UNDETERMINED,
        headline=headline(Verdict.UNDETERMINED, [], found.statement, asked),
        summary="How hot the unit gets cannot be told: the weather of the place is not known.",
        conditions=[],
        findings=[found],
        alternatives=[],
        assumptions=assumptions(request, climate),
        questions=asked,
        cautions=cautions(request),
        sources=sources(request, climate),
        basis=Basis(code_edition=None, data_edition=data_edition()),
        reference=request.reference,
        estimate="screening_and_ranking",
        climate=_climate(request, climate),
        spot=None,
        hottest=None,
        days=[],
        walls=[],
        remedies=[],
        power=[],
    )
