"""The neutral of a circuit: what it must carry, and how small it may be."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Nothing at the far end uses 120 V.
NOT_NEEDED: Final = 0
#: It serves only to measure voltage.
SENSING_ALONE: Final = 1
#: It carries the unbalance of loads.
UNBALANCE: Final = 2
#: It carries the unbalance, and the output of a source from line to neutral.
UNBALANCE_AND_SOURCE: Final = 3


def neutral_amps(use: ArrayLike, unbalance: ArrayLike, source_amps: ArrayLike = 0.0) -> Floats:
    """Return the current that the neutral must carry.

    Parameters
    ----------
    use : array_like of int
        `NOT_NEEDED`, `SENSING_ALONE`, `UNBALANCE` or `UNBALANCE_AND_SOURCE`.
    unbalance : array_like
        Largest net load between the neutral and one hot [A].
    source_amps : array_like, optional
        Output of a two-wire source from line to neutral [A].

    Returns
    -------
    ndarray
        [A]; 0 where it carries none.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 220.61, by a secondary source; 705.28(C) and 706.30(C) from memory,
    not verified.
    """
    kind, load = np.asarray(use), np.asarray(unbalance, np.float64)
    with_source = load + np.asarray(source_amps, np.float64)
    carries = np.where(kind == UNBALANCE_AND_SOURCE, with_source, load)
    return np.where(kind >= UNBALANCE, carries, 0.0)


def neutral(
    use: Ints,
    amps: Floats,
    ampacity: Floats,
    area: Floats,
    ground_area: Floats,
    permitted: Bools,
) -> Ints:
    """Return the smallest neutral.

    Parameters
    ----------
    use : ndarray of int, shape (L,)
        As in `neutral_amps`.
    amps : ndarray, shape (L,)
        What one neutral must carry [A].
    ampacity : ndarray, shape (L, N)
        Of every size at the terminals and under the conditions of use, NaN where there is none [A].
    area : ndarray, shape (L, N)
        Of every size [m2].
    ground_area : ndarray, shape (L,)
        Of the equipment ground that the table gives for the device [m2].
    permitted : ndarray of bool, shape (L, N)
        Sizes that may lie in so many sets.

    Returns
    -------
    ndarray of int, shape (L,)
        Size; -1 where none is needed, or none suffices while one is needed.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 215.2(A)(2), by a secondary source; 705.28(C)(2) from memory, not
    verified.
    """
    carries = reaches(ampacity, amps[:, np.newaxis], "current")
    large = reaches(area / ground_area[:, np.newaxis], 1.0, "fraction")
    enough = carries & large & permitted & (use != NOT_NEEDED)[:, np.newaxis]
    return np.where(enough.any(axis=1), enough.argmax(axis=1), -1)
