"""The column of the ampacity table that an insulation has where it is dry and where it is wet."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


def insulation_column(kind: ArrayLike, wet: ArrayLike, columns: Ints) -> Ints:
    """Return the column of each part of a run.

    Parameters
    ----------
    kind : array_like of int
        Row of `columns`.
    wet : array_like of bool
        Whether the place is wet, from `is_wet`.
    columns : ndarray of int, shape (I, 2)
        Column of each kind of insulation, dry and wet, by its temperature [degC]; `NO_COLUMN`
        where it may not lie.

    Returns
    -------
    ndarray of int

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 310.4(1), handed in by the caller.
    """
    return np.asarray(columns[np.asarray(kind), np.asarray(wet, np.int64)])


def is_wet(underground: ArrayLike, outdoors: ArrayLike) -> Bools:
    """Return whether the inside of a raceway counts as a wet place.

    Parameters
    ----------
    underground, outdoors : array_like of bool
        Where a part of the run lies, whatever its temperature [degC].

    Returns
    -------
    ndarray of bool

    Notes
    -----
    Outdoors counts as wet above ground too: a raceway there fills with what condenses and leaks.
    Source: NEC 2023 (NFPA 70) 300.5(B) and 300.9, as told by secondary sources.
    """
    return np.asarray(np.asarray(underground, np.bool_) | np.asarray(outdoors, np.bool_))
