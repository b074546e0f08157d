"""The short-circuit device of a motor, which may be larger than its conductors."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE

Floats = NDArray[np.float64]

#: An inverse-time breaker may be of so many times the full-load amps [1].
#: Source: NEC 2023 (NFPA 70) Table 430.52(C)(1). Standing: secondary.
INVERSE_TIME: Final = 2.5


def largest_device(motor_amps: ArrayLike, other_amps: ArrayLike, ratings: Floats) -> Floats:
    """Return the largest breaker of a motor whose nameplate says nothing of it.

    Parameters
    ----------
    motor_amps, other_amps : array_like
        Full-load amps of the motor, and what flows beside it in the same circuit [A].
    ratings : ndarray, shape (K,)
        Standard ratings, rising [A].

    Returns
    -------
    ndarray
        [A]; the next standard rating where the share is none; the largest there is at most.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 430.52(C)(1) by secondary sources; the next standard rating,
    and that other loads are added, from memory, not verified.
    """
    amps = INVERSE_TIME * np.asarray(motor_amps, np.float64) + np.asarray(other_amps, np.float64)
    row = np.searchsorted(ratings, amps - TOLERANCE["current"])
    return np.asarray(ratings[np.minimum(row, ratings.size - 1)])


def largest_standard(most: ArrayLike, ratings: Floats) -> Floats:
    """Return the largest standard rating that a nameplate allows.

    Parameters
    ----------
    most : array_like
        Largest device of the nameplate [A].
    ratings : ndarray, shape (K,)
        Standard ratings, rising [A].

    Returns
    -------
    ndarray
        [A]; 0 where none is so small.

    Notes
    -----
    Source: derived from the list of standard ratings, NEC 2023 (NFPA 70) 240.6(A).
    """
    row = np.searchsorted(ratings, np.asarray(most) + TOLERANCE["current"], side="right") - 1
    return np.where(row >= 0, ratings[np.maximum(row, 0)], 0.0)
