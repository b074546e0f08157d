"""Whether the bottom of a unit stays above the flood."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches


class FloodHeight(NamedTuple):
    """How a unit stands to the flood, each in the broadcast shape of the inputs.

    Attributes
    ----------
    required : ndarray
        Least elevation of the bottom [m].
    least_above_ground : ndarray
        The same above the ground at the wall, no less than 0 [m].
    margin : ndarray
        What the bottom has over it; negative: what is missing [m].
    holds : ndarray of bool
        Equality holds.
    """

    required: NDArray[np.float64]
    least_above_ground: NDArray[np.float64]
    margin: NDArray[np.float64]
    holds: NDArray[np.bool_]


def flood_height(
    bottom: ArrayLike, ground: ArrayLike, flood: ArrayLike, freeboard: ArrayLike
) -> FloodHeight:
    """Compare the bottom of a unit with the flood elevation and its freeboard.

    Parameters
    ----------
    bottom : array_like
        Lowest point of the unit above the ground at the wall [m].
    ground : array_like
        Elevation of that ground, in the datum of the flood map [m].
    flood : array_like
        Base flood elevation, in the same datum [m].
    freeboard : array_like
        What the code adds to it [m].

    Returns
    -------
    FloodHeight
        [m].

    Notes
    -----
    Source: International Residential Code R322.1.6, from memory, not verified: electrical equipment
    at or above the design flood elevation; the rest is derived.
    """
    floor = np.asarray(ground, dtype=np.float64)
    required = np.asarray(np.add(flood, freeboard, dtype=np.float64))
    elevation = floor + np.asarray(bottom, dtype=np.float64)
    return FloodHeight(
        required=required,
        least_above_ground=np.asarray(np.maximum(required - floor, 0.0)),
        margin=np.asarray(elevation - required),
        holds=reaches(elevation, required, "length"),
    )
