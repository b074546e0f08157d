"""The torque that a driven machine asks of its motor."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Speed over which the torque that breaks a machine away fades [1]. Standing: derived, our choice.
_FADES_OVER = 0.01


class MotorLoad(NamedTuple):
    """Torque of a driven machine, in parts of the motor's rated torque, one value a lane.

    Attributes
    ----------
    breakaway : ndarray
        To be exceeded before it turns [1].
    constant, square : ndarray
        Friction, and what goes with the square of the speed [1].
    pressure, pressure_at_start : ndarray
        Of gas under pressure, once built up and when it starts [1].
    pressure_turns : ndarray
        Turns of the shaft in which the pressure builds up, to 1 - 1/e [1].
    """

    breakaway: Floats
    constant: Floats
    square: Floats
    pressure: Floats
    pressure_at_start: Floats
    pressure_turns: Floats


def torque_by_speed(load: MotorLoad, speed: Floats) -> Floats:
    """Return the torque without the pressure [1], which goes with the turns.

    Parameters
    ----------
    load : MotorLoad
        Its members broadcast against the speed.
    speed : ndarray
        Part of synchronous speed [1].

    Notes
    -----
    Source: derived: affinity laws for the square, our choice for how the breakaway fades.
    """
    extra = np.maximum(load.breakaway - load.constant, 0.0)
    return np.asarray(load.constant + load.square * speed**2 + extra * np.exp(-speed / _FADES_OVER))


def torque_of_pressure(load: MotorLoad, turns: Floats) -> Floats:
    """Return the torque of the pressure after some turns of the shaft [1].

    Notes
    -----
    Source: derived, our choice of an exponential.
    """
    missing = load.pressure_at_start - load.pressure
    return np.asarray(load.pressure + missing * np.exp(-turns / load.pressure_turns))


def standstill_torque(load: MotorLoad) -> Floats:
    """Return the torque to be exceeded before the machine turns [1].

    Notes
    -----
    Source: derived.
    """
    return np.asarray(np.maximum(load.breakaway, load.constant) + load.pressure_at_start)
