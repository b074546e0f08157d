"""One outage followed through: where its energy went, what the generator did."""

from __future__ import annotations

from typing import Literal

import numpy as np

from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_lanes import Starts
from service.checks.outage_runtime.year_power import MONTH_OF_DAY
from service.checks.outage_runtime.year_run import stepped_run
from service.facts import LiquidFuel
from service.physics.stepped_lanes import StepsRun

_KWH = 3.6e6


def followed_run(case: Judgement, column: YearColumn, device: int, day: int) -> StepsRun:
    """Return one device's outage that starts on a day of the year, its energies added up [J, s]."""
    starts = column.starts
    one = Starts(
        starts.first + day * column.course.steps,
        column.course.size,
        1,
        starts.late,
        starts.horizon,
    )
    some = column.devices.some(np.array([device]))
    return stepped_run(
        column.course,
        some,
        one,
        proportional=case.request.power_limit_rule == "proportional",
        controlled=bool(some.controlled[0]),
        account=True,
    )


def day_and_month(day: int) -> tuple[int, int]:
    """Return month (1 to 12) and day of the month of a day of the year, counted from 0."""
    month = int(MONTH_OF_DAY[day])
    return month + 1, day - int(np.flatnonzero(month == MONTH_OF_DAY)[0]) + 1


def _fuel_unit(case: Judgement) -> Literal["gal", "ft3"] | None:
    generator, column = case.request.generator, case.year
    if generator is None or column is None or column.course.facts.generator is None:
        return None
    return "gal" if isinstance(generator.fuel, LiquidFuel) else "ft3"


def followed(case: Judgement, column: YearColumn) -> an.OutageCourse:
    """Return one outage followed through: typical use, now, from the start charge, worst day."""
    day = column.worst_day
    run = followed_run(case, column, column.typical, day)
    month, date = day_and_month(day)

    def kwh(name: str) -> float:
        return float(getattr(run, name).reshape(-1)[0]) / _KWH

    def number(name: str) -> float:
        return float(getattr(run, name).reshape(-1)[0])

    return an.OutageCourse(
        month=month,
        day=date,
        followed_hours=column.starts.horizon / HOUR,
        dark_hours=number("dark_time") / HOUR,
        restarts=int(number("restarts")),
        served_kwh=kwh("served"),
        unserved_kwh=kwh("unserved"),
        sun_used_kwh=kwh("source_used"),
        sun_refused_kwh=kwh("refused"),
        sun_lost_kwh=kwh("lost_source"),
        generator_hours=number("generator_time") / HOUR,
        generator_starts=int(number("generator_starts")),
        generator_kwh=kwh("generator_energy"),
        fuel_used=number("fuel_used"),
        fuel_unit=_fuel_unit(case),
        refills=int(number("refills_used")),
    )
