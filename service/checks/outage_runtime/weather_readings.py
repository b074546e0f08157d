"""The same outage on a design day and on an extreme day, beside the typical year."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT
from service.checks.outage_runtime.weather_units import cools, design_of, extreme_of
from service.checks.outage_runtime.wording import hours
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_course import YearCourse, units_apart
from service.checks.outage_runtime.year_facts import WeatherUnit
from service.checks.outage_runtime.year_power import DAYS, MONTH_OF_DAY
from service.checks.outage_runtime.year_run import run_devices
from service.physics.degree_model import design_day

Floats = NDArray[np.float64]
_ZERO_CELSIUS = 273.15
_STRICT = LAYOUT.readings[2, END_OF_WARRANTY, 0]
_TYPICAL = LAYOUT.readings[1, 0, 0]


@dataclass(frozen=True, slots=True)
class _Days:
    """Days of one temperature course: peak [K], its hours of the year [K], and their month."""

    peak: float
    air: Floats
    month: int


def _months(air: Floats) -> NDArray[np.float64]:
    by_day = air.reshape(DAYS, 24).mean(axis=1)
    return np.array([by_day[month == MONTH_OF_DAY].mean() for month in range(12)])


def _days(air: Floats, units: tuple[WeatherUnit, ...], *, extreme: bool) -> _Days:
    """Return the design or the extreme day, repeated in the hottest or the coldest month."""
    hot = any(cools(unit) for unit in units)
    chosen = [unit for unit in units if cools(unit) == hot]
    means = _months(air)
    month = int(means.argmax() if hot else means.argmin())
    by_day = air.reshape(DAYS, 24)[month == MONTH_OF_DAY]
    swing = float((by_day.max(axis=1) - by_day.min(axis=1)).mean())
    of = extreme_of if extreme else design_of
    ends = [of(unit, air) for unit in chosen]
    peak = max(ends) if hot else min(ends)
    mean = peak - swing / 2 if hot else peak + swing / 2
    year = air.copy().reshape(DAYS, 24)
    year[:] = design_day(mean, swing)
    return _Days(peak, year.reshape(-1), month)


def _held(
    case: Judgement, column: YearColumn, course: YearCourse, month: int | None
) -> tuple[float, float, bool]:
    """Return the shortest time at high use aged, at typical use now, and whether one is a floor."""
    devices = column.devices.some(np.array([column.device(_STRICT), column.device(_TYPICAL)]))
    run = run_devices(course, devices, column.starts, proportional=False)
    held = np.minimum(run.held, run.overload)
    for off in (run.normal_off, run.comfort_off)[: case.tier]:
        held = np.minimum(held, off)
    if month is not None:
        held = held[:, month == MONTH_OF_DAY]
    shortest = np.minimum(held.min(axis=1), column.starts.horizon)
    return float(shortest[0]), float(shortest[1]), bool((shortest >= column.starts.horizon).any())


def _reading(
    weather: an.WeatherWord, days: _Days | None, held: tuple[float, float, bool], words: str
) -> an.WeatherReading:
    strict, typical, least = held
    return an.WeatherReading(
        weather=weather,
        outdoor_f=None if days is None else (days.peak - _ZERO_CELSIUS) * 1.8 + 32.0,
        high_use_hours=strict / HOUR,
        typical_hours=typical / HOUR,
        at_least=least,
        statement=f"{words}: {hours(strict)} at high use aged, {hours(typical)} at typical use.",
    )


def _all(case: Judgement, column: YearColumn) -> Iterator[an.WeatherReading]:
    course = column.course
    units, climate = course.facts.units, course.climate
    if not units or climate is None:
        return
    air = climate.weather.dry_bulb
    yield _reading(
        "typical_year",
        None,
        _held(case, column, course, None),
        "From the worst day of the typical year",
    )
    names: tuple[tuple[an.WeatherWord, bool, str], ...] = (
        ("design_day", False, "Through days at the design temperature"),
        ("extreme_day", True, "Through days at the extreme temperature"),
    )
    for name, extreme, words in names:
        days = _days(air, units, extreme=extreme)
        yield _reading(
            name,
            days,
            _held(case, column, units_apart(course, days.air), days.month),
            words,
        )


def weather_readings(case: Judgement, column: YearColumn) -> list[an.WeatherReading]:
    """Return the outage in the typical year, on design days and on extreme days, side by side.

    The sun is that of the typical year's own hottest or coldest month.
    """
    return list(_all(case, column))
