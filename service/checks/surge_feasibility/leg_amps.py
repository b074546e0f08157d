"""Amps of the two legs and the neutral of a split-phase source, as sums of phasors."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Ints = NDArray[np.int64]

#: How a load is connected: across both legs, to one of them, or to one that nobody knows.
BOTH_LEGS: Final = 0
LEG_1: Final = 1
LEG_2: Final = 2
LEG_UNKNOWN: Final = 3
#: Columns of the results: how the loads of unknown leg are spread.
EVEN: Final = 0
UNEVEN: Final = 1
ONE_LEG: Final = 2
#: Share of the loads of unknown leg on the heavier leg [1]. Standing: our own choice, no source.
UNKNOWN_SHARE: Final = 0.60
#: Volts from a leg to the neutral [V]. Standing: common practice, nominal 120/240 V service.
_LEG_VOLTS = 120.0
#: Legs that differ by less are equal, and leg 1 takes the share [1]. Standing: derived, our choice.
_TIE = 1e-12


class LegAmps(NamedTuple):
    """Amps of each lane, by how the 120 V loads of unknown leg are spread.

    Attributes
    ----------
    leg_1, leg_2, neutral : ndarray, shape (L, 3)
        Amps with the unknown loads spread evenly, with the share on one leg, and with all on one
        leg [A]; the one leg is that which makes the worse leg worse.
    likely : ndarray, shape (L,)
        Of the worse leg, with the share on it [A].
    most : ndarray, shape (L,)
        Of the worse leg, with all of the unknown loads on it [A]; no spread gives more where all
        loads lag.
    least : ndarray, shape (L,)
        No spread of the unknown loads gives the worse leg less [A], where all loads lag.
    """

    leg_1: Floats
    leg_2: Floats
    neutral: Floats
    likely: Floats
    most: Floats
    least: Floats


def leg_amps(
    va: Complexes,
    connection: Ints,
    share: ArrayLike = UNKNOWN_SHARE,
    whole: ArrayLike = False,
) -> LegAmps:
    """Return the amps of the legs and of the neutral.

    Parameters
    ----------
    va : ndarray of complex, shape (L, N)
        Loads at nominal volts, padded with zeros [W + j var].
    connection : ndarray of int, shape (L, N)
        `BOTH_LEGS`, `LEG_1`, `LEG_2` or `LEG_UNKNOWN`.
    share : array_like, broadcastable to shape (L,), optional
        Share of the loads of unknown leg on the heavier leg, from 0.5 to 1 [1].
    whole : array_like of bool, broadcastable to shape (L, N), optional
        Loads that are one machine, which cannot be spread.

    Returns
    -------
    LegAmps
        Of each lane.

    Notes
    -----
    ``I1 = conj(S240 / 240 + S1 / 120)``, likewise leg 2, each against its own leg's volts, and
    ``In = I1 - I2``. Each share is tried on leg 1 and on leg 2: where power factors differ, the leg
    that is heavier without the unknown loads may not be the worse one with them. The worse leg
    never falls as the share grows from one half: it is the largest of convex functions of the
    share that mirror each other at one half.
    Source: derived, Kirchhoff's current law; the spread of the unknown loads is our own choice.
    """
    half = va / (2 * _LEG_VOLTS)
    both = _of(half, connection == BOTH_LEGS)
    first = both + 2 * _of(half, connection == LEG_1)
    second = both + 2 * _of(half, connection == LEG_2)
    unknown = 2 * _of(half, connection == LEG_UNKNOWN)

    shares = np.empty((va.shape[0], 3))
    shares[:, EVEN], shares[:, UNEVEN], shares[:, ONE_LEG] = 0.5, share, 1.0
    more, less = shares * unknown, (1 - shares) * unknown
    on_first, on_second = _worse(first + more, second + less), _worse(first + less, second + more)
    swapped = on_second > on_first * (1 + _TIE)
    leg_1 = first + np.where(swapped, less, more)
    leg_2 = second + np.where(swapped, more, less)
    worse = _worse(leg_1, leg_2)
    least = np.maximum(_worse(first, second), np.abs(first + second + unknown) / 2)[:, 0]
    # One machine alone lies whole on one leg.
    alone = np.minimum(_worse(first + unknown, second), _worse(first, second + unknown))[:, 0]
    loose = (connection == LEG_UNKNOWN) & (va != 0)
    single = (loose.sum(axis=1) == 1) & (loose & np.asarray(whole, np.bool_)).any(axis=1)
    least = np.where(single, np.maximum(least, alone), least)
    return LegAmps(
        np.abs(leg_1),
        np.abs(leg_2),
        np.abs(leg_1 - leg_2),
        worse[:, UNEVEN],
        worse[:, ONE_LEG],
        least,
    )


def usual_share(va: Complexes, connection: Ints, whole: NDArray[np.bool_]) -> Floats:
    """Return the share of what is on an unknown leg that the heavier leg usually has, shape (L,).

    Parameters
    ----------
    va : ndarray of complex, shape (L, N)
        Loads [W + j var].
    connection : ndarray of int, shape (L, N)
        As `leg_amps` takes it.
    whole : ndarray of bool, shape (N,)
        Loads that are one machine.

    Returns
    -------
    ndarray
        [1]; no less than the largest machine among them, which is not divided.

    Notes
    -----
    Source: our own choice, no source.
    """
    unknown = np.abs(np.where(connection == LEG_UNKNOWN, va, 0))
    total = unknown.sum(axis=1)
    largest = np.where(whole, unknown, 0.0).max(axis=1, initial=0.0)
    return np.asarray(np.maximum(UNKNOWN_SHARE, largest / np.where(total > 0, total, 1.0)))


def _of(amps: Complexes, chosen: NDArray[np.bool_]) -> Complexes:
    """Sum of the phasors chosen, conjugated from power, shape (L, 1) [A]."""
    return np.asarray(np.conj(np.where(chosen, amps, 0).sum(axis=1, keepdims=True)))


def _worse(leg_1: Complexes, leg_2: Complexes) -> Floats:
    return np.asarray(np.maximum(np.abs(leg_1), np.abs(leg_2)))
