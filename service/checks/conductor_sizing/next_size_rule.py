"""The ampacity that an overcurrent device protects, by the next size up where allowed."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE, reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: The conductor has at least the ampacity of the device's rating.
BY_AMPACITY: Final = 0
#: It has less, and the device is the next standard rating above its ampacity.
BY_NEXT_SIZE: Final = 1
#: It has too little.
UNPROTECTED: Final = 2
#: Above this rating a conductor needs the full ampacity [A].
#: Source: NEC 2023 (NFPA 70) 240.4(B) and (C). Standing: secondary.
LARGEST_NEXT_SIZE: Final = 800.0


def least_protected(rating: ArrayLike, ratings: Floats, next_size: ArrayLike) -> Floats:
    """Return the ampacity from which on a device protects a conductor.

    Parameters
    ----------
    rating : array_like
        Of the overcurrent device [A].
    ratings : ndarray, shape (K,)
        Standard ratings, rising [A].
    next_size : array_like of bool
        Whether the next standard rating above the ampacity may be used. Not on the output of an
        energy storage system, whose conductors need the rating of the device, and not on a branch
        circuit to several receptacles.

    Returns
    -------
    ndarray
        Least ampacity [A]. Under the next-size rule an ampacity equal to the standard rating below
        does not do; the least is then above that by twice the tolerance of a current.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 240.4(B), (C) and 706.30(B), as told by secondary sources; that
    706.30(B) asks for the rating of the device rests on one of them.
    """
    amps = np.asarray(rating, np.float64)
    below = np.searchsorted(ratings, amps - TOLERANCE["current"]) - 1
    lower = np.where(below >= 0, ratings[np.maximum(below, 0)], 0.0) + 2 * TOLERANCE["current"]
    usable = np.asarray(next_size, np.bool_) & reaches(LARGEST_NEXT_SIZE, amps, "current")
    return np.asarray(np.where(usable, np.minimum(lower, amps), amps))


def protection(
    ampacity: ArrayLike, rating: ArrayLike, ratings: Floats, next_size: ArrayLike
) -> Ints:
    """Return how a device protects a conductor.

    Parameters
    ----------
    ampacity : array_like
        Of the conductor under its conditions of use and at its terminals [A].
    rating : array_like
        Of the overcurrent device [A].
    ratings : ndarray, shape (K,)
        Standard ratings, rising [A].
    next_size : array_like of bool
        As in `least_protected`.

    Returns
    -------
    ndarray of int
        `BY_AMPACITY`, `BY_NEXT_SIZE` or `UNPROTECTED`.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 240.4, as told by secondary sources.
    """
    enough = reaches(ampacity, least_protected(rating, ratings, next_size), "current")
    return np.where(
        reaches(ampacity, rating, "current"),
        BY_AMPACITY,
        np.where(enough, BY_NEXT_SIZE, UNPROTECTED),
    )
