"""Hours over thresholds, and shade that follows a calendar."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.checks.heat_exposure.hours_over import hours_over, hours_under
from service.checks.heat_exposure.tree_shade import (
    beam_through,
    month_of_hour,
    part_of_hour_within,
)

LEAFY = np.array([1.0, 1.0, 0.8, 0.5, 0.3, 0.2, 0.2, 0.2, 0.3, 0.5, 0.8, 1.0])


def test_an_hour_at_the_threshold_is_not_over_it() -> None:
    course = np.array([312.0, 313.15, 313.15 + 1e-9, 313.16, 320.0])
    assert hours_over(course, [313.15, 319.0, 330.0]).tolist() == [2, 1, 0]
    assert hours_under(course, [313.15, 312.0]).tolist() == [1, 0]


def test_counts_keep_the_lanes() -> None:
    course = np.arange(24.0).reshape(2, 12) + 300.0
    assert hours_over(course, [305.5, 311.5]).tolist() == [[6, 12], [0, 12]]


@given(
    course=st.lists(st.floats(250.0, 350.0), min_size=1, max_size=48),
    low=st.floats(260.0, 340.0),
    more=st.floats(0.0, 30.0),
)
def test_a_higher_threshold_never_counts_more_hours(
    course: list[float], low: float, more: float
) -> None:
    least, most = hours_over(course, [low, low + more])
    assert most <= least


def test_a_year_has_twelve_months_of_hours() -> None:
    months = month_of_hour()
    assert months.shape == (8760,)
    assert np.bincount(months).tolist() == [
        24 * days for days in (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    ]
    assert months[59 * 24 - 1 : 59 * 24 + 1].tolist() == [1, 2]


def test_a_tree_lets_through_what_its_month_says() -> None:
    found = beam_through(month_of_hour(), np.arange(8760), LEAFY)
    assert found[0] == 1.0
    assert found[180 * 24 + 15] == pytest.approx(0.2)


def test_a_shade_of_hours_counts_only_between_them() -> None:
    """From half past two to five, full shade: half of the hour that begins at two is left."""
    found = beam_through(np.full(24, 6), np.arange(24), np.zeros(12), 14.5, 17.0)
    assert found[13:18].tolist() == pytest.approx([1.0, 0.5, 0.0, 0.0, 1.0])


def test_a_shade_past_midnight_and_one_of_the_whole_day() -> None:
    assert part_of_hour_within(np.arange(24), 22.5, 1.5)[[21, 22, 23, 0, 1, 2]].tolist() == [
        0.0, 0.5, 1.0, 1.0, 0.5, 0.0,
    ]  # fmt: skip
    assert part_of_hour_within(np.arange(48), 0.0, 24.0).tolist() == [1.0] * 48


def test_trees_of_several_walls_at_once() -> None:
    both = beam_through(month_of_hour(), np.arange(8760), np.stack([LEAFY, np.ones(12)]))
    assert both.shape == (2, 8760)
    np.testing.assert_array_equal(both[1], np.ones(8760))
