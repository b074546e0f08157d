"""Closed forms of a start: constant torque, the divider at standstill, torque at the ceiling."""

import cmath
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.integrate import quad

from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.run_up import run_up
from service.checks.surge_feasibility.screens import screens
from service.checks.surge_feasibility.speed_curves import STARTED, SpeedCurves
from service.checks.surge_feasibility.start_case import StartCase
from tests.checks.surge_feasibility.one_start import IDLE, one_start, solved, torque_at_standstill

TOP = 0.95
SYNCHRONOUS = 2 * math.pi * 60  # rad/s, of a motor of two poles


def followed(
    acceleration: Callable[[np.ndarray], np.ndarray],
    begins: tuple[float, ...] = (0.0,),
    nodes: int = 2,
    **pressure: float,
) -> float:
    """Return when a motor of this acceleration [1/s] by speed has reached the top [s]."""
    speed = np.linspace(0, TOP, nodes)[None]
    values = np.stack([acceleration(speed[0]) * (phase + 1) for phase in range(len(begins))])[None]
    none = np.zeros_like(values)
    curves = SpeedCurves(
        begins=np.array([begins]),
        speed=speed,
        gain=np.ones(1),
        acceleration=values,
        bus=none,
        motor_volts=none,
        amps=none,
        motor_amps=none,
        over=none,
        solved=np.ones_like(none, dtype=bool),
        most_watts=np.zeros(1),
    )
    load = MotorLoad(**{name: np.array([value]) for name, value in (IDLE | pressure).items()})
    with np.errstate(all="ignore"):
        return float(run_up(curves, load, np.array([2.0]), np.array([100.0])).started[0])


def constant(value: float) -> Callable[[np.ndarray], np.ndarray]:
    return lambda speed: np.full_like(speed, value)


@pytest.mark.parametrize("acceleration", [0.02, 0.5, 10.0, 95.0])
@pytest.mark.parametrize("nodes", [2, 7, 100])
def test_a_constant_acceleration_takes_speed_by_acceleration(
    acceleration: float, nodes: int
) -> None:
    """``dn/dt = a``, so that ``t = n / a``, however many nodes are passed."""
    assert followed(constant(acceleration), nodes=nodes) == pytest.approx(
        TOP / acceleration, rel=1e-9
    )


@pytest.mark.parametrize("begins", [0.01, 0.1, 0.4])
def test_twice_the_torque_from_some_time_on(begins: float) -> None:
    """``n = a t1 + 2 a (t - t1)`` for a second phase of twice the acceleration, here 2 /s."""
    expected = begins + (TOP - 2 * begins) / 4
    assert followed(constant(2.0), begins=(0.0, begins)) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("start, fall", [(5.0, 1.0), (5.0, 5.0), (3.0, -8.0), (1.0, 1.05)])
def test_torque_that_falls_in_a_straight_line(start: float, fall: float) -> None:
    """``dn/dt = a - b n``, so that ``t = ln(a / (a - b n)) / b``."""
    expected = math.log(start / (start - fall * TOP)) / fall
    assert followed(lambda n: start - fall * n, nodes=5) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("start, square", [(5.0, 4.0), (2.0, 2.0), (9.0, 1.0)])
def test_constant_torque_against_the_square_of_the_speed(start: float, square: float) -> None:
    """``dn/dt = a - c n^2``, so that ``t = artanh(n sqrt(c / a)) / sqrt(a c)``; nodes apart."""
    expected = math.atanh(TOP * math.sqrt(square / start)) / math.sqrt(start * square)
    found = followed(lambda n: start - square * n**2, nodes=400)
    assert found == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("torque, pressure, turns", [(8, 5, 3), (3, 2.5, 8), (2, 1.0, 1)])
def test_constant_torque_against_a_pressure_that_builds_up(
    torque: float, pressure: float, turns: float
) -> None:
    """By the work done: ``n^2 f / 2 = (a - p) q + p k (1 - exp(-q / k))`` after q turns, f = 60."""

    def speed(passed: float) -> float:
        built = pressure * turns * (1 - math.exp(-passed / turns))
        return math.sqrt(2 / 60 * ((torque - pressure) * passed + built))

    # Bisected for the turns at the top, then time is the integral of turns by speed; v = sqrt(q)
    # takes the pole at standstill away.
    low, high = 0.0, 1e4
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if speed(middle) < TOP else (low, middle)
    expected = quad(lambda v: 2 * v / (60 * speed(v * v)) if v else 0, 0, math.sqrt(low))[0]
    found = followed(constant(torque), nodes=50, pressure=pressure, pressure_turns=turns)
    assert found == pytest.approx(expected, rel=0.02)


# A motor whose torque hardly depends on the speed: it is looked at up to a tenth of its synchronous
# speed, about the slip of its greatest torque, where ``R2 / s = |R1 + jX|``. [ohm], [1].
R1, R2, SLIP = 0.4, 3.8, 0.9
X = math.sqrt((R2 / 0.949) ** 2 - R1**2)


def flat_motor(volts: float, friction: float, inertia: float, efficiency: float) -> StartCase:
    """Return the start of that motor against constant friction on a source of so many volts."""
    still, rated = R1 + R2 + 1j * X, R1 + R2 / SLIP + 1j * X
    torque = [abs(z) ** -2 * R2 / slip for z, slip in ((still, 1.0), (rated, SLIP))]
    return one_start(
        load={"breakaway": friction, "constant": friction},
        locked_amps=240 / abs(still),
        locked_power_factor=math.cos(cmath.phase(still)),
        rated_amps=240 / abs(rated),
        rated_power_factor=math.cos(cmath.phase(rated)),
        rated_slip=SLIP,
        locked_torque=torque[0] / torque[1],
        source_volts=volts,
        inertia=inertia,
        efficiency=efficiency,
    )


