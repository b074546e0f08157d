"""Every rule of a spot in one sentence, and what its verdict hangs on."""

from __future__ import annotations

from math import ceil, floor

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.cold_end import coldest_hour
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import degf
from service.checks.heat_exposure.verdicts import Judged
from service.findings import Finding, Verdict

#: Highest limit that a request may state [degF].
_MOST_F = 212.0
_BARRED = {
    "climate-unknown": "Nothing is known of the weather there.",
    "climate-too-far": "No climate site lies within 200 km of the place.",
    "climate-far": "The nearest climate site is far or on other ground: accept it, or name one.",
}


def up(kelvin: float, limit: float | None = None) -> str:
    """Return a temperature in degrees Fahrenheit, rounded up, but not over a limit that it holds.

    Parameters
    ----------
    kelvin : float
        [K].
    limit : float, optional
        [degF].
    """
    found = degf(kelvin) - 1e-6
    if limit is None or found > limit or ceil(found) <= limit:
        return f"{ceil(found)}"
    return f"{min(ceil(found * 10.0) / 10.0, limit):g}"


def down(kelvin: float, limit: float | None = None) -> str:
    """Return the same rounded down, but not under a limit that it holds [K, degF]."""
    found = degf(kelvin) + 1e-6
    if limit is None or found < limit or floor(found) >= limit:
        return f"{floor(found)}"
    return f"{max(floor(found * 10.0) / 10.0, limit):g}"


def felt(judged: Judged) -> str:
    """Return the band of the hottest days, of what is held against the limits, in words."""
    ends, peak = judged.ends, judged.heat.hot_peak
    low, high = (
        (min(map(min, peak)), max(map(max, peak)))
        if ends is None
        else (ends.shown_low, ends.shown_high)
    )
    return f"{down(low)} to {up(high)} degF"


def kind(request: HeatExposureRequest, judged: Judged) -> str:
    """Return what temperature that band is of."""
    if request.limits.speak_of == "inside" and judged.ends is not None:
        return "the air inside the unit"
    return "the equivalent ambient temperature"


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
    what = kind(request, judged)
    words = f"On the hottest days {what} is {felt(judged)}, from wind to calm"
    if degf(ends.most) <= _MOST_F:
        words += f"; {up(ends.most, limit)} degF with all that is not known at its hot end"
    else:
        words += "; too much is not known to give it an upper end"
    if limit is None:
        words = f"{words}. The highest temperature that the unit allows was not stated."
        shown = degf(ends.shown_high)
        return Finding(rule=rule, verdict=verdict, statement=words, actual=shown, unit="degF")
    held = {Verdict.PASS: ends.most, Verdict.FAIL: ends.shown_low}.get(verdict, ends.most)
    return Finding(
        rule=rule,
        verdict=verdict,
        statement=f"{words}. {limit:g} degF is allowed.",
        actual=degf(held),
        limit=limit,
        unit="degF",
    )


def _power(request: HeatExposureRequest, judged: Judged) -> Finding:
    rule, parts, outage = "heat-power", judged.parts, request.outage
    verdict = judged.rules[rule]
    if parts is None:
        words = (
            "What heat leaves of its power is not known: no derating curve was stated."
            if request.derating is None
            else "What heat leaves of its power is not known: the curve speaks of the air inside, "
            "and what the unit's own heat adds is not known."
        )
        return Finding(rule=rule, verdict=verdict, statement=words)
    low, high, least = (percent(part) for part in (parts.shown_low, parts.shown_high, parts.least))
    shown = f"{low}" if low == high else f"{low} to {high}"
    words = f"In the worst hour of the outage on the hottest days it gives {shown} % of its power"
    words += "." if least == low else f"; {least} % with all that is not known at its hot end."
    if not outage.need_kw:
        return Finding(
            rule=rule, verdict=verdict, statement=words, actual=float(least), limit=100.0, unit="%"
        )
    if outage.rated_kw is None:
        words += " Its rated power was not stated, so nothing says whether that is enough."
        return Finding(rule=rule, verdict=verdict, statement=words, limit=outage.need_kw, unit="kW")
    held = {Verdict.PASS: parts.least, Verdict.FAIL: parts.shown_high}.get(verdict, parts.least)
    words += f" {outage.need_kw:g} kW is needed throughout"
    small = outage.rated_kw < outage.need_kw
    words += f"; it is rated at {outage.rated_kw:g} kW, too little in any air." if small else "."
    return Finding(
        rule=rule,
        verdict=verdict,
        statement=words,
        actual=held * outage.rated_kw,
        limit=outage.need_kw,
        unit="kW",
    )


def percent(part: float) -> int:
    """Return a part in whole hundredths, rounded down [1]."""
    return floor(100.0 * part + 1e-6)


def _cold(request: HeatExposureRequest, climate: ClimateDays, judged: Judged) -> Finding:
    rule, coldest, limit = "cold-limit", coldest_hour(request, climate), request.limits.lowest
    verdict = judged.rules[rule]
    if coldest is None:
        words = "A design day says nothing of winter."
        return Finding(rule=rule, verdict=verdict, statement=words, limit=limit, unit="degF")
    places = "of its coldest place " if len(climate.places) > 1 else ""
    words = (
        f"The coldest hour of a typical year {places}is at {down(coldest[0], limit)} degF; a hard "
        f"winter may bring {down(coldest[1], limit)} degF."
    )
    words += (
        " The lowest temperature that the unit allows was not stated."
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
    if judged.rules["heat-power"] is Verdict.CONDITIONAL and judged.parts is not None:
        part = percent(judged.parts.least)
        found.append(
            f"what runs at once on the hottest days takes no more than {part} % of its power"
        )
    if judged.rules["cold-limit"] is Verdict.CONDITIONAL:
        where = "the place" if judged.heat.spot.wall is not None else "the garage"
        lowest = request.limits.lowest
        found.append(
            f"the coldest hour there is known to stay above {lowest:g} degF"
            if coldest_hour(request, climate) is None
            else f"{where} is kept above {lowest:g} degF in a hard winter"
        )
    return found
