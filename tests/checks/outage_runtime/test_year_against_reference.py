"""The year worked out anew by the scalar reference: start hours, readings, shares, worst starts."""

import math
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.columns import columns
from service.checks.outage_runtime.year_columns import YearColumn
from tests.checks.outage_runtime import year_scalar
from tests.checks.outage_runtime.asking import Body, answered, load, reading, taken, window
from tests.checks.outage_runtime.year_requests import (
    SOUTH,
    array,
    cooling,
    dated,
    generator,
    metered_use,
    own_year,
    site,
    solar,
)
from tests.oracles import outage_year_reference as reference

WEEK = 168.0
#: What the two may differ by: 0.02 h, and in twelve months' sun 0.2 %.
HOURS, ENERGY = 0.02, 0.002
_MONTHS = [30, 25, 20, 10, 5, 0, 0, 5, 10, 20, 25, 30]
_PROPANE: Body = {
    "kind": "liquid",
    "fuel": "propane",
    "tank": 4,
    "refills": 1,
    "full_load_gal_per_hour": 0.9,
    "half_load_gal_per_hour": 0.6,
}
TIERED = [
    load(200),
    load(300, name="Normal", tier="normal", windows=window(8, 23), hours_per_day=15),
    load(500, name="Comfort", tier="comfort"),
]
CONTROL: Body = {
    "comfort_shed_percent": 50,
    "normal_shed_percent": 25,
    "hysteresis_percent": 10,
}
HEATING = cooling(kind="heat_pump_heating", indoor=68, design=40, size={"kind": "rated", "kw": 1.5})

CASES: dict[str, Body] = {
    "sun on the bus": dated(),
    "sun on the cells' side": dated(solar=solar(array(coupling="dc")), climate=site("sacramento")),
    "both, shade by month": dated(
        solar=solar(
            array(3, shading_percent=_MONTHS),
            array(3, azimuth=270, tilt=10, coupling="dc", inverter_kw=2.4),
            array(1, azimuth=90, tilt=35, shading_percent=12),
        ),
        climate=site("palm_springs"),
    ),
    "upright, to the north": dated(solar=solar(array(6, tilt=90, azimuth=0))),
    "the southern half of the world": dated(
        climate=own_year(SOUTH), solar=solar(array(azimuth=0)), unit={"charge_kw": 1}
    ),
    "metered by the hour": dated(use=metered_use(), climate=own_year()),
    "metered by the half hour": dated(use=metered_use(2), solar=solar(array(3, coupling="dc"))),
    "metered by the quarter": dated(use=metered_use(4), unit={"floor_percent": 10}),
    "heating and cooling": dated(
        conditioning=[cooling(), HEATING], climate=site("fresno"), solar=solar(array(9))
    ),
    "load control": dated(rows=TIERED, load_control=CONTROL, target_tier="critical"),
    "load control without sun": dated(
        rows=TIERED, load_control=CONTROL, conditioning=[cooling(tier="comfort")], solar=None
    ),
    "a generator with a tank": dated(
        generator=generator(
            fuel=_PROPANE,
            charge_kw=2,
            quiet_hours=[{"start_hour": 22, "end_hour": 7}],
        ),
        unit={"reserve_percent": 60},
    ),
    "dark for a while, black start": dated(
        dark_allowed=12,
        restart={"mode": "pv_black_start", "least_kw": 0.4, "wait": 20},
        start_hour=21,
    ),
    "dark for a while, from the cells' side": dated(
        dark_allowed=14,
        restart={"mode": "dc_restart", "restart_charge_percent": 20},
        solar=solar(array(4, coupling="dc")),
    ),
    "dark for a while, no restart": dated(dark_allowed=6),
}
READINGS = (
    ("typical", "now", "start"),
    ("high", "end_of_warranty", "start"),
    ("low", "now", "full"),
)
WINTER = [day for day in range(365) if reference.MONTH_OF_DAY[day] not in reference.SUMMER]
#: Place of typical use, now, from the start charge among the lanes of a verdict.
TYPICAL_OF_VERDICT = 4
#: Start hours of the year that are compared: every 257th, so that all hours of the day come.
STARTS = range(11, reference.HOURS, 257)


@cache
def surveyed(name: str) -> YearColumn:
    found: YearColumn = columns(**CHECK.arguments([taken(CASES[name])]))["year"][0]
    return found


@cache
def told(name: str) -> OutageRuntimeAnswer:
    return answered(CASES[name], "survival")


@cache
def sunlight(name: str) -> tuple[list[float], list[float]]:
    return year_scalar.sun(CASES[name])


@cache
def year(name: str, level: str) -> Any:
    return year_scalar.steps(CASES[name], level, sunlight(name))