# volts, friction as a part of rated torque, inertia constant [s], efficiency, poles
RUN_UPS = [
    (240.0, 0.0, 0.05, 0.8, 2.0),
    (240.0, 0.5, 0.05, 0.8, 2.0),
    (240.0, 0.6, 0.20, 0.6, 4.0),
    (180.0, 0.3, 0.05, 0.8, 2.0),
    (168.0, 0.2, 0.01, 0.5, 6.0),
]


@pytest.mark.parametrize("volts, friction, inertia, efficiency, poles", RUN_UPS)
def test_a_whole_start_of_constant_torque(
    volts: float, friction: float, inertia: float, efficiency: float, poles: float
) -> None:
    """``t = J w / T``: J from the inertia constant, T from the shaft, motor torque by volts^2."""
    case = flat_motor(volts, friction, inertia, efficiency)._replace(poles=np.array([poles]))
    full = SYNCHRONOUS * 2 / poles
    watts = 240 * float(case.rated_amps[0] * case.rated_power_factor[0])
    moment = 2 * inertia * watts / full**2
    rated = efficiency * watts / (full * (1 - SLIP))
    newton_metres = rated * ((volts / 240) ** 2 - friction)
    speed = STARTED * (1 - SLIP) * full
    found = solved(case)
    assert found.fits.all()
    assert found.started[0] == pytest.approx(moment * speed / newton_metres, rel=5e-3)
    # The same in the customary units of the trade: t = WK^2 dN / (308 T) in lb ft^2, rpm, lb ft.
    # Source: continuing-education course E161, "Practical Motor Starting", equation 2; others
    # print 307, which is nearer to 32.174 x 60 / (2 pi). Standing: secondary.
    pounds = moment / (0.45359237 * 0.3048**2)
    seconds = pounds * (speed * 60 / (2 * math.pi)) / (308 * newton_metres * 0.737562)
    assert found.started[0] == pytest.approx(seconds, rel=8e-3)


# impedance of the source, of the conductors, locked-rotor amps and power factor at 240 V. Invented.
DIVIDERS = [
    (0.02 + 0.05j, 0.15 + 0.01j, 77.0, 0.66),
    (0.01 + 0.02j, 0.0, 150.0, 0.66),
    (0.3 + 0j, 0.6 + 0.03j, 48.0, 0.55),
    (0.5j, 0.2 + 0.02j, 102.0, 0.45),
    (1.5 + 1.0j, 0.5, 168.0, 0.70),
]


@pytest.mark.parametrize("source, wire, amps, factor", DIVIDERS)
def test_divider_at_standstill(source: complex, wire: complex, amps: float, factor: float) -> None:
    """``|Zm| / |Zm + Zc + Zs|``, Kirchhoff: in the screen, and in the first instant of a start."""
    motor = 240 / amps * complex(factor, math.sqrt(1 - factor**2))
    expected = abs(motor) / abs(motor + wire + source)
    case = one_start(
        source_impedance=source,
        circuit_impedance=complex(wire),
        locked_amps=amps,
        locked_power_factor=factor,
    )
    found = solved(case)
    assert screens(case).divider[0] == pytest.approx(expected, rel=1e-9)
    assert found.course.motor_volts[0, 0, 0] / 240 == pytest.approx(expected, rel=1e-9)
    bus = abs(motor + wire) / abs(motor + wire + source)
    assert found.course.bus[0, 0, 0] / 240 == pytest.approx(bus, rel=1e-9)
    # Adding amounts instead of phasors says more dip than there is.
    assert expected > abs(motor) / (abs(motor) + abs(wire) + abs(source))


@pytest.mark.parametrize("wire", [0j, 0.3 + 0.02j])
@pytest.mark.parametrize("locked_torque", [0.35, 1.2])
@pytest.mark.parametrize("ceiling", [10.0, 37.5, 58.0, 62.0])
def test_torque_at_the_ceiling(ceiling: float, locked_torque: float, wire: complex) -> None:
    """``LRT (I / LRA)^2``, whatever lies before the motor: torque goes with amps squared."""
    case = one_start(ceiling, locked_torque=locked_torque, circuit_impedance=wire)
    expected = locked_torque * (ceiling / 77.0) ** 2
    assert torque_at_standstill(case) == pytest.approx(expected, rel=1e-9)


# locked-rotor amps, torque at standstill, breakaway, and by hand LRA sqrt(breakaway / torque) [A]
LEAST = [
    (77.0, 0.35, 0.12, 45.09),
    (150.0, 0.35, 0.12, 87.83),
    (48.0, 1.2, 0.15, 16.97),
    (77.0, 1.2, 0.12, 24.35),
]


@pytest.mark.parametrize("amps, torque, breakaway, least", LEAST)
def test_a_little_more_than_the_least_amps_moves_it(
    amps: float, torque: float, breakaway: float, least: float
) -> None:
    motor: dict[str, Any] = {"locked_amps": amps, "locked_torque": torque, "rated_amps": amps / 5.5}
    load = {"breakaway": breakaway, "constant": 0.05}
    assert screens(one_start(load=load, **motor)).least_amps[0] == pytest.approx(least, abs=0.01)
    assert solved(one_start(least * 0.998, load, **motor)).last_speed[0] == 0
    assert solved(one_start(least * 1.002, load, **motor)).last_speed[0] > 0
