"""Power and energy through an outage are those of its own hours."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from service.checks.heat_exposure.outage_window import window_hours, window_left

HOUR, KWH, KW = 3600.0, 3.6e6, 1e3


def hours(start: float, length: float) -> list[float]:
    return [float(x) for x in window_hours(start * HOUR, length * HOUR) / HOUR]


def test_a_window_holds_its_hours_past_midnight_and_in_part() -> None:
    """From half past ten in the evening for two hours and a quarter."""
    found = hours(22.5, 2.25)
    assert found[22:] == pytest.approx([0.5, 1.0])
    assert found[0] == pytest.approx(0.75)
    assert sum(found) == pytest.approx(2.25)


def test_a_window_of_days_holds_every_hour_as_often() -> None:
    """Sixty hours from noon: the afternoon three times, the morning twice."""
    found = hours(12.0, 60.0)
    assert found[:12] == pytest.approx([2.0] * 12)
    assert found[12:] == pytest.approx([3.0] * 12)


@given(start=st.floats(0.0, 23.999), length=st.floats(0.0, 400.0))
def test_no_window_loses_time(start: float, length: float) -> None:
    found = hours(start, length)
    assert sum(found) == pytest.approx(length, abs=1e-6)
    assert min(found) >= -1e-9


def test_an_evening_worked_by_hand() -> None:
    """From 16 to 20: 0.5, 0.75, 1 and 1 of 5 kW is 3.25 x 5 = 16.25 kWh, mean 4.0625 kW."""
    factor = np.ones(24)
    factor[16:18] = 0.5, 0.75
    window = window_hours(16 * HOUR, 4 * HOUR)
    left = window_left(factor, window, 5 * KW, 100 * KWH)
    assert float(left.least_power) == pytest.approx(2.5 * KW)
    assert float(left.mean_power) == pytest.approx(4.0625 * KW)
    assert float(left.energy) == pytest.approx(16.25 * KWH)
    assert float(left.off) == 0.0
    held = window_left(factor, window, 5 * KW, 10 * KWH)
    assert float(held.energy) == pytest.approx(10 * KWH)
    asked = window_left(factor, window, 5 * KW, 100 * KWH, 3 * KW)
    assert float(asked.energy) == pytest.approx((2.5 + 3 * 3) * KWH)


def test_hours_that_are_off_are_counted_and_only_those_of_the_window() -> None:
    factor = np.ones(24)
    factor[13:16] = 0.0
    left = window_left(factor, window_hours(15.5 * HOUR, 4 * HOUR), 5 * KW, 99 * KWH)
    assert float(left.off) == pytest.approx(0.5 * HOUR)
    assert float(left.least_power) == 0.0
    night = window_left(factor, window_hours(20 * HOUR, 4 * HOUR), 5 * KW, 99 * KWH)
    assert (float(night.off), float(night.least_power)) == (0.0, 5 * KW)


@pytest.mark.parametrize("start, length", [(3.2, 7.9), (20.0, 30.0)])
def test_the_energy_is_the_integral_of_the_power(start: float, length: float) -> None:
    factor = np.random.default_rng(9).uniform(0.0, 1.0, 24)
    window = window_hours(start * HOUR, length * HOUR)
    found = window_left(factor, window, 4 * KW, 1e9 * KWH).energy
    edges = [start, *range(int(start) + 1, int(start + length) + 1), start + length]
    expected = sum(
        quad(lambda t: 4.0 * factor[int(t) % 24], a, b)[0] for a, b in pairwise(edges) if b > a
    )
    assert float(found) / KWH == pytest.approx(expected, rel=1e-6)


def test_a_window_of_no_length_leaves_nothing() -> None:
    left = window_left(np.ones(24), window_hours(3 * HOUR, 0.0), 5 * KW, 10 * KWH)
    assert [float(x) for x in left] == [0.0, 0.0, 0.0, 0.0]


def test_many_cases_at_once_are_as_each_alone() -> None:
    factor = np.random.default_rng(2).uniform(0.0, 1.0, (3, 24))
    window = window_hours(np.array([1.0, 5.5, 20.0]) * HOUR, np.array([3.0, 4.0, 9.0]) * HOUR)
    power, energy = np.array([3.0, 5.0, 7.0]) * KW, np.array([5.0, 50.0, 9.0]) * KWH
    together = window_left(factor, window, power, energy)
    for case in range(3):
        alone = window_left(factor[case], window[case], power[case], energy[case])
        for one, all_ in zip(alone, together, strict=True):
            assert float(one) == float(all_[case])
