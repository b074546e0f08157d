"""Every rule of a spot in one sentence, and what its verdict hangs on."""

from __future__ import annotations

from math import ceil, floor

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.cold_end import coldest_hour
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import degf
from service.checks.heat_exposure.verdicts import Judged
from service.findings import Finding, Verdict

_BARRED = {
    "climate-unknown": "Nothing is known of the weather there.",
    "climate-too-far": "No climate site lies within 200 km of the place.",
    "climate-far": "The nearest climate site is far or on other ground: accept it, or name one.",
}


def up(kelvin: float) -> int:
    """Return a temperature in whole degrees Fahrenheit, rounded up [K]."""
    return ceil(degf(kelvin) - 1e-6)


def barred(rule: str) -> Finding:
    """Return why no weather answers."""
    return Finding(rule=rule, verdict=Verdict.UNDETERMINED, statement=_BARRED[rule])


def findings_of(
    request: HeatExposureRequest, climate: ClimateDays, judged: Judged
) -> list[Finding]:
    """Return the rules of a spot."""
    return [_heat(request, judged), _power(request, judged), _cold(request, climate, judged)]


def _heat(request: HeatExposureRequest, judged: Judged) -> Finding:
    rule, ends, limit = "heat-limit", judged.ends, request.limits.highest
    verdict = judged.rules[rule]
    if ends is None:
        words = (
            "The limits speak of the air inside, and what the unit's own heat adds is not known."
        )
        return Finding(rule=rule, verdict=verdict, statement=words)
    feels = (
        f"On the hottest days it feels {floor(degf(ends.shown_low))} to {up(ends.shown_high)} "
        f"degF, sun and lag included; at most {up(ends.most)} degF by all that is not known"
    )
    if limit is None:
        words = f"{feels}. The highest temperature that it allows was not stated."
        shown = degf(ends.shown_high)
        return Finding(rule=rule, verdict=verdict, statement=words, actual=shown, unit="degF")
    held = {Verdict.PASS: ends.most, Verdict.FAIL: ends.shown_low}.get(verdict, ends.shown_high)
    return Finding(
        rule=rule,
        verdict=verdict,
        statement=f"{feels}. {limit:g} degF is allowed.",
        actual=degf(held),
        limit=limit,
        unit="degF",
    )


def _power(request: HeatExposureRequest, judged: Judged) -> Finding:
    rule, parts, outage = "heat-power", judged.parts, request.outage
    verdict = judged.rules[rule]
    if parts is None:
        words = "What heat leaves of its power is not known: no derating curve that can be read."
        return Finding(rule=rule, verdict=verdict, statement=words)
    low, high, least = (
        floor(100.0 * part + 1e-6) for part in (parts.shown_low, parts.shown_high, parts.least)
    )
    shown = f"{low}" if low == high else f"{low} to {high}"
    words = (
        f"In the outage on the hottest days it gives at least {shown} % of its power; "
        f"{least} % at the worst of all that is not known."
    )
    if outage.need_kw is None:
        return Finding(
            rule=rule, verdict=verdict, statement=words, actual=float(low), limit=100.0, unit="%"
        )
    if outage.rated_kw is None:
        words += " Its rated power was not stated, so nothing says whether that is enough."
        return Finding(rule=rule, verdict=verdict, statement=words, limit=outage.need_kw, unit="kW")
    held = {Verdict.PASS: parts.least, Verdict.FAIL: parts.shown_high}.get(verdict, parts.shown_low)
    return Finding(
        rule=rule,
        verdict=verdict,
        statement=f"{words} {outage.need_kw:g} kW is needed throughout.",
        actual=held * outage.rated_kw,
        limit=outage.need_kw,
        unit="kW",
    )


def _cold(request: HeatExposureRequest, climate: ClimateDays, judged: Judged) -> Finding:
    rule, coldest, limit = "cold-limit", coldest_hour(request, climate), request.limits.lowest
    verdict = judged.rules[rule]
    if coldest is None:
        words = "A design day says nothing of winter."
        return Finding(rule=rule, verdict=verdict, statement=words, limit=limit, unit="degF")
    words = (
        f"The coldest hour of a typical year has {floor(degf(coldest[0]))} degF; a hard winter may "
        f"bring {floor(degf(coldest[1]))} degF."
    )
    words += (
        " The lowest temperature that it allows was not stated."
        if limit is None
        else f" {limit:g} degF is allowed."
    )
    held = coldest[1] if verdict is Verdict.PASS else coldest[0]
    return Finding(
        rule=rule, verdict=verdict, statement=words, actual=degf(held), limit=limit, unit="degF"
    )


def conditions_of(request: HeatExposureRequest, climate: ClimateDays, judged: Judged) -> list[str]:
    """Return what must be so where a spot's verdict hangs on it."""
    found = []
    if judged.rules["heat-limit"] is Verdict.CONDITIONAL:
        found.append(
            f"the air at the unit, sun included, stays at or below {request.limits.highest:g} degF "
            "on the hottest afternoons"
        )
    if judged.rules["heat-power"] is Verdict.CONDITIONAL and judged.parts is not None:
        found.append(_power_condition(request, judged.parts.least))
    if judged.rules["cold-limit"] is Verdict.CONDITIONAL:
        coldest = coldest_hour(request, climate)
        found.append(
            "the coldest hour there is known to lie within its limits"
            if coldest is None
            else f"it allows {floor(degf(coldest[1]))} degF, or is kept warmer"
        )
    return found


def _power_condition(request: HeatExposureRequest, least: float) -> str:
    if request.outage.need_kw is not None:
        return "it gives what is needed on the hottest afternoons, as measured there"
    percent = floor(100.0 * least + 1e-6)
    if percent == 0:
        return "what must run does without it in a heat wave, or it is shaded or hung cooler"
    return f"what runs at once on the hottest days takes no more than {percent} % of its power"
