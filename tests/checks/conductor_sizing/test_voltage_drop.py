"""Voltage drop against circuits solved by other means, and by hand."""

import numpy as np
import pytest
from scipy.optimize import brentq

from service.checks.conductor_sizing.ac_resistance import (
    ALUMINUM,
    COPPER,
    LARGER_OF_BOTH,
    ac_resistance,
    conductor_temperature,
    from_smaller,
    temperature_factor,
)
from service.checks.conductor_sizing.three_wire_drop import three_wire_drop
from service.checks.conductor_sizing.voltage_drop import (
    THREE_PHASE,
    approximate_drop,
    drop_parts,
    exact_drop,
    loss,
)

RNG = np.random.default_rng(20)


def receiving_volts(sending: float, z: complex, amps: float, power_factor: float) -> float:
    """Find the receiving end from the phasors, by a root search on its angle-free magnitude."""
    current = amps * complex(power_factor, -((1 - power_factor**2) ** 0.5))
    return float(brentq(lambda v: abs(v + z * current) - sending, 0.5 * sending, sending))


@pytest.mark.parametrize("power_factor", [0.3, 0.5, 0.85, 0.95, 1.0])
@pytest.mark.parametrize("metres", [5.0, 60.0, 200.0])
def test_a_drop_is_that_of_the_solved_circuit(power_factor: float, metres: float) -> None:
    r, x, amps = 1.02e-3 * metres, 0.16e-3 * metres, 48.0
    along, across = drop_parts(amps, r, x, power_factor)
    far = receiving_volts(240.0, 2 * complex(r, x), amps, power_factor)
    assert exact_drop(240.0, False, along, across) == pytest.approx(240 - far, rel=1e-9)
    current = amps * complex(power_factor, -((1 - power_factor**2) ** 0.5))
    near = abs(240 + 2 * complex(r, x) * current)
    assert exact_drop(240.0, True, along, across) == pytest.approx(near - 240, rel=1e-9)


def test_the_formula_of_the_trade_is_near_the_phasors_and_below() -> None:
    # 48 A, power factor 0.95, 150 ft, R 0.31 and X 0.048 ohm/kft: 4.4566 V by the formula, and
    # 4.4578 V by a power-flow program that solved the same circuit.
    r, x = 0.31 * 0.15, 0.048 * 0.15
    approximate = approximate_drop(48.0, r, x, 0.95)
    assert approximate == pytest.approx(4.4566, abs=5e-5)
    exact = exact_drop(240.0, False, *drop_parts(48.0, r, x, 0.95))
    assert exact == pytest.approx(4.4578, abs=5e-5)
    amps, power_factor = RNG.uniform(5, 200, 500), RNG.uniform(0.3, 1, 500)
    along, across = drop_parts(amps, r, x, power_factor)
    for end in (True, False):
        assert np.all(exact_drop(240.0, end, along, across) >= along - 1e-9)


def test_ends_may_differ_lane_by_lane() -> None:
    along, across = np.array([5.0, 5.0]), np.array([1.0, 1.0])
    both = exact_drop(240.0, np.array([True, False]), along, across)
    assert both[0] == exact_drop(240.0, True, along, across)[0]
    assert both[1] == exact_drop(240.0, False, along, across)[1]


def test_what_cannot_be_pushed_through_has_no_finite_drop() -> None:
    assert exact_drop(240.0, False, np.array([250.0]), np.array([0.0])) == np.inf
    assert exact_drop(240.0, False, np.array([0.0]), np.array([241.0])) == np.inf


def test_direct_current_and_three_phases() -> None:
    assert approximate_drop(4.0, 0.499, 0.0) == pytest.approx(3.992)
    # 100 A, R cos + X sin of 0.16 ohm/kft, 150 ft: 2.40 V to the neutral, 4.16 V between phases.
    assert approximate_drop(100.0, 0.024, 0.0, 1.0, THREE_PHASE) == pytest.approx(4.16, abs=0.005)


# Amps of the legs, then volts at the end of 150 ft of 4 AWG copper in PVC, 0.31 ohm/kft. Source:
# a circuit simulation of the run with a reactance of 0.048 ohm/kft too; 238.141 V is the sum of
# both legs.
THREE_WIRE = [
    (40.0, 24.0, 117.395, 119.629, 237.023),
    (40.0, 0.0, 116.279, 121.862, 238.141),
]


@pytest.mark.parametrize("one,two,leg_1,leg_2,between", THREE_WIRE)
def test_an_unbalanced_three_wire_run_is_that_of_the_simulated_circuit(
    one: float, two: float, leg_1: float, leg_2: float, between: float
) -> None:
    z = complex(0.31, 0.048) * 0.15
    found = three_wire_drop(120.0, one, two, z, z)
    assert 120 - found.leg_1 == pytest.approx(leg_1, abs=3e-3)
    assert 120 - found.leg_2 == pytest.approx(leg_2, abs=3e-3)
    assert 240 - found.between == pytest.approx(between, abs=3e-3)
    assert found.neutral_amps == one - two


def test_a_balanced_three_wire_run_drops_as_two_wires_do() -> None:
    z = complex(0.31, 0.048) * 0.15
    found = three_wire_drop(120.0, 40.0, 40.0, z, 9.9)
    assert found.neutral_amps == 0
    assert found.leg_1 == found.leg_2 == pytest.approx(found.between / 2)


def test_heat_of_the_run() -> None:
    assert loss([48.0], 0.0462) == pytest.approx(2 * 48**2 * 0.0462)
    hours = np.array([[48.0, 24.0], [0.0, 10.0]])
    found = loss(hours, [0.05, 0.1], 2.0, 3600.0) / 3.6e6
    assert found == pytest.approx([2 * 0.05 * 2880 / 1000, 2 * 0.1 * 100 / 1000])


def test_resistance_follows_temperature() -> None:
    # From 75 to 20 degC: the resistivities of copper and aluminum wire, 10.371 and 17.002 ohm
    # cmil/ft at 20 degC with temperature coefficients of 0.00393 and 0.00403 at 20 degC.
    found = temperature_factor(293.15, np.array([COPPER, ALUMINUM]))
    assert found == pytest.approx([1 / (1 + 55 * 0.00393), 1 / (1 + 55 * 0.00403)], rel=2e-3)
    assert temperature_factor(348.15, np.array([COPPER])) == 1.0


def test_a_loaded_conductor_warms_with_the_square_of_its_amps() -> None:
    assert conductor_temperature(303.15, 348.15, [0.0, 32.5, 65.0], 65.0) == pytest.approx(
        [303.15, 314.4, 348.15]
    )


def test_resistance_takes_each_table_where_it_is_good() -> None:
    dc, ac = np.array([1.24, 0.154, 0.122, 0.0184]), np.array([1.2, 0.16, 0.13, np.nan])
    small = np.array([True, True, False, False])
    assert ac_resistance(dc, ac, small).tolist() == [1.24, 0.154, 0.13, 0.13]
    assert ac_resistance(dc, ac, small, LARGER_OF_BOTH).tolist() == [1.24, 0.16, 0.13, 0.13]
    gaps = from_smaller(np.array([[np.nan, 2.0, np.nan, 1.0]]))
    np.testing.assert_array_equal(gaps, [[np.nan, 2.0, 2.0, 1.0]])
