"""Doubtful readings, gaps and the year that is made of what remains."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

import pytest

from service.load_profile.answer import LoadProfileAnswer
from tests.load_profile.asking import asked, wh
from tests.load_profile.exports import export
from tests.load_profile.feeds import NEW_YEAR, Reading, plain_feed, steps

HOUR = 3600
DAY = 24 * HOUR


def answered(readings: Sequence[Reading]) -> LoadProfileAnswer:
    return asked(plain_feed(readings))


def with_values(readings: list[Reading], values: dict[int, float]) -> list[Reading]:
    return [(s, n, values.get(i, v)) for i, (s, n, v) in enumerate(readings)]


DOUBTFUL = [
    # hour -> Wh, kind, readings of it, whether they stay
    ({50: 150_000.0}, "beyond-service", 1, False),
    ({50: -5.0}, "negative", 1, False),
    ({50: 0.0, 51: 0.0, 52: 0.0}, "zero-run", 3, False),
    ({50: 30_000.0}, "spike", 1, True),
]


@pytest.mark.parametrize("values, kind, count, stays", DOUBTFUL)
def test_a_doubtful_reading_is_named_and_leaves_only_where_the_load_stays_high(
    values: dict[int, float], kind: str, count: int, stays: bool
) -> None:
    answer = answered(with_values(steps(240), values))
    assert [(span.kind, span.readings) for span in answer.doubtful] == [(kind, count)]
    assert answer.doubtful[0].start == "2025-01-03T02:00:00-08:00"
    assert answer.statistics.readings == 240 - (0 if stays else count)


NOT_DOUBTFUL = [
    # hour -> Wh
    {50: 0.0, 51: 0.0},
    {50: 0.0, 52: 0.0, 54: 0.0},
    {50: 4_900.0},
]


@pytest.mark.parametrize("values", NOT_DOUBTFUL)
def test_what_a_home_may_do_is_not_doubtful(values: dict[int, float]) -> None:
    assert answered(with_values(steps(240), values)).doubtful == []


def test_a_run_of_nothing_that_a_gap_breaks_is_two_runs() -> None:
    broken = with_values(steps(240), {50: 0.0, 51: 0.0, 53: 0.0})
    assert answered([one for i, one in enumerate(broken) if i != 52]).doubtful == []


def test_a_year_without_a_gap_is_the_readings_themselves() -> None:
    answer = answered(steps(8760))
    assert answer.profile is not None
    assert answer.profile.watts == [float(v) for _, _, v in steps(8760)]
    assert answer.profile.kwh == pytest.approx(answer.statistics.energy_kwh)
    assert answer.no_profile is None


def test_a_gap_is_filled_by_the_median_of_its_month_and_hour() -> None:
    # March has 31 days; 03:00 is 700 W on 16 of them, 300 W on 14, and missing on the 31st.
    march = NEW_YEAR + 59 * DAY
    values = {59 * 24 + d * 24 + 3: (700.0 if d < 16 else 300.0) for d in range(31)}
    missing = 59 * 24 + 30 * 24 + 3
    made = with_values(steps(8760), values)
    answer = answered([one for i, one in enumerate(made) if i != missing])
    assert answer.profile is not None
    assert answer.profile.watts[missing] == 700.0
    assert (answer.profile.filled_hours, answer.profile.filled_percent) == (1, 100 / 8760)
    assert [gap.hours for gap in answer.gaps] == [1.0]
    assert march + (30 * 24 + 3) * HOUR == NEW_YEAR + missing * HOUR


@pytest.mark.parametrize("hours, says", [(876, False), (877, True)])
def test_a_profile_that_is_filled_to_more_than_a_tenth_is_doubtful(hours: int, says: bool) -> None:
    # Eight hours of every third day: no month is left without data.
    left_out = {i for i in range(8760) if i % 24 < 8 and i // 24 % 3 == 0}
    gone = set(sorted(left_out)[:hours])
    answer = answered([one for i, one in enumerate(steps(8760)) if i not in gone])
    assert answer.profile is not None
    assert answer.profile.filled_hours == hours
    assert [doubt.id for doubt in answer.doubts] == (["much-filled"] if says else [])


def test_a_month_without_data_leaves_no_profile_and_is_named() -> None:
    june = range(151 * 24, 181 * 24)
    answer = answered([one for i, one in enumerate(steps(8760)) if i not in june])
    assert answer.profile is None
    assert answer.no_profile == "No data, or less than three days, for June. Send a whole year."


@pytest.mark.parametrize("days, has_profile", [(2, False), (3, True)])
def test_three_days_of_a_month_are_the_least_that_stands_for_it(
    days: int, has_profile: bool
) -> None:
    june = range((151 + days) * 24, 181 * 24)
    answer = answered([one for i, one in enumerate(steps(8760)) if i not in june])
    assert (answer.profile is not None) is has_profile


def test_of_two_years_the_later_one_is_the_profile() -> None:
    later = steps(8760, start=NEW_YEAR + 365 * DAY, value=2000)
    answer = answered([*steps(8760), *later])
    assert answer.profile is not None
    assert answer.profile.watts == [float(v) for _, _, v in later]
    assert answer.profile.first == "2026-01-01T00:00:00-08:00"


def test_a_year_that_ends_in_summer_is_put_into_the_order_of_the_calendar() -> None:
    july = 181 * 24
    hours = [(NEW_YEAR + i * HOUR, HOUR, i % 8760) for i in range(july + 1, july + 8760)]
    answer = answered(hours)
    assert answer.profile is not None
    assert answer.profile.watts[july + 1 :] == [float(i) for i in range(july + 1, 8760)]
    assert answer.profile.watts[:july] == [float(i) for i in range(july)]
    assert answer.profile.filled_hours == 1


def test_the_leap_day_is_dropped() -> None:
    # 2028 is a leap year; its first hour is 2028-01-01T00:00:00-08:00.
    first = NEW_YEAR + 3 * 365 * DAY
    made = [(first + i * HOUR, HOUR, 5000 if 59 * 24 <= i < 60 * 24 else 500) for i in range(8784)]
    answer = answered(made)
    assert answer.profile is not None
    assert answer.profile.watts == [500.0] * 8760
    assert answer.statistics.energy_kwh == pytest.approx(8760 * 0.5 + 24 * 5)


def test_an_hour_that_is_metered_for_half_has_the_mean_of_that_half() -> None:
    quarters = [
        (NEW_YEAR + i * 900, 900, 250)
        for i in range(8760 * 4)
        if not 4000 <= i < 4002 and not 8000 <= i < 8003
    ]
    answer = answered(quarters)
    assert answer.profile is not None
    assert answer.profile.partly_metered_hours == 1
    assert answer.profile.filled_hours == 1
    assert answer.profile.watts == [1000.0] * 8760


def test_readings_that_begin_between_the_hours_keep_their_energy() -> None:
    # Hours from 00:20: of 600 Wh, 400 fall into the first hour and 200 into the next.
    odd = [(NEW_YEAR + 1200 + i * HOUR, HOUR, 600 if i % 2 else 1200) for i in range(240)]
    shapes = asked(plain_feed(odd), "day_shapes").day_shapes
    assert isinstance(shapes, list)
    assert shapes[0].watts[1] == pytest.approx(1200 / 3 + 600 * 2 / 3)
    assert wh(answered(odd)) == 240 * 900


def test_day_shapes_are_means_by_month_and_hour_only_where_asked() -> None:
    asked_for = asked(export(datetime(2025, 1, 1), 48), "day_shapes").day_shapes
    assert isinstance(asked_for, list)
    assert [(shape.month, len(shape.watts)) for shape in asked_for] == [(1, 24)]
    assert asked_for[0].watts[5] == pytest.approx(250)
    assert not isinstance(asked(export(datetime(2025, 1, 1), 48)).day_shapes, list)


def test_months_tell_their_energy_and_how_much_of_them_is_metered() -> None:
    answer = answered([(NEW_YEAR + i * HOUR, HOUR, 1000) for i in range(31 * 24 + 14 * 24)])
    assert [(m.month, m.kwh, m.metered_percent) for m in answer.months] == [
        ("2025-01", 744.0, 100.0),
        ("2025-02", 336.0, 50.0),
    ]


DEMAND = [
    # length [s], Wh of four readings, highest [kW], at most [kW], is a mean of 15 minutes
    # 900 s: 900 Wh are 3.6 kW; the window over two neighbours has at most 900 + 600 Wh: 6 kW
    (900, (100, 900, 600, 100), 3.6, 6.0, True),
    # 1800 s: 900 Wh are 1.8 kW; all of 1500 Wh in one quarter hour: 6 kW
    (1800, (100, 900, 600, 100), 1.8, 6.0, False),
    (3600, (100, 900, 600, 100), 0.9, 6.0, False),
    # 300 s: three of them are a quarter hour: 100 + 900 + 600 Wh are 6.4 kW
    (300, (100, 900, 600, 100), 6.4, 6.4, True),
]


@pytest.mark.parametrize("length, energies, highest, at_most, exact", DEMAND)
def test_the_demand_is_bounded_from_both_sides(
    length: int, energies: tuple[int, ...], highest: float, at_most: float, exact: bool
) -> None:
    answer = answered([(NEW_YEAR + i * length, length, e) for i, e in enumerate(energies)])
    assert answer.demand is not None
    assert answer.demand.at_least_kw == pytest.approx(highest)
    assert answer.demand.at_most_kw == pytest.approx(at_most)
    assert answer.demand.is_15_minutes is exact
    assert ("only bound" in answer.demand.statement) is not exact


@pytest.mark.parametrize("days, says", [(364, True), (365, False)])
def test_less_than_a_year_of_demand_is_said(days: int, says: bool) -> None:
    demand = answered([(NEW_YEAR + i * HOUR, HOUR, 500) for i in range(days * 24)]).demand
    assert demand is not None
    assert ("wants a year" in demand.statement) is says
