"""What a unit leaves of the way from an emergency escape opening to the street."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE, reaches


class EgressWay(NamedTuple):
    """A way before and after a unit, each in the broadcast shape of the inputs.

    Attributes
    ----------
    before, after : ndarray
        Width without and with the unit [m].
    margin : ndarray
        What the way has over its least width with the unit; negative: what is missing [m].
    holds : ndarray of bool
        Equality holds.
    narrow_before : ndarray of bool
        The way is too narrow without the unit: no fault of the unit.
    deepest_reach : ndarray
        How far a unit may reach from the wall there, no less than 0 [m].
    """

    before: NDArray[np.float64]
    after: NDArray[np.float64]
    margin: NDArray[np.float64]
    holds: NDArray[np.bool_]
    narrow_before: NDArray[np.bool_]
    deepest_reach: NDArray[np.float64]


def egress_way(
    clear: ArrayLike,
    reach: ArrayLike,
    bottom: ArrayLike,
    width: ArrayLike,
    height: ArrayLike,
) -> EgressWay:
    """Return the way left past a unit on the wall of a court or side yard.

    Parameters
    ----------
    clear : array_like
        Least clear distance from the wall to what stands opposite, along the unit [m].
    reach : array_like
        Front of the unit from the wall: its depth and its stand-off [m].
    bottom : array_like
        Lowest point of the unit above the ground [m].
    width : array_like
        Least width of the way [m].
    height : array_like
        Up to which height the way is kept clear; a unit wholly above it takes nothing [m].

    Returns
    -------
    EgressWay
        [m].

    Notes
    -----
    Source: International Residential Code R310.1, from memory, not verified, for the court of an
    escape opening; International Fire Code 1028.4.1 for the height that is kept clear.
    """
    before = np.asarray(clear, dtype=np.float64)
    least = np.asarray(width, dtype=np.float64)
    low = np.asarray(bottom, dtype=np.float64) < np.asarray(height) - TOLERANCE["length"]
    after = np.asarray(before - np.where(low, np.asarray(reach, dtype=np.float64), 0.0))
    return EgressWay(
        before=np.broadcast_to(before, after.shape),
        after=after,
        margin=np.asarray(after - least),
        holds=reaches(after, least, "length"),
        narrow_before=~reaches(before, least, "length"),
        deepest_reach=np.asarray(np.maximum(before - least, 0.0)),
    )
