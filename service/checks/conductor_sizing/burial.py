"""Whether a run lies deep enough underground."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

DEEP_ENOUGH: Final = 0
TOO_SHALLOW: Final = 1
#: How deep it lies is not known.
DEPTH_UNKNOWN: Final = 2
#: This way of wiring may not lie there.
NOT_PERMITTED: Final = 3
#: Columns of the table of cover that are told apart here.
DIRECT_BURIAL: Final = 0
METAL_CONDUIT: Final = 1
NONMETALLIC_CONDUIT: Final = 2
GROUND_FAULT_PROTECTED: Final = 3
#: What a branch circuit may have at most for the column of its own [V, A].
#: Source: NEC 2023 (NFPA 70) Table 300.5(A), heading of the column.
_VOLTS, _AMPS = 120.0, 20.0


class Burial(NamedTuple):
    """Cover of each lane, in the shape of the inputs broadcast.

    Attributes
    ----------
    cover : ndarray
        Least cover [m]; 0 where the way of wiring may not lie there.
    code : ndarray of int
        `DEEP_ENOUGH`, `TOO_SHALLOW`, `DEPTH_UNKNOWN` or `NOT_PERMITTED`.
    """

    cover: Floats
    code: Ints


def burial(
    place: Ints, column: Ints, table: Floats, depth: ArrayLike, known: ArrayLike = True
) -> Burial:
    """Return the least cover over a run and whether it has it.

    Parameters
    ----------
    place, column : ndarray of int
        Row and column of the table.
    table : ndarray, shape (P, C)
        Least cover, NaN where the way of wiring may not lie there [m].
    depth : array_like
        From the surface to the top of the cable or raceway [m]; any number where not known.
    known : array_like of bool, optional
        Whether `depth` is known.

    Returns
    -------
    Burial

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 300.5(A), handed in by the caller.
    """
    cover, depths, told = np.broadcast_arrays(
        table[place, column], np.asarray(depth, np.float64), np.asarray(known, np.bool_)
    )
    enough = np.where(reaches(depths, cover, "length"), DEEP_ENOUGH, TOO_SHALLOW)
    code = np.where(told, enough, DEPTH_UNKNOWN)
    barred = np.isnan(cover)
    return Burial(np.where(barred, 0.0, cover), np.where(barred, NOT_PERMITTED, code))


def branch_column_applies(
    volts: ArrayLike, rating: ArrayLike, branch_circuit: ArrayLike, protected: ArrayLike
) -> Bools:
    """Return whether the column of protected residential branch circuits may be used.

    Parameters
    ----------
    volts, rating : array_like
        Of the circuit [V], and of its overcurrent device [A].
    branch_circuit, protected : array_like of bool
        Whether it is a branch circuit of a dwelling, and behind ground-fault protection.

    Returns
    -------
    ndarray of bool
        Never for a 240 V feeder or source.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 300.5(A), by a secondary source.
    """
    small = reaches(_VOLTS, volts, "fraction") & reaches(_AMPS, rating, "current")
    return np.asarray(small & np.asarray(branch_circuit, bool) & np.asarray(protected, bool))
