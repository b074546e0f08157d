"""What full shade and a lighter colour would take off a unit's temperature."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.exposure import Exposure, Finish, light_reaching
from service.checks.heat_exposure.face_light import FaceLight
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light

Floats = NDArray[np.float64]

#: Places on axis 0.
AS_IT_IS: Final = 0
SHADED: Final = 1
LIGHTER: Final = 2
SHADED_AND_LIGHTER: Final = 3


def with_remedies(
    air: ArrayLike,
    light: FaceLight,
    as_it_is: Exposure,
    areas: ArrayLike,
    finish: Finish,
    lighter: ArrayLike,
    covered_loss: ArrayLike | None = None,
) -> Floats:
    """Return the equivalent ambient as it is, in full shade, in a lighter colour, and with both.

    Parameters
    ----------
    air : array_like, shape (..., N)
        N hours that repeat [K].
    light : FaceLight
        Shape (4, ..., N) [W/m2].
    as_it_is : Exposure
        Shape (..., N), by the same air and finish [W/m2, K, s].
    areas : array_like, shape (4,) or (4, ..., 1)
        Of the faces [m2].
    finish : Finish
        As it is [1, W/(m2 K), W/m2, s].
    lighter : array_like, shape () or (..., 1)
        Absorptance of the lighter colour; one darker than it is counts as no change [1].
    covered_loss : array_like, shape () or (..., 1), optional
        Long-wave loss of the top under what shades it; as it is where absent [W/m2].

    Returns
    -------
    ndarray, shape (4, ..., N)
        Without lag [K].

    Notes
    -----
    Full shade takes the directed light from every face at every hour; light of sky and ground
    stays. Source: `equivalent_ambient`.
    """
    paler = np.minimum(finish.absorptance, lighter)
    loss = finish.sky_loss if covered_loss is None else covered_loss
    shaded = mean_light(light_reaching(light, 0.0), areas)
    equivalent = [as_it_is.equivalent] + [
        equivalent_ambient(air, mean, areas, coat, finish.coefficient, of)
        for coat, mean, of in (
            (finish.absorptance, shaded, loss),
            (paler, as_it_is.light, finish.sky_loss),
            (paler, shaded, loss),
        )
    ]
    return np.stack(np.broadcast_arrays(*equivalent))
