"""Every constraint on the size of a conductor, tried on every size of every lane."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.circuit_drop import circuit_drop, impedance
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, CodeTables
from service.checks.conductor_sizing.conditions_of_use import ConditionsOfUse, conditions_of_use
from service.checks.conductor_sizing.equipment_ground import WITHOUT_FACTORS
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


class Constraints(NamedTuple):
    """What each size of each lane meets.

    Attributes
    ----------
    meets : ndarray of bool, shape (C, L, N)
        By constraint.
    grown_from : ndarray of bool, shape (L, N)
        Sizes of which the smallest is that from which the equipment ground grows.
    device : OvercurrentDevice
        Of each lane.
    rating : ndarray, shape (L,)
        Of the device, or the current that no standard one carries [A].
    column : ndarray of int, shape (L,)
        Of the ampacity table, by the terminals.
    conditions : ConditionsOfUse
        Of one set.
    ampacity : ndarray, shape (L, N)
        Of all sets together, the lower of terminals and conditions of use [A].
    drop : ndarray, shape (D, L, N)
        By target [V].
    """

    meets: Bools
    grown_from: Bools
    device: OvercurrentDevice
    rating: Floats
    column: Ints
    conditions: ConditionsOfUse
    ampacity: Floats
    drop: Floats


def constraints(lanes: CircuitLanes, tables: CodeTables) -> Constraints:
    """Return which sizes meet which constraints.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits.
    tables : CodeTables
        Tables of the code.

    Returns
    -------
    Constraints

    Notes
    -----
    Terminals are judged with the continuous part of the current raised [A] and without factors,
    conditions of use with the factors and the current as it flows, drop with that current too. The
    conductors of a motor have the raised current under their conditions of use too, 430.22.
    Source: NEC 2023 (NFPA 70) 110.14(C), 215.2, 240.4, 310.14 to 310.16, 705.28, 706.30, as told
    by secondary sources.
    """
    wanted = np.maximum(lanes.raised_amps, lanes.least_rating)
    device = overcurrent_device(wanted, tables.ratings, lanes.most_rating, lanes.most_known)
    rating = np.where(device.code == ABOVE_STANDARD, wanted, device.rating)
    column = terminal_column(lanes.marking, rating, lanes.cable_column)
    conditions = conditions_of_use(lanes.segments, tables.factors, tables.ampacity, lanes.material)

    # All sets together, so that the tolerance of a comparison is that of the whole current.
    sets = lanes.sets[:, np.newaxis]
    terminal = terminal_ampacity(tables.ampacity, lanes.material, column) * sets
    in_place = conditions.ampacity * sets
    least = least_protected(rating, tables.ratings, lanes.next_size)
    # An overload device of its own is no larger than the raised amps; no cap holds behind it.
    least = np.where(lanes.own_overload, lanes.raised_amps, least)
    capped = np.where(lanes.own_overload, 0.0, rating)
    protected = _enough(terminal, least)
    sizes = np.arange(tables.area.size)
    meets = [
        _enough(terminal, lanes.raised_amps),
        _enough(in_place, lanes.amps),
        protected & _enough(in_place, least),
        small_conductor_cap(tables.cap, lanes.material, capped),
        parallel_sets(lanes.sets, tables.parallel_size),
        (sizes >= lanes.smallest[:, np.newaxis]) & (sizes <= lanes.largest[:, np.newaxis]),
    ]
    without = np.where(
        (lanes.grown_from == WITHOUT_FACTORS)[:, np.newaxis],
        protected,
        meets[CONDITIONS] & meets[PROTECTION],
    )
    drops, held = _drops(lanes, tables)
    return Constraints(
        np.stack([*meets, *held]),
        without & meets[TERMINALS] & meets[SMALL_CONDUCTOR] & meets[PARALLEL],
        device,
        rating,
        column,
        conditions,
        np.minimum(terminal, in_place),
        drops,
    )


def _drops(lanes: CircuitLanes, tables: CodeTables) -> tuple[Floats, Bools]:
    """Return the drops by target, and whether each holds its limit."""
    per_metre = impedance(lanes, tables)
    targets = range(lanes.targets.limit.shape[1])
    drops = np.stack([circuit_drop(lanes, per_metre, target) for target in targets])
    volts, limit = lanes.targets.volts.T[..., np.newaxis], lanes.targets.limit.T[..., np.newaxis]
    return drops, reaches(limit / volts, drops / volts, "fraction")


def _enough(ampacity: Floats, amps: Floats) -> Bools:
    return reaches(ampacity, amps[:, np.newaxis], "current")
