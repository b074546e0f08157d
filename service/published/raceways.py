"""Raceways: their kinds and trade sizes, and how much of them conductors may fill."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.loader import load
from service.published.table_arrays import INCH, SQUARE_INCH, at, column, first_reaching

NAME = "raceways"
SIZES = "raceway_sizes"
FILL = "conductor_fill"
_NIPPLE = "nipple"


@dataclass(frozen=True, slots=True, eq=False)
class Raceway:
    """A kind of raceway.

    Attributes
    ----------
    label : str
        Its name in words.
    material : str
        Of which column resistance and reactance of conductors in it are read: pvc or steel.
    cover : str or None
        Column of the table of burial cover; None: not collected.
    trade_sizes : tuple of str
        Rising.
    inside_diameters : ndarray, shape (trade sizes,)
        [m].
    inside_areas : ndarray, shape (trade sizes,)
        The whole inside [m2].
    """

    id: str
    label: str
    material: str
    cover: str | None
    trade_sizes: tuple[str, ...]
    inside_diameters: NDArray[np.float64]
    inside_areas: NDArray[np.float64]


@cache
def raceways() -> Mapping[str, Raceway]:
    """Return the kinds of raceway by id.

    Returns
    -------
    mapping of str to Raceway

    Notes
    -----
    Source: tables raceways and raceway_sizes.
    """
    return MappingProxyType({key: _raceway(key) for key in load(NAME).rows})


def raceway_row(raceway: str, trade_size: str) -> str:
    """Return the row of table raceway_sizes to cite."""
    return f"{raceway}/{trade_size}"


def fill_limit(conductors: ArrayLike, *, nipple: bool = False) -> NDArray[np.float64]:
    """Return the part of the inside area that conductors may fill [1].

    Parameters
    ----------
    conductors : array_like
        Number of conductors of every use, a cable being one [1].
    nipple : bool
        Whether the raceway is no longer than 24 in.

    Returns
    -------
    ndarray
        In the shape of the number; NaN where it is NaN.

    Notes
    -----
    Source: table conductor_fill.
    """
    _, most, parts = _fill(nipple)
    return at(parts, first_reaching(most, conductors))


def fill_row(conductors: int, *, nipple: bool = False) -> str:
    """Return the row of table conductor_fill to cite for a number of conductors [1]."""
    keys, most, _ = _fill(nipple)
    return keys[int(first_reaching(most, conductors))]


@cache
def _fill(nipple: bool) -> tuple[tuple[str, ...], NDArray[np.float64], NDArray[np.float64]]:
    keys = tuple(key for key in load(FILL).rows if (key == _NIPPLE) == nipple)
    return keys, column(FILL, keys, "most"), column(FILL, keys, "fraction")


def _raceway(key: str) -> Raceway:
    row = load(NAME).row(key)
    rows = {k: cells for k, cells in load(SIZES).rows.items() if cells["raceway"] == key}
    return Raceway(
        key,
        row["label"],
        row["material"],
        row["cover"] or None,
        tuple(cells["trade_size"] for cells in rows.values()),
        column(SIZES, rows, "inside_diameter", INCH),
        column(SIZES, rows, "area", SQUARE_INCH),
    )
