"""The smallest conductor that meets every constraint, and which constraint asked for it."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.circuit_drop import circuit_drop, impedance
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, CodeTables
from service.checks.conductor_sizing.conditions_of_use import ConditionsOfUse, conditions_of_use
from service.checks.conductor_sizing.equipment_ground import (
    NO_PHASES,
    WITHOUT_FACTORS,
    EquipmentGround,
    equipment_ground,
)
from service.checks.conductor_sizing.next_size_rule import least_protected
from service.checks.conductor_sizing.overcurrent_device import (
    ABOVE_STANDARD,
    OvercurrentDevice,
    overcurrent_device,
)
from service.checks.conductor_sizing.parallel_sets import parallel_sets
from service.checks.conductor_sizing.small_conductor_cap import small_conductor_cap
from service.checks.conductor_sizing.terminal_ampacity import terminal_ampacity, terminal_column
from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Constraints in the order of the results.
TERMINALS: Final = 0
CONDITIONS: Final = 1
PROTECTION: Final = 2
SMALL_CONDUCTOR: Final = 3
PARALLEL: Final = 4
SIZES_AT_HAND: Final = 5
#: The first target of voltage drop or rise; further ones follow.
DROP: Final = 6
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

    Notes
    -----
    Terminals are judged with the continuous part of the current raised [A] and without factors,
    conditions of use with the factors and the current as it flows, drop with that current too.
    Source: NEC 2023 (NFPA 70) 110.14(C), 215.2, 240.4, 250.122, 310.14 to 310.16, 705.28, 706.30,
    as told by secondary sources.
    """
    wanted = np.maximum(lanes.raised_amps, lanes.least_rating)
    device = overcurrent_device(wanted, tables.ratings, lanes.most_rating, lanes.most_known)
    no_device = device.code == ABOVE_STANDARD
    rating = np.where(no_device, wanted, device.rating)
    column = terminal_column(lanes.marking, rating, lanes.cable_column)
    terminal = terminal_ampacity(tables.ampacity, lanes.material, column)
    conditions = conditions_of_use(lanes.segments, tables.factors, tables.ampacity, lanes.material)

    # All sets together, so that the tolerance of a comparison is that of the whole current.
    least = least_protected(rating, tables.ratings, lanes.next_size)
    terminal = terminal * lanes.sets[:, np.newaxis]
    in_place = conditions.ampacity * lanes.sets[:, np.newaxis]
    by_terminal = _enough(terminal, least)
    sizes = np.arange(tables.area.size)
    meets = [
        _enough(terminal, lanes.raised_amps),
        _enough(in_place, lanes.amps),
        by_terminal & _enough(in_place, least),
        small_conductor_cap(tables.cap, lanes.material, rating),
        parallel_sets(lanes.sets, tables.parallel_size),
        (sizes >= lanes.smallest[:, np.newaxis]) & (sizes <= lanes.largest[:, np.newaxis]),
    ]
    usable = np.logical_and.reduce(meets)
    per_metre = impedance(lanes, tables)
    drops = [circuit_drop(lanes, per_metre, t) for t in range(lanes.targets.limit.shape[1])]
    for target, drop in enumerate(drops):
        volts, limit = (
            member[:, target, np.newaxis] for member in (lanes.targets.volts, lanes.targets.limit)
        )
        meets.append(reaches(limit / volts, drop / volts, "fraction"))

    every = np.logical_and.reduce([usable, *meets[DROP:]]) & ~no_device[:, np.newaxis]
    size = _first(every)
    smallest = np.stack([_first(one) for one in meets], axis=1)
    # A constraint that no size meets counts as beyond every size.
    rank = np.where(smallest < 0, sizes.size, smallest)
    found, chosen = size >= 0, np.maximum(size, 0)
    at = (np.arange(len(size)), chosen)
    ampacity = np.where(found, np.minimum(terminal[at], in_place[at]), 0.0)
    without = np.where(
        (lanes.grown_from == WITHOUT_FACTORS)[:, np.newaxis],
        meets[TERMINALS] & by_terminal,
        meets[TERMINALS] & meets[CONDITIONS] & meets[PROTECTION],
    )
    grown_from = _first(without & meets[SMALL_CONDUCTOR] & meets[PARALLEL])
    ground = equipment_ground(
        rating, tables.area[chosen], tables.area[grown_from], tables.ground, lanes.ground_material
    )
    return Sizing(
        size,
        np.where(no_device, NO_DEVICE, np.where(found, SIZED, NONE_FITS)),
        rank.argmax(axis=1),
        smallest,
        usable,
        device,
        column,
        conditions,
        ampacity,
        np.stack([np.where(found, drop[at], 0.0) for drop in drops], axis=1),
        _beside(ground, found),
    )


def _enough(ampacity: Floats, amps: Floats) -> Bools:
    return reaches(ampacity, amps[:, np.newaxis], "current")


def _first(meets: Bools) -> Ints:
    return np.where(meets.any(axis=1), meets.argmax(axis=1), -1)


def _beside(ground: EquipmentGround, found: Bools) -> EquipmentGround:
    """Return the equipment ground, with none beside phases that have no size."""
    return EquipmentGround(
        np.where(found, ground.size, -1),
        ground.table_size,
        np.where(found, ground.needed_area, 0.0),
        ground.marginal & found,
        np.where(found, ground.code, NO_PHASES),
    )
