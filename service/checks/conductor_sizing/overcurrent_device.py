"""The smallest standard overcurrent device for a current, within what the nameplate allows."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE, reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: The device carries the current and the nameplate allows it.
FITS: Final = 0
#: The smallest device that carries the current is larger than the nameplate allows.
ABOVE_NAMEPLATE: Final = 1
#: No standard rating is so large.
ABOVE_STANDARD: Final = 2
#: The device carries the current; what the nameplate allows is not known.
NAMEPLATE_UNKNOWN: Final = 3


class OvercurrentDevice(NamedTuple):
    """The device of each lane, in the shape of the inputs broadcast.

    Attributes
    ----------
    rating : ndarray
        Smallest standard rating that carries the current [A], whatever the nameplate allows; 0
        where there is none.
    code : ndarray of int
        `FITS`, `ABOVE_NAMEPLATE`, `ABOVE_STANDARD` or `NAMEPLATE_UNKNOWN`.
    """

    rating: Floats
    code: Ints


def overcurrent_device(
    raised_amps: ArrayLike,
    ratings: Floats,
    most: ArrayLike = np.inf,
    most_known: ArrayLike = True,
) -> OvercurrentDevice:
    """Return the smallest standard device that carries a current.

    Parameters
    ----------
    raised_amps : array_like
        Current with its continuous part raised [A].
    ratings : ndarray, shape (K,)
        Standard ratings that can be had, rising [A].
    most : array_like, optional
        Largest device that the nameplate allows [A]; infinite: it sets no limit.
    most_known : array_like of bool, optional
        Whether `most` is known.

    Returns
    -------
    OvercurrentDevice

    Notes
    -----
    A rating equal to the current carries it; a last bit above it, as products have, is equal.
    Source: NEC 2023 (NFPA 70) 240.6(A) and 706.31(B); the share of 125 % from memory, not verified.
    """
    amps, limit, known = np.broadcast_arrays(
        np.asarray(raised_amps, np.float64),
        np.asarray(most, np.float64),
        np.asarray(most_known, np.bool_),
    )
    index = np.searchsorted(ratings, amps - TOLERANCE["current"])
    found = index < ratings.size
    rating = np.where(found, ratings[np.minimum(index, ratings.size - 1)], 0.0)
    allowed = reaches(limit, rating, "current")
    code = np.where(known, np.where(allowed, FITS, ABOVE_NAMEPLATE), NAMEPLATE_UNKNOWN)
    return OvercurrentDevice(rating, np.where(found, code, ABOVE_STANDARD))
