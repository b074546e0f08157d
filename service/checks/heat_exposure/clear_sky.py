"""Beam and diffuse light of a cloudless hour from the optical depths of a place and month."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.optical_depths import Exponents

Floats = NDArray[np.float64]

#: Irradiance outside the atmosphere at the mean distance that goes with optical depths [W/m2].
#: Source: ASHRAE Handbook Fundamentals 2009, chapter 14 (secondary).
_SOLAR_CONSTANT: Final = 1367.0


def extraterrestrial_of_depths(day: ArrayLike) -> Floats:
    """Irradiance outside the atmosphere, by the short series that goes with optical depths.

    Parameters
    ----------
    day : array_like, any shape
        Day of the year, 1 on 1 January [d].

    Returns
    -------
    ndarray
        Irradiance on a plane that faces the sun [W/m2].

    Notes
    -----
    Source: ASHRAE Handbook Fundamentals 2009, chapter 14 (secondary).
    """
    angle = (2.0 * np.pi / 365.0) * (np.asarray(day, dtype=np.float64) - 3.0)
    return np.asarray(_SOLAR_CONSTANT * (1.0 + 0.033 * np.cos(angle)))


def air_mass(zenith: ArrayLike) -> Floats:
    """Way of the beam through the air over that from the zenith.

    Parameters
    ----------
    zenith : array_like, any shape
        True zenith angle of the sun; below the horizon the air mass there stands [rad].

    Returns
    -------
    ndarray
        [1].

    References
    ----------
    Kasten, F. and Young, A. T., "Revised optical air mass tables and approximation formula",
    Applied Optics 28(22), 1989 (formula secondary; the article was not read).
    """
    altitude = np.maximum(90.0 - np.degrees(zenith), 0.0)
    return np.asarray(
        1.0 / (np.sin(np.radians(altitude)) + 0.50572 * (altitude + 6.07995) ** -1.6364)
    )


def attenuated(
    outside: ArrayLike, depth: ArrayLike, mass: ArrayLike, exponent: ArrayLike
) -> Floats:
    """Light that is left behind a layer of air.

    Parameters
    ----------
    outside : array_like
        Irradiance before the layer [W/m2].
    depth, mass, exponent : array_like
        Optical depth for an air mass of one, the air mass and the power that it is raised to [1].

    Returns
    -------
    ndarray
        [W/m2].

    Notes
    -----
    Source: ASHRAE Handbook Fundamentals, chapter 14 (secondary).
    """
    return np.asarray(outside * np.exp(-np.multiply(depth, np.power(mass, exponent))))


def clear_sky(
    zenith: ArrayLike,
    outside: ArrayLike,
    beam_depth: ArrayLike,
    diffuse_depth: ArrayLike,
    exponents: Exponents,
) -> tuple[Floats, Floats]:
    """Direct normal and diffuse horizontal irradiance of a cloudless hour.

    Parameters
    ----------
    zenith : array_like, shape (..., N)
        True zenith angle of the sun [rad].
    outside : array_like, shape (..., N)
        Irradiance outside the atmosphere [W/m2].
    beam_depth, diffuse_depth : array_like
        Optical depths, of the same edition as the exponents [1].
    exponents : Exponents
        Coefficients of one edition [1].

    Returns
    -------
    beam, diffuse : ndarray, shape (..., N)
        [W/m2]; 0 while the sun is down.

    Notes
    -----
    Source: ASHRAE Handbook Fundamentals, chapter 14, editions of 2009 and 2013 (secondary); table
    optical_depth_exponents.
    """
    mass, up = air_mass(zenith), np.asarray(zenith) < 0.5 * np.pi
    b, d = np.asarray(beam_depth, np.float64), np.asarray(diffuse_depth, np.float64)
    k = exponents
    of_beam = k.b_one + k.b_beam * b + k.b_diffuse * d + k.b_both * b * d
    of_diffuse = k.d_one + k.d_beam * b + k.d_diffuse * d + k.d_both * b * d
    beam = attenuated(outside, b, mass, of_beam)
    return beam * up, attenuated(outside, d, mass, of_diffuse) * up
