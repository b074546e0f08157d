"""What stands beside a motor on its bus: the worse leg of both, at every end of what is known."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.leg_amps import UNKNOWN_SHARE

Complexes = NDArray[np.complex128]

#: Places along the last axis: at nominal values, at the pessimistic corner, at the optimistic one.
NOMINAL, PESSIMISTIC, OPTIMISTIC = range(3)


class Legs(NamedTuple):
    """Loads by where they hang [W + j var]."""

    both: complex
    leg_1: complex
    leg_2: complex
    unknown: complex


def legs(loads: list[tuple[complex, str]]) -> Legs:
    """Return the sums of some loads by circuit [W + j var].

    Notes
    -----
    Source: derived.
    """
    return Legs(*(sum((va for va, on in loads if on == name), 0j) for name in _CIRCUITS))


_CIRCUITS = ("both_legs", "leg_1", "leg_2", "one_leg")


def beside_motor(
    circuit: str,
    impedance: Legs,
    power: Legs,
    *,
    one_leg_only: bool,
    share: float = UNKNOWN_SHARE,
) -> Complexes:
    """Return what hangs on a motor's bus beside it, as the bus counts it.

    Parameters
    ----------
    circuit : str
        Of the motor: ``both_legs``, ``leg_1``, ``leg_2`` or ``one_leg``.
    impedance, power : Legs
        Loads of constant impedance and of constant power [W + j var].
    one_leg_only : bool
        Whether the source has one bus of 120 V: everything hangs on it.
    share : float, optional
        Of the loads of unknown leg, usually on the heavier one [1].

    Returns
    -------
    ndarray of complex, shape (2, 3)
        Of constant impedance and of constant power, by end of what is known [W + j var].

    Notes
    -----
    The amps of a leg are what a source is rated for. A load on one leg takes twice the amps there
    that its power takes from both; so the bus of both legs counts it twice where it is on the
    heavier leg. Of what is on an unknown leg the heavier one has the usual share at nominal values,
    all of it at the pessimistic end; at the optimistic one both legs are even, or none of it is on
    the leg of the motor.
    Source: derived, Kirchhoff's current law; the share is our own choice.
    """
    if one_leg_only:
        return np.array([[sum(loads)] * 3 for loads in (impedance, power)], complex)
    first, second = (abs(impedance[at] + power[at]) for at in (1, 2))
    known = (1.0, 0.0) if first >= second else (0.0, 1.0)
    rows = _weights(circuit, known, share)
    return np.array([[_sum(row, loads) for row in rows] for loads in (impedance, power)], complex)


def _sum(row: tuple[float, ...], loads: Legs) -> complex:
    both, leg_1, leg_2, unknown = row
    return both * loads[0] + leg_1 * loads[1] + leg_2 * loads[2] + unknown * loads[3]


def _weights(circuit: str, heavier: tuple[float, float], usual: float) -> list[tuple[float, ...]]:
    """Return the weights of both legs, leg 1, leg 2 and an unknown leg, by end."""
    shares = (usual, 1.0)
    if circuit == "both_legs":
        worse = [(1.0, 2 * heavier[0], 2 * heavier[1], 2 * share) for share in shares]
        return [*worse, (1.0, 1.0, 1.0, 1.0)]
    if circuit == "one_leg":
        lighter = (heavier[1], heavier[0])
        return [*[(0.5, *heavier, share) for share in shares], (0.5, *lighter, 0.0)]
    own = (1.0, 0.0) if circuit == "leg_1" else (0.0, 1.0)
    return [(0.5, *own, share) for share in (*shares, 0.0)]
