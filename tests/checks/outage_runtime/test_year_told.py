"""What the year tells beside its shares: riding through, the generator's course, other weather."""

from functools import cache
from typing import Any

import numpy as np
import pytest
from scipy import stats

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.columns import columns
from service.checks.outage_runtime.year_answer import OutageCourse, WeatherReading, YearResult
from service.published import load as table
from tests.checks.outage_runtime import year_scalar
from tests.checks.outage_runtime.asking import Body, answered, load, reading, taken
from tests.checks.outage_runtime.year_requests import cooling, dated, generator, site, solar
from tests.oracles import outage_year_reference as reference

WEEK = 168.0


def year_of(body: Body) -> YearResult:
    found = answered(body).year
    assert found is not None
    return found


SUNNY = dated(unit={"energy": {"kind": "usable", "kwh": 14}, "charge_kw": 5})
KINDS = tuple(table("outage_kinds").rows)


@cache
def sunny() -> tuple[OutageRuntimeAnswer, Any]:
    survey = columns(**CHECK.arguments([taken(SUNNY)]))["year"][0].survey()
    return answered(SUNNY), survey.held / 3600


@pytest.mark.parametrize("kind", KINDS)
def test_the_chance_of_riding_through(kind: str) -> None:
    """Mean over all starts of the chance that an outage of the kind is over by then, with scipy.

    What outlasts the week that is followed counts for the chance of a week at least, and for 1 at
    most. Lognormal with mean m and variation c: s^2 = ln(1 + c^2), median m exp(-s^2/2).
    """
    answer, held = sunny()
    assert answer.year is not None
    row = table("outage_kinds").row(kind)
    mean = float(row["mean_h"])
    (told,) = [one for one in answer.year.ride_through if one.model == kind]
    starts = (
        (told.from_start_low_percent, told.from_start_high_percent),
        (told.from_full_low_percent, told.from_full_high_percent),
    )
    for (low, high), hours in zip(starts, held, strict=True):
        lasts = hours >= WEEK - 1e-9
        if row["cv"] == "-":
            share = float((hours >= mean - 1e-6).mean()) * 100
            assert (low, high) == pytest.approx((share, share))
            continue
        spread = np.log(1 + float(row["cv"]) ** 2)
        chance = stats.lognorm.cdf(hours, np.sqrt(spread), scale=mean * np.exp(-spread / 2))
        assert low == pytest.approx(chance.mean() * 100, rel=1e-9)
        assert high == pytest.approx(np.where(lasts, 1.0, chance).mean() * 100, rel=1e-9)
        assert lasts.any(), "some outlast what is followed"


def test_planned_shutoffs_are_ridden_through_as_the_shares_say() -> None:
    year = year_of(SUNNY)
    shares = {share.hours: share for share in year.shares}
    for hours in (24, 48, 72):
        (told,) = [one for one in year.ride_through if one.model == f"shutoff_{hours}"]
        assert told.from_start_low_percent == pytest.approx(shares[hours].from_start_percent)
        assert told.from_full_high_percent == pytest.approx(shares[hours].from_full_percent)


# Ten kilowatt-hours, both ways 0.9, no idle draw, 500 W, from 40 %; a generator of 4 kW from 20 %
# to 80 %. The load takes 0.5/0.9 kW from the cells, 10.8 h for 6 kWh; the generator puts in
# 0.9 (4 - 0.5) = 3.15 kW, 40/21 h for 6 kWh. It first starts after 2 kWh, 3.6 h.
_FALL, _RISE = 6 / (0.5 / 0.9), 6 / (0.9 * 3.5)
_FIRST = 2 / (0.5 / 0.9)
#: A gallon lasts: 0.9 gal/h at full load, which it always runs at.
_BURN = 0.9
_FLAT = {"losses": {"kind": "round_trip", "efficiency": 0.81, "idle_watts": 0}}


