"""Heat of the unit itself, and when it may be added."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


def enclosure_rise(losses: ArrayLike, area: ArrayLike, coefficient: ArrayLike) -> Floats:
    """Return how much hotter a sealed enclosure is inside than the air around it.

    Parameters
    ----------
    losses : array_like
        Heat given off within [W].
    area : array_like
        Of the exposed faces; those on a wall or a floor do not count [m2].
    coefficient : array_like
        Heat passed through a face per kelvin [W/(m2 K)].

    Returns
    -------
    ndarray
        [K].

    Notes
    -----
    Source: two trade guides to the cooling of electrical enclosures (secondary); coefficients in
    table enclosure_materials.
    """
    return np.asarray(np.divide(losses, np.multiply(coefficient, area)))


def compared_temperature(
    ambient: ArrayLike, rise: ArrayLike, limit_is_inside: ArrayLike = False
) -> Floats:
    """Return the temperature that is held against a limit.

    Parameters
    ----------
    ambient : array_like
        Equivalent ambient temperature [K].
    rise : array_like
        What the unit's own heat adds inside, as from `enclosure_rise` [K].
    limit_is_inside : array_like of bool, optional
        Whether the limit speaks of the air inside; a rated ambient temperature does not.

    Returns
    -------
    ndarray
        [K].

    Notes
    -----
    A rated ambient temperature was found with the unit at work, so it allows for the unit's own
    heat; adding that once more counts it twice. Source: derived; the meaning of a rated ambient.
    """
    return np.asarray(ambient + np.where(limit_is_inside, rise, 0.0))
