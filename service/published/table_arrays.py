"""Columns of a table as arrays, and the rows that a limit column gives to many values at once."""

from collections.abc import Iterable
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.loader import load

#: An inch [m], a foot [m], a square inch [m2]: exact.
INCH: Final = 0.0254
FOOT: Final = 0.3048
SQUARE_INCH: Final = INCH * INCH
#: An ohm a thousand feet [ohm/m].
OHM_PER_KFT: Final = 1.0 / (1000.0 * FOOT)
#: Values that differ by rounding alone are one value: part of the limit [1]. Our choice.
_SAME: Final = 1e-9


def column(table: str, keys: Iterable[str], name: str, factor: float = 1.0) -> NDArray[np.float64]:
    """Return a column of a table over some row keys, shape (keys,), not to be written to.

    Parameters
    ----------
    table : str
        Name of the table.
    keys : iterable of str
        Row keys, in the order wanted.
    name : str
        A column that has a unit.
    factor : float
        What the unit of the column is in the unit wanted [1].

    Returns
    -------
    ndarray
        NaN where the table has no such row or prints no number.

    Notes
    -----
    Source: the table.
    """
    found = load(table)
    read = (found.number_or_none(key, name) if key in found.rows else None for key in keys)
    cells = np.array([np.nan if cell is None else cell * factor for cell in read])
    cells.setflags(write=False)
    return cells


def first_reaching(
    limits: NDArray[np.float64], values: ArrayLike, same: float | None = None
) -> NDArray[np.intp]:
    """Return the first row whose limit is not below each value, in the shape of the values.

    Parameters
    ----------
    limits : ndarray, shape (rows,)
        Rising; NaN at the end stands for no limit.
    values : array_like
        In the unit of the limits.
    same : float, optional
        How far above a limit still is the limit, in its unit; a billionth of the value if left out.

    Returns
    -------
    ndarray of int
        The number of rows where no row reaches the value, and where the value is NaN.

    Notes
    -----
    Source: derived.
    """
    asked = np.asarray(values, dtype=np.float64)
    margin = np.abs(asked) * _SAME if same is None else same
    rows = np.searchsorted(np.nan_to_num(limits, nan=np.inf), asked - margin, side="left")
    return np.where(np.isnan(asked), len(limits), rows)


def at(values: NDArray[np.float64], rows: ArrayLike) -> NDArray[np.float64]:
    """Return the values at some rows, NaN at a row beyond the last, in the shape of the rows.

    Parameters
    ----------
    values : ndarray, shape (n,)
    rows : array_like of int
        From 0 on.

    Returns
    -------
    ndarray
        In the unit of the values.

    Notes
    -----
    Source: derived.
    """
    return np.append(values, np.nan)[np.minimum(np.asarray(rows, dtype=np.intp), len(values))]
