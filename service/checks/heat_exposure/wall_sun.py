"""Where the sun stands as a wall sees it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.incidence_angle import incidence_cosine

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

#: Bounds of the tangent: the sun on the horizon, and square above the wall's line.
_FLAT, _STEEP = 1e-6, 1e6


class WallSun(NamedTuple):
    """The sun before or behind a wall.

    Attributes
    ----------
    before : ndarray of bool
        Whether it stands before the wall's plane.
    slope : ndarray
        Tangent of the profile angle: rise of the ray over its way along the wall's normal [1].
    """

    before: Bools
    slope: Floats


def wall_sun(zenith: ArrayLike, azimuth: ArrayLike, facing: ArrayLike) -> WallSun:
    """Return how the sun stands to a wall.

    Parameters
    ----------
    zenith, azimuth : array_like, shape (N,)
        Of the sun; azimuth clockwise from north [rad].
    facing : array_like, shape () or (W, 1)
        Azimuth that the wall faces [rad].

    Returns
    -------
    WallSun
        Of shape (N,) or (W, N); the slope lies between 1e-6 and 1e6 [1].

    Notes
    -----
    The profile angle is that of the ray as seen along the wall. A sun in the plane of the wall or
    behind it counts as behind. Source: derived; ASHRAE Handbook Fundamentals calls it the vertical
    shadow angle (from memory, not verified).
    """
    outward = incidence_cosine(zenith, azimuth, 0.5 * np.pi, facing)
    along = np.maximum(np.abs(outward), 1.0 / _STEEP)
    return WallSun(outward > 0.0, np.clip(np.cos(zenith) / along, _FLAT, _STEEP))
