"""What sunlight on a roof adds to the temperature around a raceway."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: What the sun adds close above a roof, 60 degF [K]. The code prints 33 degC too; the larger of
#: both stands here. Source: NEC 2023 (NFPA 70) 310.15(B)(2). Standing: secondary.
ROOFTOP_ADDER: Final = 60 / 1.8


def rooftop_ambient(
    ambient: ArrayLike,
    height: ArrayLike,
    sunlit_roof: ArrayLike,
    least_height: ArrayLike,
    exempt: ArrayLike = False,
) -> Floats:
    """Return the temperature around a raceway or cable.

    Parameters
    ----------
    ambient : array_like
        Outdoor temperature, or that of the room or the attic [K].
    height : array_like
        From the roof to the bottom of the raceway [m]; any number away from roofs.
    sunlit_roof : array_like of bool
        Whether it lies above a roof in the sun.
    least_height : array_like
        From this height on nothing is added [m]: 3/4 in by the edition of 2023, 7/8 in by those
        of 2017 and 2020.
    exempt : array_like of bool, optional
        Whether the insulation is exempt, as XHHW-2 is.

    Returns
    -------
    ndarray
        Temperature [K].

    Notes
    -----
    Source: NEC (NFPA 70) 310.15(B)(2) of 2023, 310.15(B)(3)(c) of 2017, as told by secondary
    sources; the exemption in 2023 from memory, not verified.
    """
    low = np.asarray(height, np.float64) < np.asarray(least_height, np.float64)
    added = np.asarray(sunlit_roof, np.bool_) & low & ~np.asarray(exempt, np.bool_)
    return np.asarray(np.asarray(ambient, np.float64) + np.where(added, ROOFTOP_ADDER, 0.0))
