"""Voltages at the end of a 120/240 V three-wire run whose legs carry different currents."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


class ThreeWireDrop(NamedTuple):
    """Drop of each leg and between both, in the shape of the inputs broadcast.

    Attributes
    ----------
    leg_1, leg_2 : ndarray
        From hot to neutral [V]; negative where the voltage of an idle leg rises.
    between : ndarray
        From hot to hot [V].
    neutral_amps : ndarray
        In the neutral [A].
    """

    leg_1: Floats
    leg_2: Floats
    between: Floats
    neutral_amps: Floats


def three_wire_drop(
    leg_volts: ArrayLike,
    leg_1: ArrayLike,
    leg_2: ArrayLike,
    hot: ArrayLike,
    neutral: ArrayLike,
) -> ThreeWireDrop:
    """Return the drop of an unbalanced three-wire run, as phasors.

    Parameters
    ----------
    leg_volts : array_like
        From each hot to the neutral at the source [V].
    leg_1, leg_2 : array_like of complex
        Current of each leg against its own voltage at the source [A]; lagging is negative
        imaginary.
    hot, neutral : array_like of complex
        Impedance of a hot and of the neutral over the length, one way [ohm].

    Returns
    -------
    ThreeWireDrop

    Notes
    -----
    The neutral returns the difference of both: what one leg loses in it the other one gains.
    Source: derived, Kirchhoff's laws for phasors.
    """
    volts = np.asarray(leg_volts, np.float64)
    one, two = np.asarray(leg_1, np.complex128), np.asarray(leg_2, np.complex128)
    back = one - two
    end_1 = volts - np.asarray(hot) * one - np.asarray(neutral) * back
    end_2 = volts - np.asarray(hot) * two + np.asarray(neutral) * back
    return ThreeWireDrop(
        np.asarray(volts - np.abs(end_1)),
        np.asarray(volts - np.abs(end_2)),
        np.asarray(2 * volts - np.abs(end_1 + end_2)),
        np.asarray(np.abs(back)),
    )
