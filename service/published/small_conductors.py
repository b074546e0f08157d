"""The largest fuse or breaker that may protect a small conductor, whatever its ampacity."""

from functools import cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from service.published.conductors import sizes
from service.published.table_arrays import column

NAME = "small_conductor_protection"


def protection_row(
    material: Literal["copper", "aluminum", "copper_clad_aluminum"], size: str
) -> str:
    """Return the row to cite of a size that has a cap."""
    return f"{material}/{size}"


@cache
def largest_protection(
    material: Literal["copper", "aluminum", "copper_clad_aluminum"],
) -> NDArray[np.float64]:
    """Return the largest rating of the overcurrent device over all sizes, shape (sizes,) [A].

    Parameters
    ----------
    material : str
        copper, aluminum or copper_clad_aluminum.

    Returns
    -------
    ndarray
        NaN where the size has no cap, and for 14 AWG aluminum, which is no conductor of the code.

    Notes
    -----
    Source: table small_conductor_protection.
    """
    return column(NAME, (protection_row(material, size) for size in sizes()), "most")
