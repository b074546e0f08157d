"""A motor's start, one case at a time by a general integrator: the reference of the exact march.

The circuit is fitted by least squares, the bus by iteration, the speed by Runge-Kutta. Written from
the same equations as the march and sharing no line with it.

Source: derived here from Kirchhoff's laws, the equivalent circuit of an induction motor and NEMA
MG 1-2011 condensed, 12.44 (torque with the square of the volts).
"""

from __future__ import annotations

import cmath
import math
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.optimize import least_squares

from service.checks.surge_feasibility.start_case import StartCase

_OMEGA = 2 * math.pi * 60
#: The speed counts as reached at this part of the rated one.
_REACHED = 0.98


class Reference(NamedTuple):
    """When it had started [s], infinite: never; lowest volts at the bus [1]; most amps [A]."""

    started: float
    least_bus: float
    most_amps: float


class _One:
    """One lane as plain numbers."""

    def __init__(self, case: StartCase, lane: int) -> None:
        values = {
            name: getattr(case, name)[lane].tolist() for name in case._fields if name != "load"
        }
        self.__dict__.update(values)
        self.load = {name: float(m[lane]) for name, m in case.load._asdict().items()}
        self.sync = _OMEGA * 2 / self.poles
        self.p_in = self.rated_volts * self.rated_amps * self.rated_power_factor
        self.torque_rated = self.p_in * self.efficiency / (self.sync * (1 - self.rated_slip))
        self.j = 2 * self.inertia * self.p_in / self.sync**2
        self._fit()

    rated_volts: float
    locked_amps: float
    rated_amps: float
    locked_power_factor: float
    rated_power_factor: float
    rated_slip: float
    poles: float
    locked_torque: float
    start_winding_out: float
    inertia: float
    efficiency: float
    source_volts: float
    source_impedance: complex
    circuit_impedance: complex
    rating_seconds: list[float]
    rating_amps: list[float]
    beside_impedance: complex
    beside_power: complex
    soft_current: float
    soft_boost: float
    soft_ramp: float
    start_limit: float

    def _fit(self) -> None:
        def at(amps: float, factor: float) -> complex:
            return amps / self.rated_volts * cmath.rect(1, -math.acos(factor))

        ends = (
            (1.0, at(self.locked_amps, self.locked_power_factor)),
            (self.rated_slip, at(self.rated_amps, self.rated_power_factor)),
        )

        def misses(p: list[float]) -> list[float]:
            found = []
            for slip, wanted in ends:
                gap = (1 / complex(p[0] + p[1] / slip, p[2]) + 1j * p[3] - wanted) / abs(wanted)
                found += [gap.real, gap.imag]
            return found

        z = 1 / ends[0][1]
        fit = least_squares(
            misses,
            [z.real / 2, z.real / 2, z.imag, 0.0],
            bounds=([1e-6, 1e-6, 1e-6, -1], [50, 50, 50, 1]),
            xtol=1e-14,
            ftol=1e-14,
            gtol=1e-14,
        )
        self.r1, self.r2, self.x, self.b = (float(part) for part in fit.x)

    def admittance(self, speed: float) -> complex:
        return 1 / complex(self.r1 + self.r2 / max(1 - speed, 1e-4), self.x) + 1j * self.b

    def air_gap(self, slip: float) -> float:
        rotor = self.r2 / max(slip, 1e-4)
        return rotor / ((self.r1 + rotor) ** 2 + self.x**2)

    def torque(self, volts: float, speed: float, boost: float) -> float:
        rated = self.air_gap(self.rated_slip)
        still = self.locked_torque * rated / self.air_gap(1.0) * boost
        out = min(speed / self.start_winding_out, 1.0)
        shape = still * (1 - out) + out
        per_square = self.torque_rated / (self.rated_volts**2 * rated)
        return per_square * shape * volts**2 * self.air_gap(1 - speed)

    def asked(self, speed: float, turns: float) -> float:
        load = self.load
        built = 1 - math.exp(-turns / load["pressure_turns"])
        pressure = (
            load["pressure_at_start"] + (load["pressure"] - load["pressure_at_start"]) * built
        )
        extra = max(load["breakaway"] - load["constant"], 0.0) * math.exp(-speed / 0.01)
        return load["constant"] + load["square"] * speed**2 + pressure + extra

    def ceiling(self, time: float) -> float:
        for end, amps in zip(self.rating_seconds, self.rating_amps, strict=True):
            if time < end:
                return amps
        return self.rating_amps[-1]

    def bus(self, speed: float, time: float) -> tuple[float, float, float, float]:
        """Return volts at the bus and the motor, amps of the source, boost of the torque."""
        e, motor = self.source_volts, self.admittance(speed)
        fixed = self.beside_impedance.conjugate() / e**2
        soft = time < self.soft_ramp and math.isfinite(self.soft_current)
        volts, most = e, self.ceiling(time)
        behind = 1 / (1 / motor + self.circuit_impedance)
        for _ in range(200):
            y = behind
            if soft and volts * abs(y) > self.soft_current * self.locked_amps:
                y *= self.soft_current * self.locked_amps / (volts * abs(y))
            power = self.beside_power.conjugate() / max(volts, 0.3 * e) ** 2
            whole = y + fixed + power
            then = e / abs(1 + self.source_impedance * whole)
            then = min(then, most / abs(whole))
            if abs(then - volts) < 1e-9 * e:
                break
            volts = (volts + then) / 2
        amps = volts * abs(y)
        return volts, amps / abs(motor), volts * abs(whole), self.soft_boost if soft else 1.0


def start_reference(case: StartCase, lane: int = 0) -> Reference:
    """Return one start, integrated from standstill to its speed or its time limit."""
    one = _One(case, lane)
    goal = _REACHED * (1 - one.rated_slip)

    def changes(time: float, state: NDArray[np.float64]) -> list[float]:
        speed, turns = max(state[0], 0.0), state[1]
        _, volts, _, boost = one.bus(speed, time)
        net = one.torque(volts, speed, boost) / one.torque_rated - one.asked(speed, turns)
        gained = net * one.torque_rated / (one.j * one.sync)
        if gained < 0:
            gained *= min(speed / 1e-3, 1.0)
        return [gained, speed * one.sync / (2 * math.pi)]

    def reached(_time: float, state: NDArray[np.float64]) -> float:
        return float(state[0] - goal)

    reached.terminal = True  # type: ignore[attr-defined]
    steps = [t for t in [*one.rating_seconds, one.soft_ramp] if 0 < t < one.start_limit]
    edges = sorted({0.0, one.start_limit, *steps})
    state, least, most, started = np.zeros(2), math.inf, 0.0, math.inf
    for begin, end in pairwise(edges):
        run = solve_ivp(
            changes, (begin, end - 1e-9), state, max_step=4e-3, rtol=1e-6, atol=1e-8, events=reached
        )
        for time, speed in zip(run.t, run.y[0], strict=True):
            volts, _, amps, _ = one.bus(max(speed, 0.0), time)
            least, most = min(least, volts), max(most, amps)
        state = run.y[:, -1]
        if run.t_events[0].size:
            started = float(run.t_events[0][0])
            break
    return Reference(started, least / one.source_volts, most)
