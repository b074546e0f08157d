"""What the code asks of a detached building that a circuit feeds."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE, reaches

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]

#: What the disconnecting means at the building serves.
ONE_CIRCUIT: Final = 0
TWO_CIRCUITS: Final = 1
ONE_FAMILY_DWELLING: Final = 2
MORE_CIRCUITS: Final = 3
#: Least rating of the disconnecting means, by what it serves [A].
#: Source: NEC 2023 (NFPA 70) 225.39; 30 and 60 A secondary, 15 and 100 A from memory.
_LEAST_RATING = np.array([15.0, 30.0, 100.0, 60.0])
#: The electrode that the grounding electrode conductor runs to alone.
ROD: Final = 0
CONCRETE_ENCASED: Final = 1
OTHER_ELECTRODE: Final = 2


class DetachedBuilding(NamedTuple):
    """What the building needs, in the shape of the inputs broadcast.

    Attributes
    ----------
    least_disconnect : ndarray
        Least rating of the disconnecting means [A].
    disconnect_suffices : ndarray of bool
        Whether it has that.
    electrode_needed : ndarray of bool
        Whether it needs an electrode of its own and the conductor to it.
    second_supply : ndarray of bool
        Whether it has more than one supply; then a plaque names them, and the second one needs a
        reason that the code admits, such as power production in parallel.
    """

    least_disconnect: Floats
    disconnect_suffices: Bools
    electrode_needed: Bools
    second_supply: Bools


def detached_building(
    serves: ArrayLike,
    disconnect_rating: ArrayLike,
    supplies: ArrayLike,
    branch_circuit_alone: ArrayLike,
    with_equipment_ground: ArrayLike,
) -> DetachedBuilding:
    """Return what a detached building needs.

    Parameters
    ----------
    serves : array_like of int
        `ONE_CIRCUIT`, `TWO_CIRCUITS`, `ONE_FAMILY_DWELLING` or `MORE_CIRCUITS`.
    disconnect_rating : array_like
        Rating of the disconnecting means itself, not of the device that feeds it [A].
    supplies : array_like of int
        Feeders and branch circuits that supply it, this one included.
    branch_circuit_alone, with_equipment_ground : array_like of bool
        Whether one branch circuit is all that feeds it; a multiwire one is one. Whether it carries
        an equipment ground.

    Returns
    -------
    DetachedBuilding

    Notes
    -----
    The neutral is not bonded there, whatever the answer.
    Source: NEC 2023 (NFPA 70) 225.30, 225.37, 225.39, 250.32(A) and (B), as told by secondary
    sources; 225.37 from memory.
    """
    least = _LEAST_RATING[np.asarray(serves)]
    single = np.asarray(branch_circuit_alone, bool) & np.asarray(with_equipment_ground, bool)
    several = np.asarray(supplies) > 1
    return DetachedBuilding(
        least,
        reaches(disconnect_rating, least, "current"),
        ~single | several,
        several,
    )


def electrode_conductor(
    phase_area: Floats, area_to: Floats, sizes: Ints, electrode: Ints, largest: Ints
) -> Ints:
    """Return the grounding electrode conductor by the largest ungrounded conductor of the feeder.

    Parameters
    ----------
    phase_area : ndarray, shape (L,)
        Of one phase, all parallel sets together [m2].
    area_to : ndarray, shape (K,)
        Areas not exceeded for the material of the phases, rising, the last infinite [m2].
    sizes : ndarray of int, shape (K,)
        Size of the grounding electrode conductor.
    electrode : ndarray of int, shape (L,)
        `ROD`, `CONCRETE_ENCASED` or `OTHER_ELECTRODE`.
    largest : ndarray of int, shape (3,)
        Largest size that need run to each of them alone.

    Returns
    -------
    ndarray of int, shape (L,)

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Table 250.66 and 250.66(A), (B); the caps by a secondary source.
    """
    row = np.searchsorted(area_to, phase_area * (1 - TOLERANCE["fraction"]))
    return np.asarray(np.minimum(sizes[row], largest[electrode]))
