"""The wire-type equipment grounding conductor, grown with the phases where distance grew them."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.quantities.comparison import TOLERANCE, reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: The size of the table.
BY_TABLE: Final = 0
#: Grown by the ratio of the phases.
INCREASED: Final = 1
#: Grown no further than the phases themselves.
AS_PHASE: Final = 2
#: The table or the sizes at hand do not go so far.
BEYOND_TABLE: Final = 3
#: There are no phases to be beside; said by `sizing`.
NO_PHASES: Final = 4
#: What the phases grew from: the size that the circuit needs apart from distance (2020 on), or
#: the size that it needs without the factors of heat and company either (2017).
WITHOUT_DISTANCE: Final = 0
WITHOUT_FACTORS: Final = 1
#: The next smaller size misses the area by less than this share [1]: the rounding of the printed
#: areas, not the rule, decides. Standing: derived, our own choice from the printed digits.
_MARGIN = 0.0015


class EquipmentGround(NamedTuple):
    """The equipment ground of each lane.

    Attributes
    ----------
    size : ndarray of int, shape (L,)
        Smallest size that meets the rule strictly; -1 where there is none.
    table_size : ndarray of int, shape (L,)
        Size of the table before it grows; -1 where the table ends.
    needed_area : ndarray, shape (L,)
        Area that the rule asks for [m2]; 0 where the table ends.
    marginal : ndarray of bool, shape (L,)
        Whether the next smaller size would do but for the rounding of the printed areas.
    code : ndarray of int, shape (L,)
        `BY_TABLE`, `INCREASED`, `AS_PHASE` or `BEYOND_TABLE`.
    """

    size: Ints
    table_size: Ints
    needed_area: Floats
    marginal: Bools
    code: Ints


class GroundTable(NamedTuple):
    """Size of the equipment ground by the overcurrent device.

    Attributes
    ----------
    rating_to : ndarray, shape (K,)
        Ratings not exceeded, rising [A].
    area : ndarray, shape (M, K)
        Of the equipment ground, by its material [m2].
    ladder : ndarray, shape (M, N)
        Areas of the sizes at hand, rising, NaN where there is none [m2].
    """

    rating_to: Floats
    area: Floats
    ladder: Floats


def table_area(rating: Floats, table: GroundTable, material: Ints) -> Floats:
    """Return the area of an equipment ground by the device alone, before it grows.

    Parameters
    ----------
    rating : ndarray, shape (L,)
        Of the overcurrent device [A].
    table : GroundTable
        Sizes by rating.
    material : ndarray of int, shape (L,)
        Of the equipment ground.

    Returns
    -------
    ndarray, shape (L,)
        In the unit of the table [m2]; infinite where the table ends.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 250.122, handed in by the caller.
    """
    row = np.searchsorted(table.rating_to, rating - TOLERANCE["current"])
    last = table.rating_to.size - 1
    return np.where(row > last, np.inf, table.area[material, np.minimum(row, last)])


def equipment_ground(
    rating: Floats, phase_area: Floats, grown_from: Floats, table: GroundTable, material: Ints
) -> EquipmentGround:
    """Return the equipment ground behind a device and beside phases of a size.

    Parameters
    ----------
    rating : ndarray, shape (L,)
        Of the larger of the overcurrent devices at both ends, undivided among parallel sets [A].
    phase_area, grown_from : ndarray, shape (L,)
        Area of a phase conductor, and what it would be if nothing had enlarged it that counts
        [m2]; see `WITHOUT_DISTANCE` and `WITHOUT_FACTORS`.
    table : GroundTable
        Sizes by rating and sizes at hand. Only ratios of areas count: any unit of area will do.
    material : ndarray of int, shape (L,)
        Of the equipment ground.

    Returns
    -------
    EquipmentGround

    Notes
    -----
    ``table area x phase area / grown from``, unrounded, and never more than the phase.
    Source: NEC 2023 (NFPA 70) 250.122(A) and (B); 2017: 250.122(B); as told by secondary sources.
    """
    base = table_area(rating, table, material)
    listed = np.isfinite(base)
    base = np.where(listed, base, table.area[material, -1])
    ratio = np.maximum(phase_area / grown_from, 1.0)
    grown = base * ratio
    capped = ~reaches(phase_area / grown, 1.0, "fraction")
    needed = np.where(capped, phase_area, grown)
    size, table_size = _smallest(table, material, needed), _smallest(table, material, base)
    smaller = table.ladder[material, np.maximum(size - 1, 0)]
    increased = ~reaches(1.0, ratio, "fraction")
    marginal = increased & ~capped & (size > 0) & (smaller > needed * (1 - _MARGIN))
    code = np.where(capped, AS_PHASE, np.where(increased, INCREASED, BY_TABLE))
    found = listed & (size >= 0)
    return EquipmentGround(
        np.where(found, size, -1),
        np.where(listed, table_size, -1),
        np.where(listed, needed, 0.0),
        marginal & found,
        np.where(found, code, BEYOND_TABLE),
    )


def _smallest(table: GroundTable, material: Ints, area: Floats) -> Ints:
    enough = reaches(table.ladder[material] / area[:, np.newaxis], 1.0, "fraction")
    return np.where(enough.any(axis=1), enough.argmax(axis=1), -1)
