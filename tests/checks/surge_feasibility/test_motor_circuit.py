"""The fitted circuit against its nameplate, and against a two-winding model of the same motor."""

import numpy as np
import pytest

from service.checks.surge_feasibility.motor_circuit import (
    admittance,
    motor_circuit,
    torque_at_rated_volts,
)

# speed, current and torque [pu] of a two-winding (main and auxiliary) induction motor in
# symmetrical components, solved independently from published per-unit parameters of a 3.5 kW
# compressor motor (open-source distribution simulator).
TWO_WINDING = [(0.0, 7.14, 0.22), (0.5, 6.59, 1.70), (0.8, 4.73, 2.74), (0.9, 3.05, 2.37)]


def one(value: float) -> np.ndarray:
    return np.array([value])


@pytest.mark.parametrize("seed", range(20))
def test_the_circuit_draws_what_the_nameplate_says(seed: int) -> None:
    """Both points of the nameplate, for random nameplates that agree with themselves."""
    rng = np.random.default_rng(seed)
    rated, ratio = rng.uniform(1, 40), rng.uniform(4, 7)
    factors = rng.uniform(0.45, 0.75), rng.uniform(0.7, 0.95)
    slip = rng.uniform(0.02, 0.05)
    found = motor_circuit(
        one(230), one(rated * ratio), one(factors[0]), one(rated), one(factors[1]), one(slip)
    )
    assert found.fits.all()
    for speed, amps, factor in ((0.0, rated * ratio, factors[0]), (1 - slip, rated, factors[1])):
        y = admittance(found, one(speed))[0]
        assert abs(y) * 230 == pytest.approx(amps, rel=1e-9)
        assert y.real / abs(y) == pytest.approx(factor, rel=1e-9)
        assert y.imag < 0


def test_contradicting_nameplates_do_not_fit() -> None:
    """Locked-rotor amps below the rated ones at a better power factor."""
    found = motor_circuit(one(230), one(10), one(0.99), one(12), one(0.6), one(0.04))
    assert not found.fits.any()


@pytest.mark.parametrize("speed, amps, torque", TWO_WINDING)
def test_against_a_two_winding_motor(speed: float, amps: float, torque: float) -> None:
    """Current within 5 %, torque between 14 % lower and 5 % higher."""
    found = motor_circuit(one(1), one(7.14), one(0.66), one(1.12), one(0.95), one(0.03))
    assert abs(admittance(found, one(speed))[0]) == pytest.approx(amps, rel=0.05)
    got = torque_at_rated_volts(found, one(speed), one(0.03), one(0.22 / 1.03), one(0.6))[0] * 1.03
    assert 0.86 * torque <= got <= torque * 1.05


def test_torque_at_standstill_and_at_rated_slip() -> None:
    found = motor_circuit(one(240), one(80), one(0.66), one(15), one(0.95), one(0.035))
    for speed, torque in ((0.0, 0.35), (0.965, 1.0)):
        got = torque_at_rated_volts(found, one(speed), one(0.035), one(0.35), one(0.6))
        assert got[0] == pytest.approx(torque, rel=1e-9)
