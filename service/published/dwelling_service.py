"""Conductors of a dwelling's service, or of the one feeder that carries all of its load."""

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.conductors import Material, index_of, sizes
from service.published.loader import load
from service.published.table_arrays import column, first_reaching

NAME = "dwelling_service"


@cache
def service_ratings() -> NDArray[np.float64]:
    """Return the ratings of the table, rising, shape (ratings,) [A]."""
    return column(NAME, load(NAME).rows, "rating")


def service_size(rating: ArrayLike, material: Material) -> NDArray[np.intp]:
    """Return the place in `sizes()` of the conductor of a service, of the next larger rating.

    Parameters
    ----------
    rating : array_like
        Rating of the service or feeder [A].
    material : str
        copper or aluminum.

    Returns
    -------
    ndarray of int
        In the shape of the rating; the number of sizes outside the table, which begins at 100 A.

    Notes
    -----
    It holds where neither the ambient temperature nor bundling asks for a factor.
    Source: table dwelling_service.
    """
    return _places(material)[_rows(rating)]


def service_row(rating: float) -> str | None:
    """Return the row to cite for a rating [A], None outside the table."""
    return (*load(NAME).rows, None)[int(_rows(rating))]


def _rows(rating: ArrayLike) -> NDArray[np.intp]:
    listed = service_ratings()
    below = np.asarray(rating) < listed[0]
    return np.where(below, len(listed), first_reaching(listed, rating))


@cache
def _places(material: Material) -> NDArray[np.intp]:
    cells = [row[material] for row in load(NAME).rows.values()]
    return np.array([*(index_of(cell) for cell in cells), len(sizes())])
