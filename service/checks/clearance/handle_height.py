"""Whether the operating handle of a unit can be reached."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches


class HandleHeight(NamedTuple):
    """How high a handle sits, each in the broadcast shape of the inputs.

    Attributes
    ----------
    height : ndarray
        Centre of the handle in its highest position, above the ground [m].
    highest_bottom : ndarray
        Highest bottom of the unit at which the handle still is within reach; negative: none [m].
    margin : ndarray
        What is left under the limit; negative: what it is above it [m].
    holds : ndarray of bool
        Equality holds.
    """

    height: NDArray[np.float64]
    highest_bottom: NDArray[np.float64]
    margin: NDArray[np.float64]
    holds: NDArray[np.bool_]


def handle_height(bottom: ArrayLike, handle: ArrayLike, limit: ArrayLike) -> HandleHeight:
    """Compare the height of a handle with the highest that is allowed.

    Parameters
    ----------
    bottom : array_like
        Bottom of the unit above the ground or platform that the person stands on; of a stack, that
        of the unit that has the handle [m].
    handle : array_like
        Centre of the handle, in its highest position, above the bottom of its unit; where it is not
        known, the height of the unit is the safe side [m].
    limit : array_like
        Highest centre above the ground [m].

    Returns
    -------
    HandleHeight
        [m].

    Notes
    -----
    Source: National Electrical Code 404.8(A) and 240.24(A), from memory, not verified.
    """
    above = np.asarray(handle, dtype=np.float64)
    most = np.asarray(limit, dtype=np.float64)
    height = np.asarray(np.add(bottom, above))
    return HandleHeight(
        height=height,
        highest_bottom=np.asarray(most - above),
        margin=np.asarray(most - height),
        holds=reaches(most, height, "length"),
    )
