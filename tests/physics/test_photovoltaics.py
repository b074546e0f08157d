"""Power of an array against hand arithmetic, against pvlib, and its bounds."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pvlib import pvsystem

from service.physics.photovoltaics import array_dc_power, array_power, cell_temperature

ZERO_CELSIUS = 273.15
INVERTER = {"inverter_efficiency": 0.96, "inverter_limit": np.inf}
ARRAY = {"rated": 5000.0, "losses": 0.14, "temperature_coefficient": 0.004}

# Irradiance [W/m2], air [degC], cells [degC], DC power and AC power [W] of 5 kW with 14 % losses,
# 0.4 %/K and an inverter of 96 %. Source: hand arithmetic, cells at air + 25/800 x irradiance,
# 4.3 W DC for each W/m2 at 25 degC.
HOURS = [
    (0.0, 20.0, 20.0, 0.0, 0.0),
    (800.0, 20.0, 45.0, 3164.8, 3038.208),
    (1000.0, -6.25, 25.0, 4300.0, 4128.0),
    (1000.0, 25.0, 56.25, 3762.5, 3612.0),
    (400.0, -10.0, 2.5, 1874.8, 1799.808),
    (1200.0, 40.0, 77.5, 4076.4, 3913.344),
]


@pytest.mark.parametrize("poa, air, cell, direct, alternating", HOURS)
def test_one_hour_by_hand(
    poa: float, air: float, cell: float, direct: float, alternating: float
) -> None:
    """Cell temperature, DC power and AC power of one hour are those of a pocket calculator."""
    air += ZERO_CELSIUS
    assert cell_temperature(poa, air) - ZERO_CELSIUS == pytest.approx(cell, abs=1e-9)
    assert array_dc_power(poa, air, **ARRAY) == pytest.approx(direct, rel=1e-12)
    assert array_power(poa, air, **ARRAY, **INVERTER) == pytest.approx(alternating, rel=1e-12)


def test_dc_power_is_what_pvlib_says() -> None:
    """Linear in light and in cell temperature, like pvlib's model of the same kind."""
    draw = np.random.default_rng(3)
    poa, air = draw.uniform(0, 1300, 500), draw.uniform(240, 320, 500)
    cell = air + 25.0 / 800.0 * poa - ZERO_CELSIUS
    expected = pvsystem.pvwatts_dc(poa, cell, 5000.0, -0.004) * 0.86
    np.testing.assert_allclose(array_dc_power(poa, air, **ARRAY), expected, rtol=1e-12)


def test_the_inverter_cuts_what_is_above_its_limit_and_nothing_below() -> None:
    """A limit of 3 kW leaves 2.4 kW alone."""
    poa, air = np.array([500.0, 1000.0]), np.array([280.0, 280.0])
    free = array_power(poa, air, **ARRAY, **INVERTER)
    cut = array_power(poa, air, **ARRAY, inverter_efficiency=0.96, inverter_limit=3000.0)
    assert free[0] < 3000.0 < free[1]
    np.testing.assert_array_equal(cut, [free[0], 3000.0])


def test_many_arrays_at_once_get_what_each_gets_alone() -> None:
    """Arrays in rows, hours in columns, every parameter one a row."""
    draw = np.random.default_rng(4)
    poa, air = draw.uniform(0, 1300, (3, 50)), draw.uniform(240, 320, 50)
    rated, limit = np.array([[1e3], [4e3], [9e3]]), np.array([[np.inf], [2e3], [5e3]])
    others = {"losses": 0.1, "temperature_coefficient": 0.003, "inverter_efficiency": 0.97}
    together = array_power(poa, air, rated=rated, inverter_limit=limit, **others)
    assert together.shape == (3, 50)
    for row in range(3):
        alone = array_power(
            poa[row], air, rated=rated[row, 0], inverter_limit=limit[row, 0], **others
        )
        np.testing.assert_array_equal(together[row], alone)


@given(
    poa=st.floats(0.0, 2000.0),
    air=st.floats(200.0, 400.0),
    coefficient=st.floats(0.0, 0.02),
    limit=st.floats(0.0, 1e5),
)
def test_power_lies_between_nothing_and_the_limit(
    poa: float, air: float, coefficient: float, limit: float
) -> None:
    """Cells so hot that the straight line falls below zero give nothing."""
    found = array_power(
        poa,
        air,
        rated=5000.0,
        losses=0.14,
        temperature_coefficient=coefficient,
        inverter_efficiency=0.96,
        inverter_limit=limit,
    )
    assert 0.0 <= found <= limit
