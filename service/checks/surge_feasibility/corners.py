"""The corners of a start: its motor and load at the ends of what is known of them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.start_case import StartCase

Floats = NDArray[np.float64]


class Corner(NamedTuple):
    """Factors on what nobody measures [1]: torque at standstill, breakaway, inertia; its place."""

    locked_torque: float
    breakaway: float
    inertia: float
    place: int


#: Standing of both: derived, our choice.
PESSIMISTIC = Corner(0.75, 1.30, 1.50, 0)
OPTIMISTIC = Corner(1.25, 0.75, 0.70, 1)


def at_nominal(case: StartCase) -> StartCase:
    """Return the starts at nominal values, without what their corners would have [W + j var].

    Notes
    -----
    Source: derived.
    """
    none = np.zeros_like(case.corner_impedance)
    return case._replace(corner_impedance=none, corner_power=none, corner_watts=none.real)


def at_corner(
    case: StartCase, corner: Corner, locked_amps: Floats, rated_amps: Floats, source: Floats
) -> StartCase:
    """Return the starts at a corner.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    corner : Corner
        Its factors [1].
    locked_amps, rated_amps : ndarray, shape (L,)
        Locked-rotor and rated-load amps there, at rated volts [A].
    source : ndarray, shape (L,)
        Factor on the impedance of the source there [1].

    Notes
    -----
    A long wire holds the current of a start down like a resistor. What passes gets no credit for
    that: at the pessimistic corner, with the wire and without it, the worse counts.
    Source: derived, our choice of the factors.
    """
    load = case.load
    place = corner.place
    return at_nominal(case)._replace(
        beside_impedance=case.corner_impedance[:, place],
        beside_power=case.corner_power[:, place],
        beside_watts=case.corner_watts[:, place],
        wire_credit=case.wire_credit & (place != PESSIMISTIC.place),
        locked_amps=np.asarray(locked_amps),
        rated_amps=np.asarray(rated_amps),
        source_impedance=case.source_impedance * source,
        locked_torque=case.locked_torque * corner.locked_torque,
        inertia=case.inertia * corner.inertia,
        load=load._replace(breakaway=load.breakaway * corner.breakaway),
    )
