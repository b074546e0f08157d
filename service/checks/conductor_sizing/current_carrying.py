"""How many conductors of a circuit count as current-carrying."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Ints = NDArray[np.int64]

#: No neutral is pulled.
NO_NEUTRAL: Final = 0
#: Neutral of a 120/240 V three-wire circuit: it carries the unbalance alone and does not count.
UNBALANCE_ALONE: Final = 1
#: Neutral of a two-wire circuit, or beside two phases of a wye: it carries as much as a phase.
LIKE_A_PHASE: Final = 2
#: Neutral of three phases of a wye with mostly nonlinear loads: harmonics add up in it.
NONLINEAR_WYE: Final = 3

#: Between two phases of a wye with 120 V to the neutral, 208 V and a little about it [V].
#: Source: derived, 120 V times the root of 3. Standing: derived; the width is our choice.
_WYE = (200.0, 216.0)
_COUNTS = np.array([0, 0, 1, 1])


def current_carrying(ungrounded: ArrayLike, neutral: ArrayLike) -> Ints:
    """Return how many conductors of a circuit count when ampacity is adjusted.

    Parameters
    ----------
    ungrounded : array_like of int
        Ungrounded conductors; of parallel sets, those in one raceway.
    neutral : array_like of int
        `NO_NEUTRAL`, `UNBALANCE_ALONE`, `LIKE_A_PHASE` or `NONLINEAR_WYE`.

    Returns
    -------
    ndarray of int
        Count [1]; the equipment ground never counts.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 310.15(E) and (F), as told by secondary sources.
    """
    return np.asarray(np.asarray(ungrounded) + _COUNTS[np.asarray(neutral)], np.int64)


def is_wye(volts: ArrayLike) -> NDArray[np.bool_]:
    """Return whether two phases with these volts between them belong to a wye of three.

    Parameters
    ----------
    volts : array_like
        Between both phases [V].

    Returns
    -------
    ndarray of bool
        Their neutral carries about as much as they do, and counts.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 310.15(E)(2), as told by a secondary source.
    """
    between = np.asarray(volts, np.float64)
    return np.asarray((between >= _WYE[0]) & (between <= _WYE[1]))
