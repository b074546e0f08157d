"""Power left at a temperature follows the caller's curve, and ends where the curve ends."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.checks.heat_exposure.derating import power_factor
from service.published import load

ZERO = 273.15


def factor(celsius: float, *points: tuple[float, float], **limits: float) -> float:
    at, part = np.array(points).T
    kelvin = {name: value + ZERO for name, value in limits.items()}
    return float(power_factor(celsius + ZERO, at + ZERO, part, **kelvin))


# first point, last point | temperature [degC] | part. Source: hand arithmetic on the straight line
# 1 - (1 - end)(T - T0)/(T1 - T0).
LINES = [
    (((40.0, 1.0), (50.0, 0.0)), 42.5, 0.75),
    (((40.0, 1.0), (50.0, 0.0)), 45.0, 0.5),
    (((40.0, 1.0), (50.0, 0.0)), 50.0, 0.0),
    (((45.0, 1.0), (50.0, 0.5)), 47.5, 0.75),
    (((45.0, 1.0), (50.0, 0.5)), 50.0, 0.5),
    (((45.0, 1.0), (50.0, 0.5)), 51.0, 0.0),
    (((45.0, 1.0), (50.0, 0.5)), 20.0, 1.0),
]


@pytest.mark.parametrize("points, celsius, expected", LINES)
def test_the_straight_line_and_its_ends(
    points: tuple[tuple[float, float], ...], celsius: float, expected: float
) -> None:
    assert factor(celsius, *points) == pytest.approx(expected, abs=1e-12)


def test_the_slope_of_a_drive_is_met() -> None:
    """2.5 % a kelvin above 40 degC leaves three quarters at 50 degC."""
    # Source: a general manual of motor drives (secondary).
    assert factor(50.0, (40.0, 1.0), (50.0, 0.75)) == pytest.approx(0.75)
    assert factor(44.0, (40.0, 1.0), (50.0, 0.75)) == pytest.approx(0.90)


def test_a_curve_of_two_points_at_one_temperature_is_a_step() -> None:
    points = ((40.0, 1.0), (45.0, 1.0), (45.0, 0.4), (50.0, 0.4))
    assert factor(45.0, *points) == 1.0
    assert factor(45.01, *points) == pytest.approx(0.4)
    assert factor(50.0, *points) == pytest.approx(0.4)


def test_at_a_limit_itself_the_unit_runs_and_beyond_it_not() -> None:
    points = ((40.0, 1.0), (60.0, 0.5))
    assert factor(55.0, *points, highest=55.0) == pytest.approx(0.625)
    assert factor(55.001, *points, highest=55.0) == 0.0
    assert factor(-10.0, *points, lowest=-10.0) == 1.0
    assert factor(-10.001, *points, lowest=-10.0) == 0.0


def test_the_published_curve_of_this_service_gives_its_own_rows() -> None:
    """Table temperature_power: half power at 55 degC; beyond the table nothing is known."""
    table = load("temperature_power")
    points = tuple(
        (table.number(key, "temperature_degc"), table.number(key, "factor")) for key in table.rows
    )
    assert factor(45.0, *points) == 1.0
    assert factor(50.0, *points) == pytest.approx(0.75)
    assert factor(55.0, *points) == pytest.approx(0.5)
    assert factor(55.1, *points) == 0.0


@given(
    low=st.floats(-20.0, 60.0),
    more=st.floats(0.0, 30.0),
    parts=st.lists(st.floats(0.0, 1.0), min_size=3, max_size=3),
)
def test_a_hotter_unit_never_gives_more_where_the_curve_falls(
    low: float, more: float, parts: list[float]
) -> None:
    falling = sorted(parts, reverse=True)
    points = tuple(zip((40.0, 45.0, 55.0), falling, strict=True))
    assert factor(low + more, *points) <= factor(low, *points) + 1e-12


def test_units_with_curves_of_their_own_at_once_are_as_each_alone() -> None:
    """The shorter curve repeats its last point."""
    given_air = np.linspace(300.0, 335.0, 36)
    long = (np.array([313.15, 318.15, 323.15]), np.array([1.0, 0.8, 0.2]))
    short = (np.array([318.15, 328.15]), np.array([1.0, 0.5]))
    at = np.stack([long[0], np.append(short[0], short[0][-1])])[:, np.newaxis]
    part = np.stack([long[1], np.append(short[1], short[1][-1])])[:, np.newaxis]
    together = power_factor(np.stack([given_air, given_air]), at, part)
    np.testing.assert_array_equal(together[0], power_factor(given_air, *long))
    np.testing.assert_array_equal(together[1], power_factor(given_air, *short))
