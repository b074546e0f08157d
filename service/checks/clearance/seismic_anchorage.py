"""The horizontal earthquake force that the anchors of a unit hold."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Standard gravity [m/s2]: a mass in pounds then weighs as many pounds of force.
GRAVITY: Final = 9.80665
# Coefficients of the printed formula and of its bounds [1].
_FORMULA: Final = 0.4
_LEAST: Final = 0.3
_MOST: Final = 1.6


class AnchorForce(NamedTuple):
    """The design force and what it comes from, each in the broadcast shape of the inputs.

    Attributes
    ----------
    force : ndarray
        What the anchors hold, horizontally, in any direction [N].
    formula : ndarray
        Before the bounds [N].
    least, most : ndarray
        The bounds [N].
    """

    force: Floats
    formula: Floats
    least: Floats
    most: Floats


def anchor_force(
    mass: ArrayLike,
    spectral: ArrayLike,
    height_part: ArrayLike,
    amplification: ArrayLike,
    response: ArrayLike,
    importance: ArrayLike,
) -> AnchorForce:
    """Return the horizontal force at the centre of gravity of a unit.

    Parameters
    ----------
    mass : array_like
        Of the unit with what hangs on it [kg].
    spectral : array_like
        Design spectral acceleration at short periods, SDS, as part of gravity [1].
    height_part : array_like
        Height of the fixing over the base as part of the height of the roof, z/h; what lies outside
        0 to 1 is taken as the nearer of the two [1].
    amplification, response, importance : array_like
        Component factors ap, Rp and Ip [1].

    Returns
    -------
    AnchorForce
        [N].

    Notes
    -----
    A screening number for the talk with an engineer, no design of anchors: overstrength for anchors
    in concrete, the vertical part and the arm of the load from the wall are not in it.
    Source: ASCE 7-16 section 13.3.1, from memory, not verified. ASCE 7-22 states another force.
    """
    weight = np.asarray(mass, dtype=np.float64) * GRAVITY
    shaken = weight * np.asarray(spectral, dtype=np.float64)
    part = np.clip(np.asarray(height_part, dtype=np.float64), 0.0, 1.0)
    factor = np.asarray(importance, dtype=np.float64)
    formula = _FORMULA * np.asarray(amplification) * shaken * (1.0 + 2.0 * part)
    formula = np.asarray(formula * factor / np.asarray(response))
    least, most = np.asarray(_LEAST * factor * shaken), np.asarray(_MOST * factor * shaken)
    return AnchorForce(np.asarray(np.clip(formula, least, most)), formula, least, most)
