"""One outage followed through: where its energy went, what the generator did."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_facts import NEVER
from service.checks.outage_runtime.year_lanes import Starts
from service.checks.outage_runtime.year_power import MONTH_OF_DAY
from service.checks.outage_runtime.year_run import stepped_run, stepped_spans
from service.checks.outage_runtime.year_straight import Followed, follow_straight
from service.facts import LiquidFuel

_KWH = 3.6e6


def followed_run(case: Judgement, column: YearColumn, device: int, day: int) -> Followed:
    """Return one device's outage that starts on a day of the year, its energies added up [J, s]."""
    starts, course = column.starts, column.course
    one = Starts(
        starts.first + day * course.steps, course.size, 1, starts.late, starts.horizon, starts.steps
    )
    controlled = bool(column.devices.controlled[device])
    restarts = course.facts.restart.mode != NEVER
    if not (controlled or restarts or course.facts.generator):
        return follow_straight(course, column.devices, device, one)
    energies: list[NDArray[np.float64]] = []
    run = stepped_run(
        course,
        column.devices.some(np.array([device])),
        one,
        proportional=case.request.power_limit_rule == "proportional",
        controlled=controlled,
        account=True,
        trace=energies,
    )
    account = run.account
    assert account is not None
    start = float(column.devices.start[device])
    times = np.cumsum(stepped_spans(course, one))
    return Followed(
        dark_time=float(run.dark_time.sum()),
        restarts=int(run.restarts.sum()),
        served=float(account.served.sum()),
        unserved=float(account.unserved.sum()),
        source_used=float(account.source_used.sum()),
        refused=float(account.curtailed.sum()),
        lost_source=float(account.lost_source.sum()),
        generator_energy=float(account.generator_energy.sum()),
        generator_time=float(account.generator_time.sum()),
        generator_starts=int(account.generator_starts.sum()),
        fuel_used=float(account.fuel_used.sum()),
        refills_used=float(account.refills_used.sum()),
        trace=[
            (0.0, start),
            *((float(t), float(e[0])) for t, e in zip(times, energies, strict=False)),
        ],
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
    day = column.worst_day(int(case.of("season")))
    run = followed_run(case, column, column.typical, day)
    month, date = day_and_month(day)

    return an.OutageCourse(
        month=month,
        day=date,
        followed_hours=column.starts.horizon / HOUR,
        dark_hours=run.dark_time / HOUR,
        restarts=int(run.restarts),
        served_kwh=run.served / _KWH,
        unserved_kwh=run.unserved / _KWH,
        sun_used_kwh=run.source_used / _KWH,
        sun_refused_kwh=run.refused / _KWH,
        sun_lost_kwh=run.lost_source / _KWH,
        generator_hours=run.generator_time / HOUR,
        generator_starts=int(run.generator_starts),
        generator_kwh=run.generator_energy / _KWH,
        fuel_used=run.fuel_used,
        fuel_unit=_fuel_unit(case),
        refills=int(run.refills_used),
    )
