"""The room that insulated and bare conductors take in a raceway."""

import math
from functools import cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from service.published.conductors import sizes
from service.published.table_arrays import INCH, SQUARE_INCH, column

NAME = "insulated_conductors"
COMPACT = "compact_conductors"
BARE = "bare_conductors"

#: thhn: THHN, THWN, THWN-2; xhhw: XHHW, XHHW-2.
Insulation = Literal["thhn", "xhhw"]


def insulated_row(insulation: Insulation, size: str) -> str:
    """Return the row to cite, of table compact_conductors too."""
    return f"{insulation}/{size}"


def bare_row(size: str, *, solid: bool = False) -> str:
    """Return the row of table bare_conductors to cite."""
    return f"{size}/{'solid' if solid else 'stranded'}"


@cache
def insulated_areas(insulation: Insulation, *, compact: bool = False) -> NDArray[np.float64]:
    """Return the area of an insulated conductor of every size, shape (sizes,) [m2].

    Parameters
    ----------
    insulation : str
        thhn or xhhw.
    compact : bool
        Compact strand, as usual in aluminum; concentric strand takes more room.

    Returns
    -------
    ndarray
        NaN where the table has no such size.

    Notes
    -----
    Source: table insulated_conductors or compact_conductors.
    """
    return _insulated(insulation, "area", SQUARE_INCH, compact=compact)


@cache
def insulated_diameters(insulation: Insulation, *, compact: bool = False) -> NDArray[np.float64]:
    """Return the diameter of an insulated conductor of every size, shape (sizes,) [m].

    Parameters
    ----------
    insulation, compact
        As for `insulated_areas`.

    Returns
    -------
    ndarray
        NaN where the table has no such size.

    Notes
    -----
    Source: table insulated_conductors or compact_conductors.
    """
    return _insulated(insulation, "diameter", INCH, compact=compact)


@cache
def bare_areas(*, solid: bool = False) -> NDArray[np.float64]:
    """Return the area of a bare conductor of every size from its diameter, shape (sizes,) [m2].

    Parameters
    ----------
    solid : bool
        One wire instead of strand, which takes more room.

    Returns
    -------
    ndarray
        NaN where the table has no such size.

    Notes
    -----
    The printed areas are these, rounded to three decimals of a square inch: too few below 8 AWG.
    Source: table bare_conductors, diameters.
    """
    keys = (bare_row(size, solid=solid) for size in sizes())
    found = math.pi / 4.0 * column(BARE, keys, "diameter", INCH) ** 2
    found.setflags(write=False)
    return found


def _insulated(
    insulation: Insulation, name: str, factor: float, *, compact: bool
) -> NDArray[np.float64]:
    keys = (insulated_row(insulation, size) for size in sizes())
    return column(COMPACT if compact else NAME, keys, name, factor)
