"""Sunlight on the four faces of a unit, before anything shades it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.unit_faces import TOP, face_directions
from service.physics.incidence_angle import incidence_cosine
from service.physics.irradiance_on_plane import light_parts

Floats = NDArray[np.float64]


class FaceLight(NamedTuple):
    """Light on front, left, right and top, shape (4, ..., N) [W/m2].

    Attributes
    ----------
    directed : ndarray
        Beam and light from about the sun, which shades take away.
    scattered : ndarray
        Light of sky and ground. No shade is taken off it: that is the hotter side.
    """

    directed: Floats
    scattered: Floats


class Sky(NamedTuple):
    """Sun and light of some hours, each of a shape that goes with (..., N).

    Attributes
    ----------
    ghi, dni, dhi : array_like
        Global horizontal, direct normal and diffuse horizontal irradiance [W/m2].
    zenith, azimuth : array_like
        Of the sun [rad].
    extraterrestrial : array_like
        Irradiance outside the atmosphere [W/m2].
    """

    ghi: ArrayLike
    dni: ArrayLike
    dhi: ArrayLike
    zenith: ArrayLike
    azimuth: ArrayLike
    extraterrestrial: ArrayLike


def weather_light(sky: Sky, facing: ArrayLike, albedo: ArrayLike) -> FaceLight:
    """Return the light on the faces from the irradiances of a weather file.

    Parameters
    ----------
    sky : Sky
        [W/m2, rad].
    facing : array_like, shape () or (..., 1)
        Azimuth that the wall faces [rad].
    albedo : array_like
        Part of the global horizontal irradiance that the ground reflects [1].

    Returns
    -------
    FaceLight
        [W/m2].

    Notes
    -----
    Source: `light_parts`, after Hay and Davies.
    """
    tilt, azimuth = face_directions(facing)
    parts = light_parts(
        sky.ghi,
        sky.dni,
        sky.dhi,
        sky.zenith,
        sky.azimuth,
        tilt,
        azimuth,
        sky.extraterrestrial,
        albedo,
    )
    directed, scattered = np.broadcast_arrays(parts.directed, parts.sky + parts.ground)
    return FaceLight(directed, scattered)


def clear_sky_light(
    beam: ArrayLike,
    diffuse: ArrayLike,
    zenith: ArrayLike,
    azimuth: ArrayLike,
    facing: ArrayLike,
    albedo: ArrayLike,
) -> FaceLight:
    """Return the light on the faces from the clear-sky model by optical depths.

    Parameters
    ----------
    beam, diffuse : array_like, shape (..., N)
        Direct normal and diffuse horizontal irradiance, as from `clear_sky` [W/m2].
    zenith, azimuth : array_like, shape (..., N)
        Of the sun [rad].
    facing : array_like, shape () or (..., 1)
        Azimuth that the wall faces [rad].
    albedo : array_like
        Part of the global horizontal irradiance that the ground reflects [1].

    Returns
    -------
    FaceLight
        [W/m2].

    References
    ----------
    ASHRAE Handbook Fundamentals 2009, chapter 14: an upright face gets max(0.45, 0.55 + 0.437 c +
    0.313 c^2) of the diffuse light of a level one, c the cosine of incidence (from memory, not
    verified).
    """
    tilt, towards = face_directions(facing)
    cosine = incidence_cosine(np.asarray(zenith, np.float64), azimuth, tilt, towards)
    level = np.multiply(beam, np.maximum(np.cos(zenith), 0.0))
    level = level + diffuse
    ratio = np.maximum(0.45, 0.55 + 0.437 * cosine + 0.313 * cosine * cosine)
    scattered = np.multiply(diffuse, ratio) + np.multiply(albedo, level) * 0.5
    scattered[TOP] = np.broadcast_to(diffuse, scattered[TOP].shape)
    return FaceLight(np.asarray(np.multiply(beam, np.maximum(cosine, 0.0))), scattered)
