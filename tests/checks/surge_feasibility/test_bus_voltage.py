"""The bus against a nodal solution by iteration, and its closed forms against each other."""

import cmath
import math

import numpy as np
import pytest

from service.checks.surge_feasibility.bus_voltage import Beside, Bus, bus_voltage

E = 240.0
Z = 0.08 + 0.2j


def solved(
    motor: complex,
    impedance: complex = 0,
    power: complex = 0,
    ceiling: float = math.inf,
    soft: float = math.inf,
) -> Bus:
    with np.errstate(all="ignore"):
        return bus_voltage(
            np.array([E]),
            np.array([Z]),
            np.array([ceiling]),
            np.array([motor]),
            Beside(np.array([impedance]), np.array([power])),
            np.array([soft]),
        )


def iterated(motor: complex, impedance: complex, power: complex, soft: float) -> complex:
    """Solve the bus by damped iteration on its phasor: an oracle without any closed form."""
    volts = complex(E)
    for _ in range(4000):
        amps = volts * motor
        if abs(amps) > soft:
            amps *= soft / abs(amps)
        amps += volts * impedance.conjugate() / E**2 + (power / volts).conjugate()
        volts = 0.7 * volts + 0.3 * (E - Z * amps)
    return volts


@pytest.mark.parametrize("seed", range(30))
def test_against_iteration(seed: int) -> None:
    rng = np.random.default_rng(seed)
    motor = cmath.rect(rng.uniform(0.02, 0.3), -rng.uniform(0.1, 1.2))
    impedance, power = (
        complex(rng.uniform(0, 3000), rng.uniform(0, 1500)) * (rng.random() < 0.7) for _ in "ab"
    )
    soft = rng.choice([math.inf, rng.uniform(5, 40)])
    found = solved(motor, impedance, power, soft=soft)
    assert found.volts[0] == pytest.approx(abs(iterated(motor, impedance, power, soft)), rel=1e-6)


@pytest.mark.parametrize("seed", range(30))
def test_at_its_ceiling_the_source_gives_just_that(seed: int) -> None:
    rng = np.random.default_rng(seed)
    motor = cmath.rect(rng.uniform(0.2, 0.5), -rng.uniform(0.1, 1.2))
    power = complex(rng.uniform(0, 1500), rng.uniform(0, 500)) * (rng.random() < 0.5)
    found = solved(motor, 500, power, ceiling=30)
    volts = complex(found.volts[0])
    constant = power if abs(volts) >= 0.3 * E else power * abs(volts) ** 2 / (0.3 * E) ** 2
    amps = volts * motor + volts * 500 / E**2 + (constant / volts).conjugate()
    assert abs(amps) == pytest.approx(30, rel=1e-9)
    assert found.over[0] > 0


def test_equality_at_the_ceiling_does_not_bind() -> None:
    free = solved(0.1 - 0.1j)
    assert solved(0.1 - 0.1j, ceiling=float(free.amps[0])).volts[0] == free.volts[0]
