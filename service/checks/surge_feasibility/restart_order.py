"""What runs beside each motor as everything starts again, in the worst and in the best order."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


class RestartOrder(NamedTuple):
    """Loads beside each motor when it starts, shape (L, M); an absent motor has none.

    Attributes
    ----------
    beside_worst : ndarray of complex
        The steady loads and all other motors, since it starts last [W + j var].
    beside_recommended : ndarray of complex
        The steady loads and the motors that start before it, largest start first [W + j var].
    rank : ndarray of int
        Place in the recommended order, from 0; absent motors come after all present ones.
    """

    beside_worst: Complexes
    beside_recommended: Complexes
    rank: NDArray[np.intp]


def restart_order(
    motor_va: Complexes, present: NDArray[np.bool_], start_amps: Floats, beside_va: Complexes
) -> RestartOrder:
    """Return the loads beside each motor as all of them start again.

    Parameters
    ----------
    motor_va : ndarray of complex, shape (L, M)
        Of the motors once they run [W + j var].
    present : ndarray of bool, shape (L, M)
        Which motors there are; the rest pads.
    start_amps : ndarray, shape (L, M)
        Of the motors as they start [A], at the same volts or as parts of the same source.
    beside_va : ndarray of complex, shape (L,)
        Of the steady loads [W + j var].

    Returns
    -------
    RestartOrder
        Of each motor. Equal starts keep the order in which they are given.

    Notes
    -----
    After an interruption every thermostat calls, so no diversity is counted.
    Source: derived; largest start first is common practice of generator manuals, secondary.
    """
    running = np.where(present, motor_va, 0)
    steady = beside_va[:, np.newaxis]
    others = running @ (1.0 - np.eye(motor_va.shape[1]))
    order = np.argsort(-np.where(present, start_amps, -np.inf), axis=1, kind="stable")
    rank = np.argsort(order, axis=1, kind="stable")
    upto = np.cumsum(np.take_along_axis(running, order, axis=1), axis=1)
    before = np.zeros_like(upto)
    before[:, 1:] = upto[:, :-1]
    larger = np.take_along_axis(before, rank, axis=1)
    return RestartOrder(
        np.where(present, steady + others, 0), np.where(present, steady + larger, 0), rank
    )
