"""Conductors of a service that follow its largest ungrounded conductor."""

from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.published.conductors import CIRCULAR_MIL, Material, areas, index_of, sizes
from service.published.loader import load
from service.published.table_arrays import at, column, first_reaching

ELECTRODE = "grounding_electrode"
SUPPLY_SIDE = "supply_side_bonding"


def electrode_conductor_size(
    area: ArrayLike, ungrounded: Material, material: Material
) -> NDArray[np.intp]:
    """Return the place in `sizes()` of the grounding electrode conductor.

    Parameters
    ----------
    area : array_like
        Largest ungrounded conductor, or the sum of a parallel set [m2].
    ungrounded, material : str
        Of the ungrounded and of the electrode conductor: copper or aluminum.

    Returns
    -------
    ndarray of int
        In the shape of the area; the number of sizes where that is NaN.

    Notes
    -----
    Smaller caps for a rod, pipe, plate or concrete-encased electrode are not of this table.
    Source: table grounding_electrode.
    """
    return _places(ELECTRODE, material)[_rows(ELECTRODE, area, ungrounded)]


def supply_side_area(
    area: ArrayLike, ungrounded: Material, material: Material
) -> NDArray[np.float64]:
    """Return the least area of a grounded conductor or supply-side bonding jumper [m2].

    Parameters
    ----------
    area : array_like
        Largest ungrounded conductor, or the sum of a parallel set [m2].
    ungrounded, material : str
        Of the ungrounded conductor and of the one looked for: copper or aluminum.

    Returns
    -------
    ndarray
        In the shape of the area. NaN where that is NaN, and in the last row where the materials
        differ: its fraction is one of the same material.

    Notes
    -----
    Source: table supply_side_bonding.
    """
    rows = _rows(SUPPLY_SIDE, area, ungrounded)
    listed = at(areas(), _places(SUPPLY_SIDE, material)[rows])
    fraction = at(_numbers(SUPPLY_SIDE, "fraction"), rows)
    in_parts = fraction * np.asarray(area) * (1.0 if ungrounded == material else np.nan)
    return np.where(np.isnan(listed), in_parts, listed)


def electrode_row(area: float, ungrounded: Material) -> str | None:
    """Return the row of table grounding_electrode to cite for an area [m2], None for NaN."""
    return _key(ELECTRODE, area, ungrounded)


def supply_side_row(area: float, ungrounded: Material) -> str | None:
    """Return the row of table supply_side_bonding to cite for an area [m2], None for NaN."""
    return _key(SUPPLY_SIDE, area, ungrounded)


def _rows(table: str, area: ArrayLike, ungrounded: Material) -> NDArray[np.intp]:
    return first_reaching(_numbers(table, f"{ungrounded}_most", CIRCULAR_MIL), area)


def _key(table: str, area: float, ungrounded: Material) -> str | None:
    return (*load(table).rows, None)[int(_rows(table, area, ungrounded))]


@cache
def _numbers(table: str, name: str, factor: float = 1.0) -> NDArray[np.float64]:
    return column(table, load(table).rows, name, factor)


@cache
def _places(table: str, material: Material) -> NDArray[np.intp]:
    cells = [row[material] for row in load(table).rows.values()]
    return np.array([*(index_of(cell) if cell else len(sizes()) for cell in cells), len(sizes())])
