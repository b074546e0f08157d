"""What full shade and a lighter colour would take off a unit's temperature."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.exposure import Finish, light_reaching
from service.checks.heat_exposure.face_light import FaceLight
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light
from service.checks.heat_exposure.thermal_lag import lagged

Floats = NDArray[np.float64]

#: Places on axis 0.
AS_IT_IS: Final = 0
SHADED: Final = 1
LIGHTER: Final = 2
SHADED_AND_LIGHTER: Final = 3


def with_remedies(
    air: ArrayLike,
    light: FaceLight,
    lit: ArrayLike,
    areas: ArrayLike,
    finish: Finish,
    lighter: ArrayLike,
) -> Floats:
    """Return the temperatures as it is, in full shade, in a lighter colour, and with both.

    Parameters
    ----------
    air : array_like, shape (..., N)
        N hours that repeat [K].
    light : FaceLight
        Shape (4, ..., N) [W/m2].
    lit : array_like, shape () or (4, ..., N)
        Part of the directed light that reaches each face as it is [1].
    areas : array_like, shape (4,) or (4, ..., 1)
        Of the faces [m2].
    finish : Finish
        As it is [1, W/(m2 K), W/m2, s].
    lighter : array_like, shape () or (..., 1)
        Absorptance of the lighter colour; one darker than it is counts as no change [1].

    Returns
    -------
    ndarray, shape (4, ..., N)
        With the unit's lag [K].

    Notes
    -----
    Full shade takes the directed light from every face at every hour; light of sky and ground
    stays. Source: `equivalent_ambient`, `lagged`.
    """
    paler = np.minimum(finish.absorptance, lighter)
    means = [mean_light(light_reaching(light, reaching), areas) for reaching in (lit, 0.0)]
    equivalent = [
        equivalent_ambient(air, mean, areas, coat, finish.coefficient, finish.sky_loss)
        for coat in (finish.absorptance, paler)
        for mean in means
    ]
    return lagged(np.stack(np.broadcast_arrays(*equivalent)), finish.lag)
