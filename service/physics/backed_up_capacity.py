"""Whether a standby source has the capacity that the code asks for behind its transfer."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Codes = NDArray[np.int64]

SUFFICIENT: Final = 0
SHORT: Final = 1
UNKNOWN: Final = 2


class BackedUpCapacity(NamedTuple):
    """What the source has to carry and what it has left, in the shape of the inputs broadcast.

    Attributes
    ----------
    required_va : ndarray
        Capacity the source must have [VA]; 0 where it is not known.
    headroom_va : ndarray
        Capacity of the source less that, negative where short [VA]; 0 where it is not known.
    code : ndarray of int
        `SUFFICIENT`, `SHORT` or `UNKNOWN`.
    """

    required_va: Floats
    headroom_va: Floats
    code: Codes


def backed_up_capacity(
    source_va: ArrayLike,
    connected_va: ArrayLike,
    managed_va: ArrayLike,
    automatic: ArrayLike,
    *,
    connected_known: ArrayLike = True,
    managed: ArrayLike = False,
) -> BackedUpCapacity:
    """Return whether the source carries the load that its transfer may give it.

    Parameters
    ----------
    source_va : array_like
        Continuous capacity of the source [VA].
    connected_va : array_like
        The full load behind an automatic transfer; behind a manual one, the load that the user
        means to run together [VA]. Any finite number where it is not known.
    managed_va : array_like
        Most load that a listed load management lets run together [VA]. Any finite number where
        there is none.
    automatic : array_like of bool
        Whether the transfer acts by itself.
    connected_known : array_like of bool, optional
        Whether `connected_va` is known.
    managed : array_like of bool, optional
        Whether a listed load management acts; it counts behind an automatic transfer alone.

    Returns
    -------
    BackedUpCapacity
        All inputs broadcast against each other.

    Notes
    -----
    A set-point above the connected load asks for no more than the connected load. A set-point
    suffices where the connected load is not known; one that is too high leaves it open, since the
    connected load may be less.
    Source: NEC (NFPA 70) 702.4 as told by secondary sources, its sub-numbering secondary too; the
    smaller of set-point and connected load is derived.
    """
    source, connected, limit, acts, known, held = np.broadcast_arrays(
        np.asarray(source_va, np.float64),
        np.asarray(connected_va, np.float64),
        np.asarray(managed_va, np.float64),
        np.asarray(automatic, np.bool_),
        np.asarray(connected_known, np.bool_),
        np.asarray(managed, np.bool_),
    )
    limited = acts & held
    most = np.where(limited, np.where(known, np.minimum(limit, connected), limit), connected)
    settled = known | (limited & reaches(source, most, "power"))
    code = np.where(reaches(source, most, "power"), SUFFICIENT, SHORT)
    return BackedUpCapacity(
        np.where(settled, most, 0.0),
        np.where(settled, source - most, 0.0),
        np.where(settled, code, UNKNOWN),
    )
