"""Sunlight on a tilted plane, from the three irradiances that a weather file holds."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.incidence_angle import incidence_cosine

Floats = NDArray[np.float64]

#: Irradiance of the sun outside the atmosphere at the mean distance [W/m2]. ASTM E490-00 (from
#: memory, not verified); the value that goes with Spencer's series in open solar programs.
SOLAR_CONSTANT = 1366.1
#: Least cosine of the zenith angle that the circumsolar light is divided by, the sun one degree
#: above the horizon. Common practice: closer to the horizon the quotient grows without bound.
_LEAST_COSINE = 0.01745


class LightParts(NamedTuple):
    """Irradiance on a plane by where it comes from [W/m2].

    Attributes
    ----------
    directed : ndarray
        Beam and light from about the sun: what an object before the sun takes away.
    sky, ground : ndarray
        Even light of the sky, light that the ground reflects.
    """

    directed: Floats
    sky: Floats
    ground: Floats


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


def light_parts(
    ghi: ArrayLike,
    dni: ArrayLike,
    dhi: ArrayLike,
    zenith: ArrayLike,
    azimuth: ArrayLike,
    tilt: ArrayLike,
    facing: ArrayLike,
    extraterrestrial: ArrayLike,
    albedo: ArrayLike,
) -> LightParts:
    """Irradiance on a plane: beam and light from about the sun, light of the sky, of the ground.

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
        Irradiance on a plane that faces the sun outside the atmosphere [W/m2]; infinite where all
        diffuse light is to come evenly from the sky.
    albedo : array_like, shape () or (N,)
        Part of the global horizontal irradiance that the ground reflects [1].

    Returns
    -------
    LightParts
        Of shape (N,) or (A, N) [W/m2].

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
    incidence = incidence_cosine(sun_zenith, azimuth, slope, facing)
    return LightParts(
        np.asarray(np.maximum(incidence, 0.0) * directed),
        np.asarray(even * (0.5 * (1.0 + np.cos(slope)))),
        np.asarray(np.multiply(albedo, ghi) * (0.5 * (1.0 - np.cos(slope)))),
    )


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
    """Irradiance on a plane that nothing shades: the sum of its parts.

    Parameters
    ----------
    ghi, dni, dhi, zenith, azimuth, tilt, facing, extraterrestrial, albedo
        As in `light_parts` [W/m2, rad, 1].

    Returns
    -------
    ndarray, shape (N,) or (A, N)
        Irradiance [W/m2], never negative.

    Notes
    -----
    Source: `light_parts`.
    """
    directed, sky, ground = light_parts(
        ghi, dni, dhi, zenith, azimuth, tilt, facing, extraterrestrial, albedo
    )
    total = directed + sky
    total += ground
    return np.asarray(np.maximum(total, 0.0))
