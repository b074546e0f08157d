"""Power of heating and cooling units follows the outdoor temperature."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from service.physics.degree_model import cooling_power, design_day, duty, rated_power

ZERO = 273.15
SLOPE, LEAST = 0.011, 0.8
#: Cooling of a coastal home: balance, design [K], and the swing of the design day [K]. Source: the
#: design condition of 0.4 % of the hours in the statistics file of the TMY3 of Los Angeles airport
#: (ASHRAE Fundamentals 2009); the balance is common practice.
COAST_BALANCE, COAST_DESIGN, COAST_SWING = ZERO + 21.0, ZERO + 28.7, 6.0

# tons | ratio | electric power [W]. Source: derived, 12,000 Btu/h a ton over the ratio.
RATED = (
    (3.0, 12.4, 2903.2),
    (3.0, 10.0, 3600.0),
    (1.0, 12.0, 1000.0),
    (2.0, 3.412, 7033.99),
)

# outdoor, balance, design [degC] | oversize | duty. Source: derived, by hand.
DUTY = (
    (35.0, 20.0, 35.0, 1.00, 1.0),
    (35.0, 20.0, 35.0, 1.25, 0.8),
    (27.5, 20.0, 35.0, 1.00, 0.5),
    (27.5, 20.0, 35.0, 1.25, 0.4),
    (20.0, 20.0, 35.0, 1.00, 0.0),
    (5.0, 20.0, 35.0, 1.00, 0.0),
    (45.0, 20.0, 35.0, 1.25, 1.0),
    # Heating: the design temperature lies below the balance.
    (-10.0, 15.0, -10.0, 1.00, 1.0),
    (-10.0, 15.0, -10.0, 1.25, 0.8),
    (2.5, 15.0, -10.0, 1.00, 0.5),
    (15.0, 15.0, -10.0, 1.00, 0.0),
    (30.0, 15.0, -10.0, 1.00, 0.0),
    (-30.0, 15.0, -10.0, 1.10, 1.0),
)

# outdoor [degC] | power over the rated one. Source: derived; 1.1 % a kelvin from 35 degC, at least
# 0.8, which is met 18.18 K below it.
COOLING = (
    (35.0, 1.0),
    (45.0, 1.11),
    (25.0, 0.89),
    (16.9, 0.8009),
    (16.8, 0.8),
    (-10.0, 0.8),
)

KELVIN = st.floats(230.0, 330.0)
SPAN = st.floats(1.0, 40.0)
OVERSIZE = st.floats(1.0, 1.5)


@pytest.mark.parametrize("tons, ratio, watts", RATED)
def test_rated_power_is_capacity_over_ratio(tons: float, ratio: float, watts: float) -> None:
    assert float(rated_power(tons, ratio)) == pytest.approx(watts, abs=0.05)


@pytest.mark.parametrize("outdoor, balance, design, oversize, expected", DUTY)
def test_duty_is_in_proportion_to_the_difference_to_the_balance(
    outdoor: float, balance: float, design: float, oversize: float, expected: float
) -> None:
    found = duty(np.array([outdoor + ZERO]), balance + ZERO, design + ZERO, oversize)
    assert found == pytest.approx([expected], abs=1e-12)


@pytest.mark.parametrize("outdoor, part", COOLING)
def test_a_cooling_unit_takes_more_in_the_heat_and_never_less_than_its_floor(
    outdoor: float, part: float
) -> None:
    found = cooling_power(np.array([outdoor + ZERO]), 2900.0, SLOPE, LEAST)
    assert found == pytest.approx([2900.0 * part], rel=1e-9)


@given(first=KELVIN, second=KELVIN, balance=KELVIN, span=SPAN, oversize=OVERSIZE)
def test_a_hotter_hour_never_needs_less_cooling(
    first: float, second: float, balance: float, span: float, oversize: float
) -> None:
    air = np.sort([first, second])
    power = duty(air, balance, balance + span, oversize) * cooling_power(air, 1.0, SLOPE, LEAST)
    assert power[0] <= power[1]


@given(first=KELVIN, second=KELVIN, balance=KELVIN, span=SPAN, oversize=OVERSIZE)
def test_a_colder_hour_never_needs_less_heating(
    first: float, second: float, balance: float, span: float, oversize: float
) -> None:
    cold, warm = duty(np.sort([first, second]), balance, balance - span, oversize)
    assert cold >= warm


@given(outdoor=KELVIN, balance=KELVIN, span=SPAN, oversize=OVERSIZE)
def test_heating_is_cooling_seen_in_a_mirror(
    outdoor: float, balance: float, span: float, oversize: float
) -> None:
    mirrored = duty(np.array([2.0 * balance - outdoor]), balance, balance - span, oversize)
    cooling = duty(np.array([outdoor]), balance, balance + span, oversize)
    assert mirrored == pytest.approx(cooling, abs=1e-9)


@given(balance=KELVIN, span=SPAN, oversize=OVERSIZE, sign=st.sampled_from((-1.0, 1.0)))
def test_at_design_a_unit_runs_for_one_over_its_oversize(
    balance: float, span: float, oversize: float, sign: float
) -> None:
    design = balance + sign * span
    assert duty(np.array([design]), balance, design, oversize) == pytest.approx([1.0 / oversize])
    assert duty(np.array([balance]), balance, design, oversize) == 0.0


def test_years_of_several_units_are_worked_out_together() -> None:
    """Units stand in the leading axis; each row equals the unit by itself."""
    air = ZERO + np.linspace(-10.0, 45.0, 8760)
    balance, design = np.array([[293.0], [288.0]]), np.array([[308.0], [265.0]])
    together = duty(air, balance, design, np.array([[1.0], [1.25]]))
    assert together.shape == (2, 8760)
    assert np.array_equal(together[0], duty(air, 293.0, 308.0, 1.0))
    assert np.array_equal(together[1], duty(air, 288.0, 265.0, 1.25))


def test_the_design_day_is_hottest_at_three_and_has_its_mean_and_swing() -> None:
    day = design_day(COAST_DESIGN - COAST_SWING / 2, COAST_SWING)
    assert day.shape == (24,)
    assert day.mean() == pytest.approx(COAST_DESIGN - COAST_SWING / 2, abs=1e-9)
    # The hours from 14 to 15 and from 15 to 16 lie evenly about the peak, half an hour from it.
    assert day[14] == pytest.approx(day[15], abs=1e-9)
    assert day.max() == day[14:16].max()
    off_peak = COAST_SWING / 2 * (1.0 - math.cos(math.pi / 24.0))
    assert day.max() == pytest.approx(COAST_DESIGN - off_peak, abs=1e-9)
    assert day.min() == pytest.approx(COAST_DESIGN - COAST_SWING + off_peak, abs=1e-9)


@pytest.mark.parametrize("oversize", [1.0, 1.1, 1.25])
def test_the_coastal_design_day_takes_the_energy_of_its_integral(oversize: float) -> None:
    """Twenty-four hours of a 3 ton unit of ratio 12.4 add up to the integral of the formulas."""
    rated = 12_000.0 * 3.0 / 12.4

    def watts(hour: float) -> float:
        degc = 25.7 + 3.0 * math.cos(2.0 * math.pi * (hour - 15.0) / 24.0)
        runs = min(max((degc - 21.0) / (28.7 - 21.0) / oversize, 0.0), 1.0)
        return runs * rated * max(1.0 + 0.011 * (degc - 35.0), 0.8)

    integral, _ = quad(watts, 0.0, 24.0, epsabs=1e-6, limit=200)
    air = design_day(COAST_DESIGN - COAST_SWING / 2, COAST_SWING)
    runs = duty(air, COAST_BALANCE, COAST_DESIGN, oversize)
    energy = float((runs * cooling_power(air, rated_power(3.0, 12.4), SLOPE, LEAST)).sum())
    assert energy == pytest.approx(integral, rel=1e-9)
    assert 0.3 < energy / (24.0 * rated) < 0.65
