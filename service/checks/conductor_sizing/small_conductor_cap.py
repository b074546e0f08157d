"""The largest overcurrent device of small conductors, whatever their ampacity."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


def small_conductor_cap(cap: Floats, material: Ints, rating: Floats) -> Bools:
    """Return which sizes may stand behind the device of each lane.

    Parameters
    ----------
    cap : ndarray, shape (M, N)
        Largest device by material and size [A]; infinite where the rule sets none.
    material : ndarray of int, shape (L,)
        Of each lane.
    rating : ndarray, shape (L,)
        Of the overcurrent device [A].

    Returns
    -------
    ndarray of bool, shape (L, N)

    Notes
    -----
    A run of several sets cannot use them: they are too small to lie in parallel.
    Source: NEC 2023 (NFPA 70) 240.4(D); the numbers of its items in 2023 from memory.
    """
    return reaches(cap[material], rating[:, np.newaxis], "current")
