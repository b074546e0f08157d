"""The smallest conductor that meets every constraint, and which constraint asked for it."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, CodeTables
from service.checks.conductor_sizing.conditions_of_use import ConditionsOfUse
from service.checks.conductor_sizing.constraints import DROP, constraints
from service.checks.conductor_sizing.equipment_ground import (
    NO_PHASES,
    EquipmentGround,
    equipment_ground,
)
from service.checks.conductor_sizing.overcurrent_device import ABOVE_STANDARD, OvercurrentDevice

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: What became of a lane.
SIZED: Final = 0
#: No size meets all constraints.
NONE_FITS: Final = 1
#: No standard overcurrent device is large enough.
NO_DEVICE: Final = 2


class Sizing(NamedTuple):
    """The conductor of each lane; a size of -1 means none.

    Attributes
    ----------
    size, code : ndarray of int, shape (L,)
        Smallest size that meets every constraint; and `SIZED`, `NONE_FITS` or `NO_DEVICE`.
    governing : ndarray of int, shape (L,)
        The constraint that asked for it, or that no size meets: of several, the first.
    smallest : ndarray of int, shape (L, C)
        Smallest size that meets each constraint by itself.
    usable : ndarray of bool, shape (L, N)
        Sizes that meet every constraint but those of drop.
    device : OvercurrentDevice
        Of each lane; its code says whether the nameplate allows it.
    column : ndarray of int, shape (L,)
        Of the ampacity table, by the terminals.
    conditions : ConditionsOfUse
        Of one set.
    ampacity : ndarray, shape (L,)
        Of the size, all sets together: the lower of terminals and conditions of use [A].
    drop : ndarray, shape (L, D)
        For each target [V].
    ground : EquipmentGround
        Of each raceway; `NO_PHASES` where the phases have no size.
    """

    size: Ints
    code: Ints
    governing: Ints
    smallest: Ints
    usable: Bools
    device: OvercurrentDevice
    column: Ints
    conditions: ConditionsOfUse
    ampacity: Floats
    drop: Floats
    ground: EquipmentGround


def sizing(lanes: CircuitLanes, tables: CodeTables) -> Sizing:
    """Return the conductors of circuits.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits.
    tables : CodeTables
        Tables of the code.

    Returns
    -------
    Sizing
        Amps and volts of it [A, V].

    Notes
    -----
    Source: NEC 2023 (NFPA 70), by the sources of `constraints` and `equipment_ground`; that the
    constraint with the largest size governs is derived.
    """
    tried = constraints(lanes, tables)
    no_device = tried.device.code == ABOVE_STANDARD
    usable = np.asarray(tried.meets[:DROP].all(axis=0))
    size = _first(usable & tried.meets[DROP:].all(axis=0) & ~no_device[:, np.newaxis])
    smallest = _first(tried.meets).T
    # A constraint that no size meets counts as beyond every size.
    rank = np.where(smallest < 0, tables.area.size, smallest)
    found = size >= 0
    at = (np.arange(size.size), np.maximum(size, 0))
    ground = equipment_ground(
        tried.rating,
        tables.area[at[1]],
        tables.area[_first(tried.grown_from)],
        tables.ground,
        lanes.ground_material,
    )
    return Sizing(
        size,
        np.where(no_device, NO_DEVICE, np.where(found, SIZED, NONE_FITS)),
        rank.argmax(axis=1),
        smallest,
        usable,
        tried.device,
        tried.column,
        tried.conditions,
        np.where(found, tried.ampacity[at], 0.0),
        np.where(found, tried.drop[:, *at], 0.0).T,
        _beside(ground, found),
    )


def _first(meets: Bools) -> Ints:
    return np.where(meets.any(axis=-1), meets.argmax(axis=-1), -1)


def _beside(ground: EquipmentGround, found: Bools) -> EquipmentGround:
    """Return the equipment ground, with none beside phases that have no size."""
    return EquipmentGround(
        np.where(found, ground.size, -1),
        ground.table_size,
        np.where(found, ground.needed_area, 0.0),
        ground.marginal & found,
        np.where(found, ground.code, NO_PHASES),
    )
