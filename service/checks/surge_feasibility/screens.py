"""Closed forms that explain a start: the divider at standstill, the least amps that move it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.motor_load import standstill_torque
from service.checks.surge_feasibility.start_case import StartCase

Floats = NDArray[np.float64]


class Screens(NamedTuple):
    """Hand checks of each start, shape (L,).

    Attributes
    ----------
    divider : ndarray
        Volts at a motor at standstill on an unlimited source that feeds it alone, in parts of the
        source's [1].
    least_amps : ndarray
        Least amps of the motor that move its load [A].
    first_rating : ndarray
        Highest printed amps of the source [A].
    """

    divider: Floats
    least_amps: Floats
    first_rating: Floats


def screens(case: StartCase) -> Screens:
    """Return the hand checks of each start.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm].

    Notes
    -----
    ``|Zm| / |Zm + Zc + Zs|`` as a sum of phasors, and ``I = LRA sqrt(breakaway / locked torque)``,
    since torque goes with the square of the current.
    Source: derived, Ohm's law; NEMA MG 1-2011 condensed, 12.44.2.
    """
    angle = np.arccos(case.locked_power_factor)
    motor = case.rated_volts / case.locked_amps * np.exp(1j * angle)
    whole = motor + case.circuit_impedance + case.source_impedance
    needed = standstill_torque(case.load) / (case.locked_torque * _boost(case))
    least = case.locked_amps * np.sqrt(needed)
    return Screens(np.abs(motor) / np.abs(whole), least, case.rating_amps[:, 0])


def _boost(case: StartCase) -> Floats:
    return np.where(np.isfinite(case.soft_current), case.soft_boost, 1.0)
