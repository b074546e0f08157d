"""From air and light to the temperatures of a unit: sol-air faces, equivalent ambient, lag."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.face_light import FaceLight
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light, sol_air
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.unit_faces import TOP

Floats = NDArray[np.float64]


class Finish(NamedTuple):
    """How a unit takes and passes heat, each of shape () or (..., 1).

    Attributes
    ----------
    absorptance : array_like
        Part of sunlight that its faces take in [1].
    coefficient : array_like
        Heat passed between a face and the air per kelvin [W/(m2 K)].
    sky_loss : array_like
        Long-wave loss of the top [W/m2].
    lag : array_like
        Time constant [s].
    """

    absorptance: ArrayLike
    coefficient: ArrayLike
    sky_loss: ArrayLike
    lag: ArrayLike


class Exposure(NamedTuple):
    """A unit through the hours, each of shape (..., N).

    Attributes
    ----------
    light : ndarray
        Irradiance of the faces, weighted by area [W/m2].
    equivalent : ndarray
        Equivalent ambient, as if the unit followed at once [K].
    lag : array_like
        Time constant [s].
    """

    light: Floats
    equivalent: Floats
    lag: ArrayLike

    @property
    def followed(self) -> Floats:
        """Equivalent ambient with the unit's lag, which its ratings are held against [K]."""
        return lagged(self.equivalent, self.lag)


def light_reaching(light: FaceLight, lit: ArrayLike, through: ArrayLike = 1.0) -> Floats:
    """Return the irradiance on the faces behind all shades.

    Parameters
    ----------
    light : FaceLight
        Shape (4, ..., N) [W/m2].
    lit : array_like, shape () or (4, ..., N)
        Part of each face that the beam reaches; 0 is full shade [1].
    through : array_like, shape () or (..., N), optional
        Part of the beam that trees let through [1].

    Returns
    -------
    ndarray, shape (4, ..., N)
        [W/m2].

    Notes
    -----
    Source: derived; shades take the beam alone.
    """
    return np.asarray(light.directed * np.multiply(lit, through) + light.scattered)


def face_temperatures(air: ArrayLike, light: ArrayLike, finish: Finish) -> Floats:
    """Return the sol-air temperatures of front, left, right and top.

    Parameters
    ----------
    air : array_like, shape (..., N)
        [K].
    light : array_like, shape (4, ..., N)
        As from `light_reaching` [W/m2].
    finish : Finish
        [1, W/(m2 K), W/m2]; the lag is not used.

    Returns
    -------
    ndarray, shape (4, ..., N)
        [K]. Temperatures of surfaces: never to be held against a rated ambient.

    Notes
    -----
    Source: `sol_air`.
    """
    irradiance = np.asarray(light, dtype=np.float64)
    # Readings stand before the walls, and the faces before both.
    lanes = max(np.ndim(air), np.ndim(finish.absorptance), np.ndim(finish.coefficient))
    missing = max(lanes + 1 - irradiance.ndim, 0)
    irradiance = irradiance.reshape(4, *(1,) * missing, *irradiance.shape[1:])
    faces = sol_air(air, irradiance, finish.absorptance, finish.coefficient)
    faces[TOP] = sol_air(
        air, irradiance[TOP], finish.absorptance, finish.coefficient, finish.sky_loss
    )
    return faces


def exposure(air: ArrayLike, light: ArrayLike, areas: ArrayLike, finish: Finish) -> Exposure:
    """Return the equivalent ambient of a unit, without and with its lag.

    Parameters
    ----------
    air : array_like, shape (..., N)
        N hours that repeat: a day, or a year [K].
    light : array_like, shape (4, ..., N)
        As from `light_reaching`; zero in a garage [W/m2].
    areas : array_like, shape (4,) or (4, ..., 1)
        Of the faces [m2].
    finish : Finish
        [1, W/(m2 K), W/m2, s]. Several readings stand on an axis of their own before the walls.

    Returns
    -------
    Exposure
        [W/m2, K, s].

    Notes
    -----
    Source: `mean_light`, `equivalent_ambient`.
    """
    mean = mean_light(light, areas)
    equivalent = equivalent_ambient(
        air, mean, areas, finish.absorptance, finish.coefficient, finish.sky_loss
    )
    return Exposure(mean, equivalent, finish.lag)
