"""Sunlight on a tilted plane, from the three irradiances that a weather file holds."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Irradiance of the sun outside the atmosphere at the mean distance [W/m2]. ASTM E490-00 (from
#: memory, not verified); the value that goes with Spencer's series in open solar programs.
SOLAR_CONSTANT = 1366.1
#: Least cosine of the zenith angle that the circumsolar light is divided by, the sun one degree
#: above the horizon. Common practice: closer to the horizon the quotient grows without bound.
_LEAST_COSINE = 0.01745


def extraterrestrial_normal(day: ArrayLike) -> Floats:
    """Irradiance on a plane that faces the sun outside the atmosphere.

    Parameters
    ----------
    day : array_like, shape (N,)
        Day of the year, 1 on 1 January [d].

    Returns
    -------
    ndarray, shape (N,)
        Irradiance [W/m2].

    References
    ----------
    Spencer, J. W., "Fourier series representation of the position of the sun", Search 2(5), 1971,
    172 (from memory, not verified).
    """
    angle = (2.0 * np.pi / 365.0) * (np.asarray(day, dtype=np.float64) - 1.0)
    inverse_square = (
        1.00011
        + 0.034221 * np.cos(angle)
        + 0.00128 * np.sin(angle)
        + 0.000719 * np.cos(2.0 * angle)
        + 7.7e-5 * np.sin(2.0 * angle)
    )
    return np.asarray(SOLAR_CONSTANT * inverse_square)


def plane_of_array(
    ghi: ArrayLike,
    dni: ArrayLike,
    dhi: ArrayLike,
    zenith: ArrayLike,
    azimuth: ArrayLike,
    tilt: ArrayLike,
    facing: ArrayLike,
    extraterrestrial: ArrayLike,
    albedo: ArrayLike,
) -> Floats:
    """Irradiance on a plane: beam, light from about the sun, light of the sky, light of the ground.

    Parameters
    ----------
    ghi, dni, dhi : array_like, shape (N,)
        Global horizontal, direct normal and diffuse horizontal irradiance [W/m2].
    zenith, azimuth : array_like, shape (N,)
        Zenith angle of the sun and its azimuth clockwise from north [rad].
    tilt, facing : array_like, shape () or (A, 1)
        Tilt of the plane from the horizontal, 0 to pi/2, and the azimuth it faces, clockwise from
        north [rad].
    extraterrestrial : array_like, shape (N,)
        Irradiance on a plane that faces the sun outside the atmosphere [W/m2].
    albedo : array_like, shape () or (N,)
        Part of the global horizontal irradiance that the ground reflects [1].

    Returns
    -------
    ndarray, shape (N,) or (A, N)
        Irradiance [W/m2], never negative.

    Notes
    -----
    The anisotropy index, direct normal over extraterrestrial irradiance, is the part of the
    diffuse light that comes from about the sun and is projected as the beam is; the rest comes
    evenly from the whole sky. The quotient of the two projections has a floor under its
    denominator, cos(zenith) >= 0.01745. A sun below the horizon gives no beam, and all of the
    diffuse light is then even.

    References
    ----------
    Hay, J. E. and Davies, J. A., "Calculations of the solar radiation incident on an inclined
    surface", Proc. of the First Canadian Solar Radiation Data Workshop, 1980 (from memory, not
    verified).
    """
    sun_zenith, slope = np.asarray(zenith, dtype=np.float64), np.asarray(tilt, dtype=np.float64)
    diffuse = np.asarray(dhi, dtype=np.float64)
    beam = np.multiply(dni, sun_zenith <= 0.5 * np.pi)
    index = np.divide(beam, extraterrestrial)
    # What a plane gets in an hour for each unit of its cosine of incidence.
    directed = beam + diffuse * index / np.maximum(np.cos(sun_zenith), _LEAST_COSINE)
    even = diffuse * np.maximum(1.0 - index, 0.0)
    incidence = _incidence_cosine(sun_zenith, np.asarray(azimuth), slope, np.asarray(facing))
    total = np.maximum(incidence, 0.0) * directed
    total += even * (0.5 * (1.0 + np.cos(slope)))
    total += np.multiply(albedo, ghi) * (0.5 * (1.0 - np.cos(slope)))
    return np.asarray(np.maximum(total, 0.0))


def _incidence_cosine(zenith: Floats, azimuth: Floats, tilt: Floats, facing: Floats) -> Floats:
    """Return the cosine between the sun and the plane's normal, the product of unit vectors."""
    level = np.sin(zenith)
    cosine = np.cos(zenith) * np.cos(tilt)
    cosine = cosine + level * np.cos(azimuth) * (np.sin(tilt) * np.cos(facing))
    cosine += level * np.sin(azimuth) * (np.sin(tilt) * np.sin(facing))
    return np.asarray(cosine)
