"""Which temperature column the terminals allow, and the ampacity that stands in it."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Columns of the ampacity table, by the temperature of the conductor.
COLUMN_60: Final = 0
COLUMN_75: Final = 1
COLUMN_90: Final = 2
#: A terminal without a marked temperature, or whose marking nobody knows.
UNMARKED: Final = -1
#: The same, of which is known that it takes no more than 1 AWG.
UNMARKED_SMALL: Final = -2
#: Circuits up to this rating take the 60 degC column at an unmarked terminal [A].
#: Source: NEC 2023 (NFPA 70) 110.14(C)(1). Standing: secondary.
_SMALL_CIRCUIT = 100.0


def terminal_column(
    marking: Ints, circuit_rating: ArrayLike, cable_column: ArrayLike = COLUMN_75
) -> Ints:
    """Return the column of the ampacity table that the terminals of each lane allow.

    Parameters
    ----------
    marking : ndarray of int, shape (L, T)
        What is marked on each terminal of the circuit: a column, `UNMARKED` or `UNMARKED_SMALL`.
    circuit_rating : array_like, broadcastable to shape (L,)
        Rating of the overcurrent device [A].
    cable_column : array_like of int, broadcastable to shape (L,), optional
        Highest column that the type of cable allows; `COLUMN_60` for NM-B and UF-B.

    Returns
    -------
    ndarray of int, shape (L,)
        The lowest of all.

    Notes
    -----
    One without a mark that is made for 14 to 1 AWG takes 60 degC whatever the rating.
    A terminal marked above 75 degC counts as 75: enclosures are not listed for more.
    Source: NEC 2023 (NFPA 70) 110.14(C)(1), 334.80, 340.80, as told by secondary sources; the cap
    at 75 degC is common practice, no source.
    """
    small = reaches(_SMALL_CIRCUIT, np.asarray(circuit_rating, np.float64), "current")
    unmarked = np.where(small, COLUMN_60, COLUMN_75)[..., np.newaxis]
    columns = np.where(marking == UNMARKED, unmarked, np.minimum(marking, COLUMN_75))
    columns = np.where(marking == UNMARKED_SMALL, COLUMN_60, columns)
    return np.asarray(np.minimum(columns.min(axis=1), cable_column), np.int64)


def terminal_ampacity(ampacity: Floats, material: Ints, column: Ints) -> Floats:
    """Return the ampacity of every size in the column of each lane.

    Parameters
    ----------
    ampacity : ndarray, shape (M, 3, N)
        By material, column and size, NaN where the table has none [A].
    material, column : ndarray of int, shape (L,)
        Of each lane.

    Returns
    -------
    ndarray, shape (L, N)
        Ampacity without factors [A].

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 310.16, handed in by the caller.
    """
    return np.asarray(ampacity[material, column])
