"""Which of some walls is the coolest for a unit."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Walls this close are alike: no estimate of this kind tells them apart [K]. Standing: our own
#: choice; the model's hours over a limit move by 1 to 2 h with as little.
_ALIKE: Final = 1.0


class WallRanking(NamedTuple):
    """Walls by how hot a unit gets on them.

    Attributes
    ----------
    order : ndarray of int, shape (W,)
        Walls, the coolest first.
    behind : ndarray, shape (W,)
        How much hotter than on the coolest wall, in the order of the walls given [K].
    alike : ndarray of bool, shape (W,)
        Whether a wall is as good as the coolest, in the order of the walls given.
    """

    order: Ints
    behind: Floats
    alike: NDArray[np.bool_]


def rank_walls(peaks: ArrayLike, hours: ArrayLike | None = None) -> WallRanking:
    """Return the walls in order of the highest temperature on them.

    Parameters
    ----------
    peaks : array_like, shape (W,) or (R, W)
        Highest temperature, for each of R readings: they are ranked by the hottest one [K].
    hours : array_like, shape (W,), optional
        Hours over the limit, which part walls of equal peaks [h].

    Returns
    -------
    WallRanking
        [K].

    Notes
    -----
    Source: derived, our own choice.
    """
    peak = np.asarray(peaks, dtype=np.float64)
    hottest = peak if peak.ndim == 1 else peak.max(axis=0)
    over = np.zeros(hottest.shape) if hours is None else np.asarray(hours, dtype=np.float64)
    order = np.lexsort((over, np.round(hottest, 6)))
    behind = hottest - hottest.min(initial=np.inf)
    return WallRanking(order.astype(np.int64), behind, behind < _ALIKE)
