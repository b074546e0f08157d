"""Standard ratings of fuses and breakers, by edition of the code."""

from functools import cache
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.loader import load
from service.published.table_arrays import at, column, first_reaching

NAME = "overcurrent_ratings"

Device = Literal["breaker", "fuse"]


@cache
def standard_ratings(edition: str, device: Device = "breaker") -> NDArray[np.float64]:
    """Return the standard ratings, rising, shape (ratings,) [A].

    Parameters
    ----------
    edition : str
        nec-2017, nec-2020 or nec-2023.
    device : str
        Inverse-time breaker, or fuse.

    Returns
    -------
    ndarray

    Raises
    ------
    KeyError
        The table does not know the edition.

    Notes
    -----
    Source: table overcurrent_ratings.
    """
    return column(NAME, _keys(edition, device), "rating")


def next_rating(
    current: ArrayLike, edition: str, device: Device = "breaker"
) -> NDArray[np.float64]:
    """Return the smallest standard rating that is not below each current [A].

    Parameters
    ----------
    current : array_like
        [A]; a current a billionth above a rating is that rating.
    edition, device : str
        As for `standard_ratings`.

    Returns
    -------
    ndarray
        In the shape of the current; NaN above the table.

    Notes
    -----
    Source: table overcurrent_ratings.
    """
    ratings = standard_ratings(edition, device)
    return at(ratings, first_reaching(ratings, current))


def rating_row(rating: float) -> str:
    """Return the row to cite for a standard rating [A]."""
    return f"{rating:g}"


@cache
def _keys(edition: str, device: Device) -> tuple[str, ...]:
    rows = load(NAME).rows
    flag = edition.replace("nec-", "breaker_")
    if flag not in next(iter(rows.values())):
        raise KeyError(f"table {NAME} does not know the edition {edition!r}")
    return tuple(key for key, row in rows.items() if device == "fuse" or row[flag] == "yes")
