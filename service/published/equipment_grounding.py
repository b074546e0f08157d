"""The smallest equipment grounding conductor, by the device ahead of the circuit."""

from functools import cache, lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.conductors import Material, index_of, sizes
from service.published.loader import load
from service.published.table_arrays import column, first_reaching

NAME = "equipment_grounding"


def grounding_size(rating: ArrayLike, material: Material) -> NDArray[np.intp]:
    """Return the place in `sizes()` of the smallest equipment grounding conductor.

    Parameters
    ----------
    rating : array_like
        Rating or setting of the overcurrent device [A].
    material : str
        Of the grounding conductor: copper or aluminum.

    Returns
    -------
    ndarray of int
        In the shape of the rating; the number of sizes above the table and where it is NaN.

    Notes
    -----
    Growth with enlarged circuit conductors and the cap at their size are not of this table.
    Source: table equipment_grounding.
    """
    return _places(material)[first_reaching(_limits(material), rating)]


@lru_cache(maxsize=1024)
def grounding_row(rating: float, material: Material) -> str | None:
    """Return the row to cite for a rating [A], None above the table."""
    return (*_keys(material), None)[int(first_reaching(_limits(material), rating))]


@cache
def _keys(material: Material) -> tuple[str, ...]:
    rows = load(NAME).rows.items()
    return tuple(key for key, row in rows if row["material"] == material)


@cache
def _limits(material: Material) -> NDArray[np.float64]:
    return column(NAME, _keys(material), "most")


@cache
def _places(material: Material) -> NDArray[np.intp]:
    rows = load(NAME).rows
    return np.array([*(index_of(rows[key]["size"]) for key in _keys(material)), len(sizes())])