def _fuelled(tank: float, refills: int) -> Body:
    fuel: Body = {"kind": "liquid", "fuel": "diesel", "tank": tank, "refills": refills}
    fuel |= {"full_load_gal_per_hour": _BURN, "half_load_gal_per_hour": 0.6}
    engine = generator(rated_kw=4, fuel=fuel)
    return dated(rows=[load(500)], unit=_FLAT, solar=None, climate=None, generator=engine)


def course(body: Body) -> OutageCourse:
    found = year_of(body).course
    assert found is not None
    return found


def test_a_generator_runs_the_closed_form_part_of_the_time() -> None:
    """Duty x = (L/eta) / (L/eta + eta (g - L)) over whole cycles: 0.5556 / 3.7056 = 0.1499.

    In the 164.4 h after its first start there are twelve cycles and one more run: 13 starts.
    """
    followed = course(_fuelled(50, 0))
    duty = (0.5 / 0.9) / (0.5 / 0.9 + 0.9 * 3.5)
    cycles = int((WEEK - _FIRST) // (_FALL + _RISE))
    assert cycles == 12
    hours = cycles * (_FALL + _RISE) * duty + _RISE
    assert followed.generator_hours == pytest.approx(hours, abs=1e-6)
    assert followed.generator_starts == cycles + 1
    assert followed.generator_kwh == pytest.approx(4 * hours, abs=1e-6)
    assert followed.fuel_used == pytest.approx(_BURN * hours, abs=1e-6)
    assert followed.fuel_unit == "gal"
    assert followed.dark_hours == 0
    assert followed.served_kwh == pytest.approx(84, abs=1e-6)


def test_refills_are_counted() -> None:
    """24.76 h at 0.9 gal/h are 22.29 gal: the tank of 5 gal and four refills."""
    followed = course(_fuelled(5, 9))
    assert followed.refills == 4
    assert followed.fuel_used == pytest.approx(_BURN * 13 * _RISE, abs=1e-6)


def test_a_tank_that_runs_dry_ends_it() -> None:
    """5 gal and one refill last 100/9 h: five runs of 40/21 h and 1.5873 h of the sixth.

    They leave 2 + 3.15 * 1.5873 = 7 kWh, which last 12.6 h: 3.6 + 5 cycles + 1.5873 + 12.6 h.
    """
    body = _fuelled(5, 1)
    sixth = 10 / _BURN - 5 * _RISE
    lasts = _FIRST + 5 * (_FALL + _RISE) + sixth + (2 + 3.15 * sixth) / (0.5 / 0.9)
    assert reading(answered(body), "typical/now/start").hours_to_dark == pytest.approx(lasts)
    followed = course(body)
    assert followed.generator_hours == pytest.approx(10 / _BURN, abs=1e-6)
    assert followed.fuel_used == pytest.approx(10)
    assert followed.refills == 1
    assert followed.dark_hours == pytest.approx(WEEK - lasts, abs=1e-6)


def test_an_empty_tank_is_no_generator() -> None:
    """4 kWh at 0.5556 kW: 7.2 h; a refill of a tank that holds nothing brings nothing."""
    for body in (_fuelled(0, 0), _fuelled(0, 3)):
        assert answered(body).hours_typical == pytest.approx(7.2)
        assert course(body).generator_starts == 0
        assert course(body).fuel_used == 0


def test_quiet_hours_past_midnight_are_the_two_parts_of_the_night() -> None:
    night, parts = (
        dated(generator=generator(quiet_hours=[dict(zip(_SPAN, one, strict=True)) for one in some]))
        for some in ([(22, 7)], [(22, 24), (0, 7)])
    )
    ours, theirs = answered(night), answered(parts)
    assert ours.readings == theirs.readings
    assert ours.year == theirs.year
    always = dated(generator=generator())
    assert answered(always).readings != ours.readings or course(always) != course(night)


_SPAN = ("start_hour", "end_hour")


def test_a_generator_brings_its_cautions() -> None:
    joined = {one.id for one in answered(dated(generator=generator())).cautions}
    assert {"generator-carbon-monoxide", "generator-back-feed", "generator-and-sun"} <= joined
    apart = dated(generator=generator(connection="transfer_switch"))
    kept_apart = {one.id for one in answered(apart).cautions}
    assert {"generator-carbon-monoxide", "generator-back-feed"} <= kept_apart
    assert "generator-not-counted" in kept_apart
    none = {one.id for one in answered(dated()).cautions}
    assert not [one for one in none if one.startswith("generator")]


def test_sun_on_the_bus_is_held_off_while_the_generator_runs() -> None:
    """What it does not take is told as lost, not as used."""
    body = dated(generator=generator(start_percent=70, stop_percent=95), solar=solar())
    followed = course(body)
    assert followed.generator_hours > 0
    assert followed.sun_lost_kwh > 0


WEATHER = dated(rows=[load(250)], solar=None, conditioning=[cooling()], climate=site("fresno"))


def _weather(extreme: float = 105, design: float = 95) -> Body:
    return WEATHER | {"conditioning": [cooling(extreme=extreme, design=design)]}


@cache
def by_weather(extreme: float = 105, design: float = 95) -> dict[str, WeatherReading]:
    return {one.weather: one for one in year_of(_weather(extreme, design)).weather}


def test_typical_year_design_day_and_extreme_day_stand_side_by_side() -> None:
    found = by_weather()
    assert list(found) == ["typical_year", "design_day", "extreme_day"]
    assert found["typical_year"].outdoor_f is None
    assert found["design_day"].outdoor_f == pytest.approx(95)
    assert found["extreme_day"].outdoor_f == pytest.approx(105)
    assert not year_of(dated()).weather, "nothing heats or cools"


@pytest.mark.parametrize("name, peak", [("design_day", 95.0), ("extreme_day", 105.0)])
def test_a_hot_day_worked_out_anew(name: str, peak: float) -> None:
    """A cosine day, hottest at 15 h, with the mean swing of the hottest month; every day alike."""
    air = np.array(year_scalar.place_of_site("fresno").air).reshape(365, 24)
    months = np.array(reference.MONTH_OF_DAY)
    hottest = max(range(12), key=lambda month: float(air[months == month].mean()))
    swing = float(np.ptp(air[months == hottest], axis=1).mean())
    top = (peak - 32) / 1.8
    shape = np.cos(2 * np.pi * (np.arange(24) + 0.5 - 15) / 24)
    day = (top - swing / 2 + swing / 2 * shape).tolist()
    for level, capacity, told in (
        ("high", "end_of_warranty", by_weather()[name].high_use_hours),
        ("typical", "now", by_weather()[name].typical_hours),
    ):
        cools = reference.conditioning_of_year(cooling(), day * 365, level)
        quarters = [0.25 + power for power in cools for _ in range(4)]
        nothing = [0.0] * reference.HOURS
        year = reference.year_steps([quarters], nothing, nothing)
        unit = year_scalar.unit_of(WEATHER, capacity, "start")
        followed = reference.follow(year, 18.0, WEEK, unit, lit=False)
        assert told == pytest.approx(followed.held, abs=1e-6), level


def test_a_hotter_extreme_never_lengthens() -> None:
    by_heat = [by_weather(extreme)["extreme_day"] for extreme in (95, 105, 115, 125)]
    typical = [one.typical_hours for one in by_heat]
    strict = [one.high_use_hours for one in by_heat]
    assert typical == sorted(typical, reverse=True)
    assert strict == sorted(strict, reverse=True)
    assert typical[0] > typical[-1]
    assert by_weather(95)["typical_year"] == by_weather(125)["typical_year"]


def test_the_callers_design_temperature_moves_what_it_is_sized_for() -> None:
    """Sized for more it runs less in the typical year, and the design day is that hot."""
    mild, hot = by_weather(120, 92), by_weather(120, 108)
    assert mild["typical_year"].typical_hours < hot["typical_year"].typical_hours
    assert hot["design_day"].outdoor_f == pytest.approx(108)
