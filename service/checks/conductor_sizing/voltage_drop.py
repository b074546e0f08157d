"""Voltage lost, or gained by a source, along a run; and the energy that the run takes."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

#: How many times the length of a run the current passes, by circuit.
#: Two wires, alternating or direct; also the 240 V between the hots of a balanced three-wire run.
THERE_AND_BACK: Final = 2.0
#: From a hot to the neutral of a balanced three-wire run, on the base of 120 V.
ONE_WAY: Final = 1.0
#: Between two phases of three.
THREE_PHASE: Final = 3.0**0.5


def approximate_drop(
    amps: ArrayLike,
    resistance: ArrayLike,
    reactance: ArrayLike,
    power_factor: ArrayLike = 1.0,
    passes: ArrayLike = THERE_AND_BACK,
) -> Floats:
    """Return the drop by the formula of the trade, without the small turn of the phasor.

    Parameters
    ----------
    amps : array_like
        Current that flows, not raised for continuous load [A].
    resistance, reactance : array_like
        Of one conductor over the length of the run, one way [ohm].
    power_factor : array_like, optional
        Lagging [1].
    passes : array_like, optional
        `THERE_AND_BACK`, `ONE_WAY` or `THREE_PHASE`.

    Returns
    -------
    ndarray
        [V].

    Notes
    -----
    ``passes I (R cos + X sin)``; without reactance and at power factor 1, direct current.
    Source: NEC 2023 (NFPA 70) Chapter 9, Table 9, note 2.
    """
    cosine = np.asarray(power_factor, np.float64)
    sine = np.sqrt(1.0 - cosine**2)
    in_phase = np.asarray(resistance) * cosine + np.asarray(reactance) * sine
    return np.asarray(np.asarray(passes) * np.asarray(amps) * in_phase)


def exact_drop(
    volts: ArrayLike,
    volts_at_load: ArrayLike,
    along: Floats,
    across: Floats,
) -> Floats:
    """Return by how much the sending end stands above the receiving end.

    Parameters
    ----------
    volts : array_like
        At the end whose voltage is known [V].
    volts_at_load : array_like of bool
        Whether that is the receiving end: so for a source that feeds into a service, whose drop is
        the rise at the source. Else it is the sending end.
    along, across : ndarray
        Drop in phase with the receiving end's voltage and at right angles to it [V], from
        `drop_parts`.

    Returns
    -------
    ndarray
        [V]; infinite where the sending end cannot push the current through.

    Notes
    -----
    ``(receiving + along)^2 + across^2 = sending^2``.
    Source: derived, Kirchhoff's voltage law for phasors.
    """
    known, squared = np.asarray(volts, np.float64), across**2
    at_load = np.asarray(volts_at_load, np.bool_)
    if at_load.all():
        return np.asarray(np.sqrt((known + along) ** 2 + squared) - known)
    receiving = np.sqrt(np.maximum(known**2 - squared, 0.0)) - along
    drop = np.where((known**2 >= squared) & (receiving >= 0), known - receiving, np.inf)
    if not at_load.any():
        return drop
    return np.where(at_load, np.sqrt((known + along) ** 2 + squared) - known, drop)


def drop_parts(
    amps: ArrayLike,
    resistance: ArrayLike,
    reactance: ArrayLike,
    power_factor: ArrayLike,
    passes: ArrayLike = THERE_AND_BACK,
) -> tuple[Floats, Floats]:
    """Return the drop in phase with the receiving end's voltage, and across it [V].

    Notes
    -----
    The inputs are those of `approximate_drop`, which returns the first of both.
    Source: derived, the product of impedance and a lagging current.
    """
    cosine = np.asarray(power_factor, np.float64)
    sine = np.sqrt(1.0 - cosine**2)
    current = np.asarray(passes) * np.asarray(amps)
    real, imaginary = current * cosine, current * sine
    r, x = np.asarray(resistance), np.asarray(reactance)
    return np.asarray(r * real + x * imaginary), np.asarray(x * real - r * imaginary)


def loss(
    amps: ArrayLike, resistance: ArrayLike, carrying: ArrayLike = 2.0, seconds: ArrayLike = 1.0
) -> Floats:
    """Return the energy that the conductors turn into heat.

    Parameters
    ----------
    amps : array_like, shape (..., T)
        Current during each interval [A].
    resistance : array_like, broadcastable to shape (...)
        Of one conductor over the length of the run, one way [ohm].
    carrying : array_like, optional
        How many conductors carry it: 2, or 3 of three phases.
    seconds : array_like, optional
        Length of the intervals [s]; 1 gives the power of one interval [W].

    Returns
    -------
    ndarray, shape (...)
        [J].

    Notes
    -----
    Source: derived, Joule's law.
    """
    squared = (np.asarray(amps, np.float64) ** 2 * np.asarray(seconds)).sum(axis=-1)
    return np.asarray(np.asarray(carrying) * np.asarray(resistance) * squared)
