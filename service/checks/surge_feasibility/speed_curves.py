"""What a motor, its load and its source do at every speed, for each phase of a start."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.bus_voltage import Beside, Bus, bus_voltage
from service.checks.surge_feasibility.motor_circuit import (
    MotorCircuit,
    admittance,
    torque_at_rated_volts,
)
from service.checks.surge_feasibility.motor_load import MotorLoad, torque_by_speed
from service.checks.surge_feasibility.start_case import StartCase, some_lanes

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]

#: Part of the speed at rated torque that counts as started [1]. Standing: derived, our choice.
STARTED = 0.98
#: Nodes between standstill and started, close together where the breakaway fades [1].
_NODES = np.concatenate(
    [[0, 0.001, 0.002, 0.004, 0.007, 0.01, 0.015, 0.02, 0.03, 0.045], np.linspace(0.06, 1, 72)]
)


class SpeedCurves(NamedTuple):
    """A start by speed: axes are lane, phase and node; between nodes all of it is linear.

    Attributes
    ----------
    begins : ndarray, shape (L, P)
        When each phase begins [s]; infinite: never.
    speed : ndarray, shape (L, N)
        Parts of synchronous speed [1].
    gain : ndarray, shape (L,)
        Speed gained per second and part of rated torque left over [1/s].
    acceleration : ndarray, shape (L, P, N)
        Without the pressure of the load [1/s].
    bus, motor_volts, amps, motor_amps, over : ndarray, shape (L, P, N)
        Volts at bus and motor, amps of source and motor, amps an unlimited source would give beyond
        the ceiling [V, A].
    solved : ndarray of bool, shape (L, P, N)
        False where no voltage was found.
    most_watts : ndarray, shape (L,)
        Most power that leaves the source on the way to the speed that counts as started [W].
    """

    begins: Floats
    speed: Floats
    gain: Floats
    acceleration: Floats
    bus: Floats
    motor_volts: Floats
    amps: Floats
    motor_amps: Floats
    over: Floats
    solved: Bools
    most_watts: Floats


def speed_curves(case: StartCase, circuit: MotorCircuit) -> SpeedCurves:
    """Return the curves of every lane.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,); units in its own description [V, A, ohm, s].
    circuit : MotorCircuit
        Their motors, shape (L,) [ohm].

    Returns
    -------
    SpeedCurves

    Notes
    -----
    A phase is a time in which neither the source's ceiling nor the soft starter changes.
    ``dn/dt = (Te - TL) eff / ((1 - s) 2 H)``, torques in parts of rated torque.
    Source: derived, Newton's law for rotation; H as in the swing equation.
    """
    begins, ceiling, soft = _phases(case)
    speed = STARTED * (1 - case.rated_slip)[:, None] * _NODES
    motor = MotorCircuit._make(member[:, None] for member in circuit)
    load = MotorLoad(*(member[:, None] for member in case.load))
    torque = np.stack(
        [
            torque_at_rated_volts(
                motor,
                speed,
                case.rated_slip[:, None],
                locked[:, None],
                case.start_winding_out[:, None],
            )
            for locked in (case.locked_torque, case.locked_torque * case.soft_boost)
        ],
        axis=1,
    )
    torque = np.take_along_axis(torque, soft[:, :, None].astype(int), axis=1)
    own = admittance(motor, speed)
    found = _bus(case, own, ceiling, soft)
    motor_volts = found.motor_amps / np.abs(own)[:, None, :]
    # With a wire that gets no credit the worse of it and of none counts, at every speed.
    worse = np.flatnonzero(~case.wire_credit & (case.circuit_impedance != 0))
    if len(worse):
        bare = some_lanes(case, worse)
        none = bare._replace(circuit_impedance=np.zeros_like(bare.circuit_impedance))
        without = _bus(none, own[worse], ceiling[worse], soft[worse])
        volts = without.motor_amps / np.abs(own[worse])[:, None, :]
        motor_volts[worse] = np.minimum(motor_volts[worse], volts)
        for member, other, pick in zip(found, without, _WORSE, strict=True):
            member[worse] = pick(member[worse], other)
    gain = case.efficiency / ((1 - case.rated_slip) * 2 * case.inertia)
    per_volt = torque / case.rated_volts[:, None, None] ** 2
    needed = torque_by_speed(load, speed)[:, None, :]
    acceleration = gain[:, None, None] * (per_volt * motor_volts**2 - needed)
    return SpeedCurves(
        begins,
        speed,
        gain,
        acceleration,
        found.volts,
        motor_volts,
        found.amps,
        found.motor_amps,
        found.over,
        found.solved,
        _most_watts(case, own, found),
    )


def _most_watts(case: StartCase, own: Complexes, found: Bus) -> Floats:
    """Return the most power of motor, conductors and what runs beside it [W].

    What runs on the other leg counts too; that loads take less as the volts sag does not.
    """
    resistance = (1 / own).real + case.circuit_impedance.real[:, None]
    watts = found.motor_amps**2 * resistance[:, None, :]
    return np.asarray(watts.max(axis=(1, 2)) + case.beside_watts)


#: The worse of two buses: lower volts, more amps, found by both.
_WORSE: tuple[np.ufunc, ...] = (
    np.minimum,
    np.maximum,
    np.maximum,
    np.maximum,
    np.logical_and,
)


def _bus(case: StartCase, own: Complexes, ceiling: Floats, soft: Bools) -> Bus:
    """Return the bus of every lane, phase and node, behind the case's wires."""
    at_bus = 1 / (1 / own + case.circuit_impedance[:, None])
    return bus_voltage(
        case.source_volts[:, None, None],
        case.source_impedance[:, None, None],
        ceiling[:, :, None],
        np.broadcast_to(at_bus[:, None, :], (*ceiling.shape, _NODES.size)),
        Beside(case.beside_impedance[:, None, None], case.beside_power[:, None, None]),
        np.where(soft, (case.soft_current * case.locked_amps)[:, None], np.inf)[:, :, None],
    )


def _phases(case: StartCase) -> tuple[Floats, Floats, Bools]:
    """Return when phases begin [s], the ceiling of each [A] and whether the soft starter holds."""
    ends = case.rating_seconds[:, :-1]
    ramp = np.where(np.isfinite(case.soft_current), case.soft_ramp, np.inf)[:, None]
    begins = np.sort(np.concatenate([np.zeros((len(ramp), 1)), ends, ramp], axis=1), axis=1)
    begins = np.where(begins < case.start_limit[:, None], begins, np.inf)
    # No lane has more phases than begin in time.
    begins = begins[:, : max(int(np.isfinite(begins).sum(axis=1).max(initial=1)), 1)]
    step = (begins[:, :, None] >= ends[:, None, :]).sum(axis=2)
    ceiling = np.take_along_axis(case.rating_amps, step, axis=1)
    return begins, ceiling, np.isfinite(case.soft_current)[:, None] & (begins < ramp)
