"""The corners of a start: its motor and load at the ends of what is known of them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.start_case import StartCase

Floats = NDArray[np.float64]


class Corner(NamedTuple):
    """Factors on what nobody measures [1]: torque at standstill, breakaway, inertia."""

    locked_torque: float
    breakaway: float
    inertia: float


#: Standing of both: derived, our choice.
PESSIMISTIC = Corner(0.75, 1.30, 1.50)
OPTIMISTIC = Corner(1.25, 0.75, 0.70)


def at_corner(case: StartCase, corner: Corner, locked_amps: Floats, source: Floats) -> StartCase:
    """Return the starts at a corner.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    corner : Corner
        Its factors [1].
    locked_amps : ndarray, shape (L,)
        Locked-rotor amps there, at rated volts [A].
    source : ndarray, shape (L,)
        Factor on the impedance of the source there [1].

    Notes
    -----
    Source: derived, our choice of the factors.
    """
    load = case.load
    return case._replace(
        locked_amps=np.asarray(locked_amps),
        source_impedance=case.source_impedance * source,
        locked_torque=case.locked_torque * corner.locked_torque,
        inertia=case.inertia * corner.inertia,
        load=load._replace(breakaway=load.breakaway * corner.breakaway),
    )
