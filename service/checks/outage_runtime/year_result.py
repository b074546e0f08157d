"""The year told: shares carried, percentiles, the worst starts, the poor spell, the sun."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.check import Includes
from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.climate_said import climate_used
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.readings import start_hour
from service.checks.outage_runtime.ride_through_said import ride_through
from service.checks.outage_runtime.weather_readings import weather_readings
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_followed import day_and_month, followed
from service.checks.outage_runtime.year_power import DAYS, MONTH_OF_DAY
from service.checks.outage_runtime.year_survey import HOUR, SPANS, Survey

Floats = NDArray[np.float64]
_KWH = 3.6e6
_DAY_HOURS = 24
_NOON = 12
#: Percentiles of the start hours that are shown.
_PERCENTILES = (1.0, 5.0, 25.0, 50.0)
_STARTS: tuple[an.StartWord, ...] = ("start_charge", "full")


def _shares(survey: Survey, at: NDArray[np.int64] | slice) -> list[an.ShareCarried]:
    found = []
    for span in SPANS:
        if span * HOUR <= survey.horizon + 1e-6:
            share = survey.carried(span)[:, at].mean(axis=1) * 100.0
            found.append(
                an.ShareCarried(
                    hours=float(span),
                    from_start_percent=float(share[0]),
                    from_full_percent=float(share[1]),
                )
            )
    return found


def _percentiles(survey: Survey) -> list[an.HeldPercentile]:
    ordered = np.sort(survey.held, axis=1)
    found = []
    for percent in _PERCENTILES:
        at = int(percent / 100.0 * ordered.shape[1])
        held = ordered[:, at]
        found.append(
            an.HeldPercentile(
                percent=percent,
                from_start_hours=float(held[0]) / HOUR,
                from_full_hours=float(held[1]) / HOUR,
                at_least=bool((held >= survey.horizon).any()),
            )
        )
    return found


def _after(values: Floats, steps: int, first: int, count: int) -> float:
    """Return the energy of the steps that follow an hour of the year, the year wrapping [J]."""
    at = (first * steps // _DAY_HOURS + np.arange(count)) % values.size
    return float(values[at].sum()) * 86_400.0 / steps


def _why(column: YearColumn, first: int, lasted: float) -> str:
    """Return what makes a start the worst: load and sun until the end, against the usual."""
    course = column.course
    count = max(int(np.ceil(lasted / course.step)), 1)
    load = course.load[1].sum(axis=0)
    sun = course.sun(column.devices.sun[column.typical]).sum(axis=0)
    usual = count * course.step
    parts = []
    for name, values in (("the loads ask for", load), ("the sun gives", sun)):
        if values.any():
            found = _after(values, course.steps, first, count) / _KWH
            mean = float(values.mean()) * usual / _KWH
            parts.append(f"{name} {found:.1f} kWh where {mean:.1f} kWh are usual for as long")
    return f"Until then {' and '.join(parts)}." if parts else "Nothing draws power."


def _why_worst(column: YearColumn, survey: Survey, row: int) -> str:
    first = survey.worst(row)
    lasted = float(survey.held[row, first])
    if lasted >= survey.horizon:
        return "No start hour of the year ends it within the time that is followed."
    same = float(np.ptp(survey.held[row])) < 1.0
    words = "Every start hour is held alike. " if same else ""
    words += _why(column, first, lasted)
    if column.course.facts.generator is not None:
        words += " The generator's hours and fuel stand under `course`."
    return words


def _worst_starts(column: YearColumn, survey: Survey) -> list[an.WorstStart]:
    found = []
    for row, word in enumerate(_STARTS):
        first = survey.worst(row)
        month, day = day_and_month(first // _DAY_HOURS)
        lasted = float(survey.held[row, first])
        found.append(
            an.WorstStart(
                start=word,
                month=month,
                day=day,
                hour=first % _DAY_HOURS,
                held_hours=lasted / HOUR,
                at_least=lasted >= survey.horizon,
                why=_why_worst(column, survey, row),
            )
        )
    return found


def _sun_by_day(column: YearColumn, sun: Floats) -> Floats:
    course = column.course
    total = sun.sum(axis=0).reshape(DAYS, course.steps).sum(axis=1)
    return np.asarray(total * course.step / _KWH)


def _poor_spell(case: Judgement, column: YearColumn, survey: Survey) -> an.PoorSpell | None:
    """Return how an outage fares that starts on the first of the three least sunny days."""
    by_day = _sun_by_day(column, column.course.sun(column.devices.sun[column.typical]))
    if not by_day.any():
        return None
    spells = by_day + np.roll(by_day, -1) + np.roll(by_day, -2)
    poorest = int(spells.argmin())
    month, day = day_and_month(poorest)
    # An outage of the afternoon or evening meets the whole spell if it starts the day before.
    hour = int(start_hour(case))
    first = poorest * _DAY_HOURS + hour - (_DAY_HOURS if hour >= _NOON else 0)
    held = survey.held[:, first % survey.held.shape[1]]
    return an.PoorSpell(
        month=month,
        day=day,
        sun_kwh_a_day=float(spells.min()) / 3.0,
        year_kwh_a_day=float(by_day.mean()),
        from_start_hours=float(held[0]) / HOUR,
        from_full_hours=float(held[1]) / HOUR,
        at_least=bool((held >= survey.horizon).any()),
    )


def _sun_of_year(column: YearColumn) -> an.SunOfYear | None:
    sun, course = column.course.facts.sun, column.course
    if sun is None:
        return None
    ends = []
    for end in (sun.yields.worse, sun.yields.value, sun.yields.better):
        parts = column.devices.sun[column.typical].copy()
        parts[2] = end
        ends.append(float(_sun_by_day(column, course.sun(parts)).sum()))
    return an.SunOfYear(
        low_kwh=ends[0],
        kwh=ends[1],
        high_kwh=ends[2],
        statement="The year's sun as the request states it."
        if sun.yields.worse == sun.yields.better
        else (
            "The typical years lie on the low side of newer data: a year's yield may be some 3 % "
            "below to 12 % above them, more where the climate site is far from the home; one "
            "typical year smooths spells, so the worst of twenty real years is worse."
        ),
    )


def _statement(case: Judgement) -> str:
    begin = f"{start_hour(case):g}:00" if start_hour(case) % 1 == 0 else f"{start_hour(case):g} h"
    return (
        "Shares, percentiles and worst starts come from 8,760 start hours at typical use with the "
        "battery as it is now, from the start charge and from full. Every other reading and "
        f"alternative takes 365 starts, one a day at {begin}, and stands for the day that decides: "
        "the worst, unless a lower share of starts is asked for. Neighbouring start hours share "
        "their weather: a year is worth about 365 independent starts, and one typical year is no "
        "record of extremes. Carried means without a break."
        + (
            " Load control, generator and restarts are followed through means of the hour."
            if case.year is not None and case.year.course.facts.hourly
            else ""
        )
    )


def year_result(case: Judgement, includes: Includes) -> an.YearResult | None:
    """Return the year told; None where every day of a season is alike."""
    column = case.year
    if column is None:
        return None
    survey = column.survey()
    answered = an.YearResult(
        statement=_statement(case),
        climate=climate_used(column.answering),
        start_hours=survey.held.shape[1],
        independent_starts=DAYS,
        starts_of_readings=DAYS,
        shares=_shares(survey, slice(None)),
        percentiles=_percentiles(survey),
        worst_starts=_worst_starts(column, survey),
        poor_spell=_poor_spell(case, column, survey),
        sun=_sun_of_year(column),
        ride_through=ride_through(survey),
        weather=weather_readings(case, column),
        course=followed(case, column),
    )
    if "survival" in includes:
        hour = np.arange(survey.held.shape[1])
        month = MONTH_OF_DAY[hour // _DAY_HOURS]
        answered.by_month = [
            an.StartGroup(place=m + 1, shares=_shares(survey, np.flatnonzero(month == m)))
            for m in range(12)
        ]
        answered.by_start_hour = [
            an.StartGroup(place=h, shares=_shares(survey, np.flatnonzero(hour % 24 == h)))
            for h in range(_DAY_HOURS)
        ]
    return answered
