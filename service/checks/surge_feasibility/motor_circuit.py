"""A single-phase induction motor as a circuit: fitted to its nameplate; admittance, torque."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]

#: Slip nearer to synchronous speed than this is read as this: the circuit has a pole there.
_LEAST_SLIP = 1e-4


class MotorCircuit(NamedTuple):
    """A series branch R1 + R2/s + jX beside a susceptance B, one value a lane.

    Attributes
    ----------
    r1_ohm, r2_ohm, x_ohm : ndarray
        Series branch [ohm].
    b_siemens : ndarray
        What stands beside it: capacitor less magnetising current [S].
    fits : ndarray of bool
        Whether the four facts of the nameplate agree with each other; no number holds where not.
    """

    r1_ohm: Floats
    r2_ohm: Floats
    x_ohm: Floats
    b_siemens: Floats
    fits: Bools


def motor_circuit(
    volts: Floats,
    locked_amps: Floats,
    locked_power_factor: Floats,
    rated_amps: Floats,
    rated_power_factor: Floats,
    rated_slip: Floats,
) -> MotorCircuit:
    """Return the circuit that draws what the nameplate says, at standstill and at rated slip.

    Parameters
    ----------
    volts : ndarray, shape (L,)
        Rated voltage [V].
    locked_amps, rated_amps : ndarray, shape (L,)
        Current at standstill and at rated slip [A].
    locked_power_factor, rated_power_factor : ndarray, shape (L,)
        Lagging power factors of both [1].
    rated_slip : ndarray, shape (L,)
        Slip at rated torque [1].

    Returns
    -------
    MotorCircuit

    Notes
    -----
    With y1 = g1 - j b1 at standstill, y2 = g2 - j b2 at rated slip, d = b1 - b2 and u = b1 + B the
    reactance of the series branch is the same in both where
    ``d u^2 - (g2^2 - g1^2 + d^2) u - d g1^2 = 0``. The root with R1, R2, X > 0 is taken.
    Source: derived, from the approximate equivalent circuit of the induction motor.
    """
    g1, b1 = _parts(locked_amps / volts, locked_power_factor)
    g2, b2 = _parts(rated_amps / volts, rated_power_factor)
    d = b1 - b2
    middle = g2**2 - g1**2 + d**2
    root = np.sqrt(middle**2 + 4 * d**2 * g1**2)
    found = [_branch(g1, b1, g2, d, rated_slip, (middle + s * root) / (2 * d)) for s in (1, -1)]
    chosen = np.where(found[0].fits, 0, 1)
    return MotorCircuit(*(np.choose(chosen, pair) for pair in zip(*found, strict=True)))


def _parts(admittance: Floats, power_factor: Floats) -> tuple[Floats, Floats]:
    return admittance * power_factor, admittance * np.sqrt(1 - power_factor**2)


def _branch(g1: Floats, b1: Floats, g2: Floats, d: Floats, slip: Floats, u: Floats) -> MotorCircuit:
    still, running = 1 / (g1 - 1j * u), 1 / (g2 - 1j * (u - d))
    r2 = (running.real - still.real) / (1 / slip - 1)
    r1 = still.real - r2
    fits = (r1 > 0) & (r2 > 0) & (still.imag > 0) & np.isfinite(u)
    return MotorCircuit(r1, r2, still.imag, u - b1, fits)


def admittance(circuit: MotorCircuit, speed: Floats) -> Complexes:
    """Return the admittance of a motor that turns [S].

    Parameters
    ----------
    circuit : MotorCircuit
        Its members broadcast against the speed.
    speed : ndarray
        Part of synchronous speed [1].

    Notes
    -----
    Source: derived, the approximate equivalent circuit of the induction motor.
    """
    slip = np.maximum(1.0 - speed, _LEAST_SLIP)
    series = circuit.r1_ohm + circuit.r2_ohm / slip + 1j * circuit.x_ohm
    return np.asarray(1 / series + 1j * circuit.b_siemens)


def torque_at_rated_volts(
    circuit: MotorCircuit,
    speed: Floats,
    rated_slip: Floats,
    locked_torque: Floats,
    start_winding_out: Floats,
) -> Floats:
    """Return the torque at rated voltage, in parts of rated torque [1]; it goes with volts squared.

    Parameters
    ----------
    circuit : MotorCircuit
        Its members broadcast against the speed.
    speed : ndarray
        Part of synchronous speed [1].
    rated_slip : ndarray
        Slip at rated torque [1].
    locked_torque : ndarray
        Torque at standstill, in parts of rated torque [1].
    start_winding_out : ndarray
        Speed at which the help of the start winding has faded out [1].

    Notes
    -----
    The torque of the circuit times a factor that goes linearly from what makes the torque at
    standstill the stated one to 1 where the start winding is out. Against a two-winding model of
    the same motor: from 12 % low to 7 % high between standstill and pull-out.
    Source: NEMA MG 1-2011 condensed, 12.44.2 (torque and volts); derived (the factor).
    """
    share = np.clip(speed / start_winding_out, 0.0, 1.0)
    rated = _air_gap(circuit, rated_slip)
    still = locked_torque * rated / _air_gap(circuit, np.ones_like(rated_slip))
    slip = np.maximum(1.0 - speed, _LEAST_SLIP)
    return np.asarray((still * (1 - share) + share) * _air_gap(circuit, slip) / rated)


def _air_gap(circuit: MotorCircuit, slip: Floats) -> Floats:
    rotor = circuit.r2_ohm / slip
    return np.asarray(rotor / ((circuit.r1_ohm + rotor) ** 2 + circuit.x_ohm**2))
