"""Sol-air temperature of a face, and what the faces of a unit come to together."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.unit_faces import TOP

Floats = NDArray[np.float64]


def sol_air(
    air: ArrayLike,
    light: ArrayLike,
    absorptance: ArrayLike,
    coefficient: ArrayLike,
    sky_loss: ArrayLike = 0.0,
) -> Floats:
    """Return the air temperature that would heat a face without sun as sun and air do.

    Parameters
    ----------
    air : array_like
        Air temperature [K].
    light : array_like
        Irradiance on the face [W/m2].
    absorptance : array_like
        Part of the light that the face takes in [1].
    coefficient : array_like
        Heat passed between face and air per kelvin [W/(m2 K)].
    sky_loss : array_like, optional
        What a black face at air temperature radiates to the sky beyond what it gets from there;
        0 for an upright face [W/m2].

    Returns
    -------
    ndarray
        [K].

    Notes
    -----
    A temperature of the face, close to what a thermometer on the paint shows. No rating speaks of
    it: ratings speak of the air around the unit. The quotient of absorptance and coefficient is
    what sol-air tables print, 0.026 and 0.052 m2 K/W for light and dark faces; it is no
    absorptance itself.

    References
    ----------
    ASHRAE Handbook Fundamentals, nonresidential cooling loads, sol-air temperature (secondary).
    """
    gain = np.multiply(absorptance, light) - np.asarray(sky_loss)
    return np.asarray(air + gain / np.asarray(coefficient, dtype=np.float64))


def mean_light(light: ArrayLike, areas: ArrayLike) -> Floats:
    """Return the irradiance of the faces, weighted by area.

    Parameters
    ----------
    light : array_like, shape (4, ..., N)
        Irradiance on front, left, right and top [W/m2].
    areas : array_like, shape (4,) or (4, ..., 1)
        [m2].

    Returns
    -------
    ndarray, shape (..., N)
        [W/m2].

    Notes
    -----
    Source: derived.
    """
    each = np.asarray(light, dtype=np.float64)
    weights = _weights(areas, each.ndim)
    return np.asarray(np.sum(each * weights, axis=0))


def equivalent_ambient(
    air: ArrayLike,
    light: ArrayLike,
    areas: ArrayLike,
    absorptance: ArrayLike,
    coefficient: ArrayLike,
    sky_loss: ArrayLike,
) -> Floats:
    """Return the shaded air temperature that would heat a unit as the sun and the air do.

    Parameters
    ----------
    air : array_like, shape (..., N)
        Air temperature [K].
    light : array_like, shape (..., N)
        Irradiance of the faces, weighted by area, as from `mean_light` [W/m2].
    areas : array_like, shape (4,) or (4, ..., 1)
        [m2].
    absorptance, coefficient : array_like, shape () or (..., 1)
        As in `sol_air` [1, W/(m2 K)].
    sky_loss : array_like, shape () or (..., 1)
        Of the top alone; none where an eave stands over it [W/m2].

    Returns
    -------
    ndarray, shape (..., N)
        [K].

    Notes
    -----
    The mean of the faces' sol-air temperatures, weighted by area: exact for a shell that passes
    heat alike everywhere, with an adiabatic back and no heat of its own. Heat from within is not
    in it, since the rated ambient temperature that it is held against allows for that already.
    Source: derived.
    """
    irradiance = np.asarray(light, dtype=np.float64)
    share = _weights(areas, irradiance.ndim + 1)[TOP]
    return sol_air(air, irradiance, absorptance, coefficient, share * np.asarray(sky_loss))


def _weights(areas: ArrayLike, dimensions: int) -> Floats:
    """Return the areas over their sum, with as many dimensions as the light has."""
    size = np.asarray(areas, dtype=np.float64)
    if size.ndim == 1:
        size = size.reshape(size.shape + (1,) * (dimensions - 1))
    return np.asarray(size / size.sum(axis=0))
