"""How squarely the sun stands to a plane."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


def incidence_cosine(
    zenith: ArrayLike, azimuth: ArrayLike, tilt: ArrayLike, facing: ArrayLike
) -> Floats:
    """Cosine of the angle between the sun and the normal of a plane.

    Parameters
    ----------
    zenith, azimuth : array_like, shape (N,)
        Zenith angle of the sun and its azimuth clockwise from north [rad].
    tilt, facing : array_like, shape () or (A, 1)
        Tilt of the plane from the horizontal and the azimuth it faces, clockwise from north [rad].

    Returns
    -------
    ndarray, shape (N,) or (A, N)
        Cosine [1]; not above 0 where the sun stands behind the plane.

    Notes
    -----
    Source: derived; the product of the two unit vectors.
    """
    level = np.sin(zenith)
    cosine = np.cos(zenith) * np.cos(tilt)
    cosine = cosine + level * np.cos(azimuth) * (np.sin(tilt) * np.cos(facing))
    cosine += level * np.sin(azimuth) * (np.sin(tilt) * np.sin(facing))
    return np.asarray(cosine)
