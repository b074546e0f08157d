"""From temperatures to the answer, in words."""

from __future__ import annotations

from math import floor

from service.check import Arrays, Includes
from service.checks.heat_exposure.answer import HeatClimateUsed, HeatExposureAnswer
from service.checks.heat_exposure.assumptions import assumptions
from service.checks.heat_exposure.cautions import cautions
from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.climate_questions import of_the_climate
from service.checks.heat_exposure.cold_end import coldest_hour
from service.checks.heat_exposure.columns import Heated
from service.checks.heat_exposure.findings_of import barred, conditions_of, findings_of, up
from service.checks.heat_exposure.other_readings import alternatives
from service.checks.heat_exposure.other_sites import other_sites
from service.checks.heat_exposure.questions import Asked, asked_of, questions
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
    # The reruns of an assessment try the questions themselves, and read no alternatives.
    whole = "brief" not in includes
    asked = _tried(request, climate, columns["solved"][row], chosen, verdict, reruns=whole)
    hangs_on = conditions_of(request, climate, chosen) if verdict is Verdict.CONDITIONAL else []
    answer = HeatExposureAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(chosen), asked),
        summary=_summary(chosen, verdict),
        conditions=hangs_on,
        findings=worst_first(with_sources(findings_of(request, climate, chosen), request, climate)),
        alternatives=[
            *alternatives(request, climate, judged, chosen),
            *other_sites(request, climate, chosen, verdict),
        ]
        if whole or "alternatives" in includes
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
        hottest=band(chosen.heat.hot_peak),
        days=days_of(request, climate, chosen.heat),
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
    *,
    reruns: bool,
) -> list[Question]:
    """Return the questions, all run again at once."""
    open_facts = asked_of(request, climate, chosen)
    if not reruns:
        return questions(open_facts, [[] for _ in open_facts], verdict)
    told = [Told(((one.pointer, value),)) for one in open_facts for value in one.values]
    found = rerun(request, climate, solved, told)
    return questions(open_facts, _apart(open_facts, found), verdict)


def _apart(asked: list[Asked], found: list[Verdict]) -> list[list[Verdict]]:
    """Return the verdicts of each question's values."""
    apart, first = [], 0
    for one in asked:
        apart.append(found[first : first + len(one.values)])
        first += len(one.values)
    return apart


def _where(chosen: Judged) -> str:
    spot = chosen.heat.spot
    if spot.wall is not None:
        return f"on the wall {spot.id}"
    return "in the garage" if spot.id == "garage" else "wherever it hangs"


def _felt(chosen: Judged) -> str:
    peak = chosen.heat.hot_peak
    return f"{floor(degf(min(map(min, peak))))} to {up(max(map(max, peak)))} degF"


def _body(chosen: Judged) -> str:
    where = _where(chosen)
    line = f"{where[0].upper()}{where[1:]} it feels {_felt(chosen)} on the hottest days"
    if chosen.parts is None:
        return f"{line}."
    return f"{line}; at least {floor(100 * chosen.parts.shown_low + 1e-6)} % of its power is left."


def _summary(chosen: Judged, verdict: Verdict) -> str:
    felt = (
        f"By estimate the unit feels {_felt(chosen)} {_where(chosen)} on the hottest days, sun "
        "included"
    )
    if verdict is Verdict.FAIL:
        return f"{felt}: more than it allows, or too little power is left."
    if verdict is Verdict.UNDETERMINED:
        return f"{felt}; whether that is too hot cannot be settled yet: some facts are missing."
    tail = ", which it is expected to stand, if the conditions are met"
    return f"{felt}{tail if verdict is Verdict.CONDITIONAL else ', which it is expected to stand'}."


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
