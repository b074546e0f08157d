"""Sizes of conductors in order, their areas and their ampacities.

Arrays of the conductor tables stand over `sizes()`: the same place is the same size in all.
"""

import math
from functools import cache
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.loader import load
from service.published.table_arrays import column, first_reaching

NAME = "ampacity"
PROPERTIES = "conductor_properties"

Material = Literal["copper", "aluminum"]
#: Temperature rating [degC] whose column is read.
TemperatureColumn = Literal[60, 75, 90]

#: Area of a circle of a thousandth of an inch across [m2].
CIRCULAR_MIL: Final = math.pi / 4.0 * (0.001 * 0.0254) ** 2
_FIRST_KCMIL: Final = 250


@cache
def sizes() -> tuple[str, ...]:
    """Return the sizes from 14 AWG to 2000 kcmil, rising. Source: table ampacity."""
    rows = load(NAME).rows.values()
    return tuple(row["size"] for row in rows if row["material"] == "copper")


def size_unit(size: str) -> Literal["AWG", "kcmil"]:
    """Return the unit of a size: those named by 250 and more are in kcmil."""
    return "kcmil" if size.isdigit() and int(size) >= _FIRST_KCMIL else "AWG"


@cache
def index_of(size: str) -> int:
    """Return the place of a size in `sizes()`, or raise KeyError. Source: table ampacity."""
    if size not in sizes():
        raise KeyError(f"there is no conductor size {size!r}")
    return sizes().index(size)


@cache
def circular_mils() -> NDArray[np.float64]:
    """Return the area of every size as printed, shape (sizes,) [cmil].

    Notes
    -----
    Source: table conductor_properties.
    """
    return column(PROPERTIES, (f"{size}/stranded" for size in sizes()), "circular_mils")


@cache
def areas() -> NDArray[np.float64]:
    """Return the area of every size, shape (sizes,) [m2].

    Notes
    -----
    Source: table conductor_properties, circular mils converted.
    """
    found = circular_mils() * CIRCULAR_MIL
    found.setflags(write=False)
    return found


def ampacity_row(material: Material, size: str) -> str:
    """Return the row to cite of table ampacity; its columns are degc_60, degc_75 and degc_90."""
    return f"{material}/{size}"


@cache
def ampacities(material: Material, rating: TemperatureColumn) -> NDArray[np.float64]:
    """Return the ampacity of every size at 30 degC ambient, shape (sizes,) [A].

    Parameters
    ----------
    material : str
        copper or aluminum.
    rating : int
        Temperature rating [degC]: 60, 75 or 90.

    Returns
    -------
    ndarray
        NaN where the material has no such size.

    Notes
    -----
    Source: table ampacity.
    """
    keys = (ampacity_row(material, size) for size in sizes())
    return column(NAME, keys, f"degc_{rating}")


def smallest_size(area: ArrayLike) -> NDArray[np.intp]:
    """Return the place in `sizes()` of the smallest size of no less area.

    Parameters
    ----------
    area : array_like
        [m2].

    Returns
    -------
    ndarray of int
        In the shape of the area; the number of sizes where none is large enough or the area NaN.

    Notes
    -----
    An area that is short by a rounding of the printed circular mils alone takes the next size.
    Source: table conductor_properties.
    """
    return first_reaching(areas(), area)
