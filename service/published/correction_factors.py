"""What the ambient temperature and other conductors beside it leave of an ampacity."""

from functools import cache, lru_cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.conductors import TemperatureColumn
from service.published.loader import load
from service.published.table_arrays import at, column, first_reaching

AMBIENT = "ambient_correction"
BUNDLING = "bundling_adjustment"

#: Degrees that come of converting units alone are no step into the next band [degC]. Our choice.
_SAME_DEGREE: Final = 1e-6


@cache
def _numbers(table: str, name: str) -> NDArray[np.float64]:
    return column(table, load(table).rows, name)


def ambient_factor(ambient: ArrayLike, rating: TemperatureColumn) -> NDArray[np.float64]:
    """Return the factor on the ampacity, of the first band that reaches the temperature [1].

    Parameters
    ----------
    ambient : array_like
        Temperature around the conductor [degC].
    rating : int
        Temperature rating whose ampacity is corrected [degC]: 60, 75 or 90.

    Returns
    -------
    ndarray
        In the shape of the temperature; NaN where no factor is printed: too hot for the conductor.

    Notes
    -----
    Source: table ambient_correction.
    """
    return at(_numbers(AMBIENT, f"degc_{rating}"), _ambient_rows(ambient))


@lru_cache(maxsize=1024)
def ambient_row(ambient: float) -> str | None:
    """Return the row to cite for a temperature [degC], None above the table."""
    return _key(AMBIENT, _ambient_rows(ambient))


def bundling_factor(conductors: ArrayLike) -> NDArray[np.float64]:
    """Return the factor on the ampacity of current-carrying conductors together [1].

    Parameters
    ----------
    conductors : array_like
        Number of current-carrying conductors [1].

    Returns
    -------
    ndarray
        In the shape of the number; NaN where it is NaN.

    Notes
    -----
    Source: table bundling_adjustment.
    """
    return at(_numbers(BUNDLING, "factor"), first_reaching(_numbers(BUNDLING, "most"), conductors))


@lru_cache(maxsize=128)
def bundling_row(conductors: float) -> str | None:
    """Return the row to cite for a number of current-carrying conductors [1], None for NaN."""
    return _key(BUNDLING, first_reaching(_numbers(BUNDLING, "most"), conductors))


def _ambient_rows(ambient: ArrayLike) -> NDArray[np.intp]:
    return first_reaching(_numbers(AMBIENT, "most"), ambient, _SAME_DEGREE)


def _key(table: str, row: NDArray[np.intp]) -> str | None:
    keys = (*load(table).rows, None)
    return keys[int(row)]
