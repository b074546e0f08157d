"""The lag of the first order is exact, settles to the repeating day, and never adds heat."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from service.checks.heat_exposure.thermal_lag import lagged, time_constant
from tests.checks.heat_exposure.design_days import AREAS, air

Floats = NDArray[np.float64]
HOUR = 3600.0
DAY = air("riverside")
COURSES = st.lists(st.floats(250.0, 350.0), min_size=2, max_size=30)


def stepped(course: Floats, constant: float, days: int) -> Floats:
    """Return the last repetition of a course, stepped through one by one from its first value."""
    x = course[0]
    for _ in range(days):
        found = []
        for value in course:
            x = value + (x - value) * np.exp(-HOUR / constant)
            found.append(x)
    return np.array(found)


@pytest.mark.parametrize("hours", [0.5, 2.0, 3.0, 4.5, 12.0])
def test_it_is_the_recurrence_after_many_days(hours: float) -> None:
    """Each hour draws the unit towards the temperature of that same hour."""
    expected = stepped(DAY, hours * HOUR, 60)
    np.testing.assert_allclose(lagged(DAY, hours * HOUR), expected, atol=1e-9)


@pytest.mark.parametrize("hours", [1.0, 3.0, 8.0])
def test_it_is_the_equation_solved_by_a_general_integrator(hours: float) -> None:
    """dx/dt = (u - x) / constant, u held through each hour, ten days long."""
    found = lagged(DAY, hours * HOUR)
    x = float(found[-1])
    for hour, value in enumerate(DAY):
        solved = solve_ivp(
            lambda _, state, held=value: (held - state) / (hours * HOUR),
            (0.0, HOUR),
            [x],
            method="DOP853",
            rtol=1e-11,
            atol=1e-11,
        )
        x = float(solved.y[0, -1])
        assert found[hour] == pytest.approx(x, abs=1e-6)
    assert x == pytest.approx(float(found[-1]), abs=1e-6)


def test_a_year_of_hours_is_the_recurrence_too() -> None:
    draw = np.random.default_rng(5).uniform(270.0, 320.0, 8760)
    np.testing.assert_allclose(lagged(draw, 3 * HOUR), stepped(draw, 3 * HOUR, 2), atol=1e-9)


def test_the_old_hours_temperature_would_move_the_peak_by_an_hour() -> None:
    """The mistake of drawing towards the hour before."""
    right, late = lagged(DAY, 3 * HOUR), lagged(np.roll(DAY, 1), 3 * HOUR)
    assert int(np.argmax(late)) == int(np.argmax(right)) + 1


def test_without_lag_a_unit_follows_at_once() -> None:
    np.testing.assert_array_equal(lagged(DAY, 0.0), DAY.mean() + (DAY - DAY.mean()))


def test_an_endless_lag_leaves_the_mean_of_the_day() -> None:
    np.testing.assert_allclose(lagged(DAY, np.inf), np.full(24, DAY.mean()), atol=1e-5)


@given(course=COURSES, first=st.floats(0.0, 50.0), more=st.floats(0.0, 50.0))
def test_a_longer_lag_never_raises_the_peak_nor_lowers_the_least(
    course: list[float], first: float, more: float
) -> None:
    given_course = np.array(course)
    short, long = (lagged(given_course, hours * HOUR) for hours in (first, first + more))
    assert long.max() <= short.max() + 1e-9
    assert long.min() >= short.min() - 1e-9
    assert long.mean() == pytest.approx(given_course.mean(), abs=1e-7)


@given(course=COURSES, place=st.integers(0, 29), warmer=st.floats(0.0, 20.0))
def test_a_hotter_hour_makes_no_hour_cooler(course: list[float], place: int, warmer: float) -> None:
    cool = np.array(course)
    hot = cool.copy()
    hot[place % cool.size] += warmer
    assert np.all(lagged(hot, 3 * HOUR) >= lagged(cool, 3 * HOUR) - 1e-9)


def test_units_of_different_lag_at_once_are_as_each_alone() -> None:
    together = lagged(np.stack([DAY, DAY]), np.array([[2 * HOUR], [4 * HOUR]]))
    np.testing.assert_allclose(together[0], lagged(DAY, 2 * HOUR), atol=1e-12)
    np.testing.assert_allclose(together[1], lagged(DAY, 4 * HOUR), atol=1e-12)


def test_the_time_constant_of_a_unit_is_hours() -> None:
    """120 kg at 1 kJ/(kg K): 2.4 h over 2.5 m2, 4.5 h over the reference unit's own 1.355 m2."""
    # By hand: 120 x 1000 / (5.5 x 2.5) = 8727 s; 120 x 1000 / (5.5 x 1.3549) = 16103 s.
    assert float(time_constant(120.0, 1000.0, 5.5, 2.5)) == pytest.approx(2.424 * HOUR, rel=1e-3)
    assert float(time_constant(120.0, 1000.0, 5.5, AREAS.sum())) == pytest.approx(
        4.473 * HOUR, rel=1e-3
    )
