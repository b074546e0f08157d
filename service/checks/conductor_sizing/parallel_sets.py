"""Several equal sets of conductors in place of one."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


def parallel_sets(sets: Ints, parallel_size: Bools) -> Bools:
    """Return the sizes that may lie in so many sets.

    Parameters
    ----------
    sets : ndarray of int, shape (L,)
        Equal sets: of one length, material, size, insulation and termination.
    parallel_size : ndarray of bool, shape (N,)
        Sizes that may lie in parallel: 1/0 AWG and larger.

    Returns
    -------
    ndarray of bool, shape (L, N)

    Notes
    -----
    Each raceway of a set holds an equipment ground of the full size for the device [A], not its
    share of it; `equipment_ground` takes the rating undivided.
    Source: NEC 2023 (NFPA 70) 310.10(G) and 250.122(F), as told by secondary sources.
    """
    return np.asarray(parallel_size | (sets == 1)[:, np.newaxis])


def fewest_sets(amps: ArrayLike, largest: ArrayLike) -> Ints:
    """Return how many sets a current needs at least.

    Parameters
    ----------
    amps : array_like
        Ampacity that all sets together must have [A].
    largest : array_like
        Ampacity of the largest size that may be used, above 0 [A].

    Returns
    -------
    ndarray of int
        1 or more.

    Notes
    -----
    Source: derived.
    """
    wanted = np.asarray(amps, np.float64) - TOLERANCE["current"]
    return np.asarray(np.maximum(np.ceil(wanted / np.asarray(largest)), 1), np.int64)
