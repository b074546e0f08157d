"""The four faces of a box on a wall: where they look, and how large they are."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Places on axis 0 of every array over faces. Left and right as seen from before the unit; the
#: back lies on the wall and passes no heat.
FRONT: Final = 0
LEFT: Final = 1
RIGHT: Final = 2
TOP: Final = 3

_QUARTER_TURN: Final = 0.5 * np.pi


def face_areas(width: ArrayLike, height: ArrayLike, depth: ArrayLike) -> Floats:
    """Return the areas of front, left, right and top.

    Parameters
    ----------
    width, height, depth : array_like, any shape
        Of the unit; depth is measured out from the wall [m].

    Returns
    -------
    ndarray, shape (4, ...)
        [m2].

    Notes
    -----
    Source: derived; rectangles.
    """
    side = np.multiply(height, depth)
    return np.stack(
        np.broadcast_arrays(np.multiply(width, height), side, side, np.multiply(width, depth))
    ).astype(np.float64)


def face_directions(facing: ArrayLike) -> tuple[Floats, Floats]:
    """Return tilt and azimuth of front, left, right and top.

    Parameters
    ----------
    facing : array_like, shape () or (..., 1)
        Azimuth that the wall faces, clockwise from north [rad].

    Returns
    -------
    tilt, azimuth : ndarray, shape (4, 1) or (4, ..., 1)
        Tilt from the horizontal; azimuth clockwise from north, not brought into one turn [rad].

    Notes
    -----
    Source: derived; who looks at a wall that faces south has west on the left.
    """
    front = np.atleast_1d(np.asarray(facing, dtype=np.float64))
    azimuth = np.stack([front, front + _QUARTER_TURN, front - _QUARTER_TURN, front])
    tilt = np.full(azimuth.shape, _QUARTER_TURN)
    tilt[TOP] = 0.0
    return tilt, azimuth