def unbroken(name: str, level: str, unit: reference.Unit, start: float, hours: float) -> float:
    """Return the hours until the bus is first lost, no more than are followed."""
    at_once = replace(unit, dark_allowed=0.0)
    lit = year_scalar.on_bus(CASES[name])
    return min(reference.follow(year(name, level), start, hours, at_once, lit).held, hours)


@pytest.mark.parametrize("name", CASES)
def test_start_hours_of_the_survey(name: str) -> None:
    """35 starts spread over the year, from the start charge and from full, typical use, now.

    Carried means without a break, whatever time in the dark is put up with.
    """
    survey = surveyed(name).survey()
    for row, charge in enumerate(("start", "full")):
        unit = year_scalar.unit_of(CASES[name], "now", charge)
        for start in STARTS:
            ours = survey.held[row, start] / 3600
            theirs = unbroken(name, "typical", unit, start, WEEK)
            assert ours == pytest.approx(theirs, abs=HOURS, rel=ENERGY), (charge, start)


@pytest.mark.parametrize("name", CASES)
def test_readings_are_those_of_the_deciding_day(name: str) -> None:
    """Every winter day is started at the stated hour: the shortest of them is the reading."""
    body = CASES[name]
    for level, capacity, charge in READINGS:
        unit, shortest = year_scalar.unit_of(body, capacity, charge), WEEK
        for day in WINTER:
            start = 24 * day + body["start_hour"]
            shortest = min(shortest, unbroken(name, level, unit, start, shortest))
        ours = reading(told(name), f"{level}/{capacity}/{charge}")
        assert ours.hours_to_dark == pytest.approx(shortest, abs=HOURS), (level, capacity, charge)


ALLOWED = [name for name, body in CASES.items() if body["dark_allowed"]]


@pytest.mark.parametrize("name", ALLOWED)
def test_time_in_the_dark_that_is_put_up_with(name: str) -> None:
    """What the target is held against: when more than that was dark, every ninth day's start."""
    body, column = CASES[name], surveyed(name)
    unit, lit = year_scalar.unit_of(body, "now", "start"), year_scalar.on_bus(body)
    typical = column.held[TYPICAL_OF_VERDICT] / 3600
    for day in range(0, 365, 9):
        start = 24 * day + body["start_hour"]
        theirs = reference.follow(year(name, "typical"), start, WEEK, unit, lit)
        assert typical[day] == pytest.approx(min(theirs.held, WEEK), abs=HOURS, rel=ENERGY), day


@pytest.mark.parametrize("name", CASES)
def test_the_sun_of_the_year(name: str) -> None:
    """Energy to be had in the year against pvlib's position and transposition."""
    answered_year = told(name).year
    assert answered_year is not None
    total = sum(map(sum, sunlight(name)))
    if answered_year.sun is None:
        assert total == 0
    else:
        assert answered_year.sun.kwh == pytest.approx(total, rel=ENERGY)


@pytest.mark.parametrize("name", CASES)
def test_shares_percentiles_and_worst_starts_are_those_of_the_start_hours(name: str) -> None:
    """Counted anew from the hours held by every start."""
    survey, found = surveyed(name).survey(), told(name).year
    assert found is not None
    hours = [sorted(row) for row in (survey.held / 3600).tolist()]
    for share in found.shares:
        counted = [sum(one >= share.hours - 1e-6 for one in row) / 87.6 for row in hours]
        assert [share.from_start_percent, share.from_full_percent] == pytest.approx(counted)
    for percentile in found.percentiles:
        at = math.floor(percentile.percent / 100 * reference.HOURS)
        both = [percentile.from_start_hours, percentile.from_full_hours]
        assert both == pytest.approx([row[at] for row in hours])
    for row, worst in enumerate(found.worst_starts):
        day = sum(reference.MONTH_DAYS[: worst.month - 1]) + worst.day - 1
        assert worst.held_hours == pytest.approx(hours[row][0])
        assert survey.held[row, 24 * day + worst.hour] / 3600 == pytest.approx(hours[row][0])
    by_month, by_hour = found.by_month, found.by_start_hour
    assert isinstance(by_month, list)
    assert isinstance(by_hour, list)
    for group, size in [(one, reference.MONTH_DAYS[one.place - 1] / 365) for one in by_month]:
        month = np.repeat(np.array(reference.MONTH_OF_DAY) + 1, 24) == group.place
        day_share = float((survey.held[0, month] >= 24 * 3600 - 1e-6).mean()) * 100
        (of_day,) = [one for one in group.shares if one.hours == 24]
        assert of_day.from_start_percent == pytest.approx(day_share)
        assert month.mean() == pytest.approx(size)
    for group in by_hour:
        full_share = float((survey.held[1, group.place :: 24] >= 12 * 3600 - 1e-6).mean()) * 100
        (of_day,) = [one for one in group.shares if one.hours == 12]
        assert of_day.from_full_percent == pytest.approx(full_share)
