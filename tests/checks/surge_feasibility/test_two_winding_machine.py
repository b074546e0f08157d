"""The fitted circuit against a two-winding machine of the same nameplate, solved here row by row.

The machine has a main and an auxiliary winding in quadrature, the latter behind a run capacitor.
Its four circuits are solved as phasors in axes that stand still; nothing of the product enters it.
"""

import math
from typing import NamedTuple

import numpy as np
import pytest

from service.checks.surge_feasibility.motor_circuit import (
    MotorCircuit,
    admittance,
    motor_circuit,
    torque_at_rated_volts,
)

# Per unit, of the compressor motor of 3.5 kW that an open-source distribution simulator (GridLAB-D,
# powerflow, motor.cpp) carries as its default. Standing: published.
TURNS = 1.22  # of the auxiliary by the main winding
R_MAIN, R_AUXILIARY = 0.0365, 0.0729
X_RUN_CAPACITOR, X_START_CAPACITOR = -2.779, -0.7
X_TRANSIENT_MAIN, X_TRANSIENT_AUXILIARY = 0.1033, 0.1489
X_MUTUAL, X_ROTOR = 2.28, 2.33
ROTOR_TIME = 0.1212  # s
R_ROTOR = X_ROTOR / (2 * math.pi * 60 * ROTOR_TIME)
RATED_SLIP = 0.03

# speed, current and torque by rated torque, of the machine. Source: an earlier solution of the same
# parameters in symmetrical components, to the digits printed there; T/T_r there is on 1.0448 pu.
EARLIER = [
    (0.0, 7.14, 0.22),
    (0.2, 7.07, 0.75),
    (0.5, 6.59, 1.70),
    (0.8, 4.73, 2.74),
    (0.9, 3.05, 2.37),
    (0.97, 1.12, 1.03),
]
EARLIER_RATED = 1.0448
SPEEDS = [speed for speed, _, _ in EARLIER]
EVERY_SPEED = [round(0.05 * step, 2) for step in range(20)] + [0.97]


class Point(NamedTuple):
    """Current, power factor and torque of the machine [pu]."""

    amps: float
    power_factor: float
    torque: float


def machine(speed: float, capacitor: float = X_RUN_CAPACITOR) -> Point:
    """Solve the machine at a part of synchronous speed, on 1 pu of volts."""
    mutual = X_MUTUAL * np.array([1.0, TURNS])
    # Self reactance: transient reactance and what the shorted rotor takes off it.
    main = R_MAIN + 1j * (X_TRANSIENT_MAIN + mutual[0] ** 2 / X_ROTOR)
    auxiliary = R_AUXILIARY + 1j * (X_TRANSIENT_AUXILIARY + capacitor + mutual[1] ** 2 / X_ROTOR)
    rotor = R_ROTOR + 1j * X_ROTOR
    # Columns: main, auxiliary, rotor on the axis of either. It turns from the auxiliary, whose amps
    # lead, to the main; its speed induces in either axis out of the flux of the other, and the
    # power of those volts is the mechanical one.
    rows = [
        [main, 0, 1j * mutual[0], 0],
        [0, auxiliary, 0, 1j * mutual[1]],
        [1j * mutual[0], -speed * mutual[1], rotor, -speed * X_ROTOR],
        [speed * mutual[0], 1j * mutual[1], speed * X_ROTOR, rotor],
    ]
    first, second, on_first, on_second = np.linalg.solve(np.array(rows), [1, 1, 0, 0])
    torque = mutual[0] * first * on_second.conjugate() - mutual[1] * second * on_first.conjugate()
    amps = complex(first + second)
    return Point(abs(amps), amps.real / abs(amps), float(torque.real))


RATED = machine(1 - RATED_SLIP)


def one(value: float) -> np.ndarray:
    return np.array([value])


def fitted() -> MotorCircuit:
    """Return the product's circuit of what a nameplate would say of the machine."""
    still = machine(0.0)
    return motor_circuit(
        one(1.0),
        one(still.amps),
        one(still.power_factor),
        one(RATED.amps),
        one(RATED.power_factor),
        one(RATED_SLIP),
    )


def torque(speed: float) -> float:
    """Return the product's torque in parts of rated torque."""
    still = one(machine(0.0).torque / RATED.torque)
    return float(torque_at_rated_volts(fitted(), one(speed), one(RATED_SLIP), still, one(0.6))[0])


@pytest.mark.parametrize("speed, amps, rated_torques", EARLIER)
def test_the_machine_is_the_published_one(speed: float, amps: float, rated_torques: float) -> None:
    found = machine(speed)
    assert found.amps == pytest.approx(amps, abs=0.005)
    assert found.torque / EARLIER_RATED == pytest.approx(rated_torques, abs=0.006)


def test_locked_rotor_power_factor_of_the_machine() -> None:
    """0.66 on the run capacitor, as a council's stall parameters have it too: 0.68."""
    assert machine(0.0).power_factor == pytest.approx(0.66, abs=0.005)
    assert machine(0.0, X_START_CAPACITOR).power_factor == pytest.approx(0.79, abs=0.01)


@pytest.mark.parametrize("speed", EVERY_SPEED)
def test_current_within_4_percent(speed: float) -> None:
    assert abs(admittance(fitted(), one(speed))[0]) == pytest.approx(machine(speed).amps, rel=0.04)


def excess(speed: float) -> float:
    """Return by how much of the machine's torque the product's lies above it."""
    return torque(speed) / (machine(speed).torque / RATED.torque) - 1


@pytest.mark.parametrize("speed", SPEEDS)
def test_torque_of_the_rows(speed: float) -> None:
    """Up to 13 % low, which is the safe side; at half speed it is 1.2 % high."""
    assert -0.13 <= excess(speed) <= 0.013


@pytest.mark.parametrize("speed", EVERY_SPEED)
def test_torque_at_every_speed(speed: float) -> None:
    """Too high only about the speed at which the help of the start winding ends, by 7 % at most.

    The torque to spare is greatest there, twice the rated one, so that no start hangs on it.
    """
    assert -0.13 <= excess(speed) <= 0.07
    if excess(speed) > 0.013:
        assert 0.5 < speed < 0.7
        assert machine(speed).torque > 1.6 * RATED.torque
