"""What the sizing of conductors takes: circuits as lanes, and the tables of the code."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.equipment_ground import GroundTable
from service.checks.conductor_sizing.segment_factors import Factors, Segments

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


class DropTargets(NamedTuple):
    """Targets of voltage drop or rise; every member has shape (L, D), one or more a lane.

    Attributes
    ----------
    volts : ndarray
        At the end whose voltage is known [V].
    volts_at_load : ndarray of bool
        Whether that is the receiving end: so for the rise of a source that feeds into a service.
    limit : ndarray
        Most volts along this run [V]: the target less what other parts of the path take, negative
        where those take more; infinite: no target.
    amps : ndarray
        Current of the whole circuit [A], not raised for continuous load.
    power_factor : ndarray
        Lagging [1].
    passes : ndarray
        How many times the length the current passes [1].
    """

    volts: Floats
    volts_at_load: Bools
    limit: Floats
    amps: Floats
    power_factor: Floats
    passes: Floats


class CircuitLanes(NamedTuple):
    """Circuits, one a lane; the other material of the same circuit is another lane.

    Attributes
    ----------
    material, wall : ndarray of int, shape (L,)
        Of the conductors; and row of the impedance tables that the raceway belongs to.
    amps, raised_amps : ndarray, shape (L,)
        Current, and with its continuous part raised [A].
    least_rating, most_rating : ndarray, shape (L,)
        Of the overcurrent device: at least, 0 for no demand; and at most by the nameplate [A].
    most_known : ndarray of bool, shape (L,)
        Whether `most_rating` is known.
    next_size : ndarray of bool, shape (L,)
        Whether the next standard rating above the ampacity may be used.
    own_overload : ndarray of bool, shape (L,)
        Whether an overload device protects the conductors, as that of a motor does.
    marking : ndarray of int, shape (L, T)
        Marked column of each terminal, `UNMARKED` or `UNMARKED_SMALL`.
    cable_column : ndarray of int, shape (L,)
        Highest column that the type of cable allows.
    segments : Segments
        Parts of the run.
    sets : ndarray of int, shape (L,)
        Parallel sets.
    smallest, largest : ndarray of int, shape (L,)
        Sizes that the terminals take or that can be had.
    temperature : ndarray, shape (L,)
        Of the conductor, for the drop [K].
    targets : DropTargets
        Of voltage drop or rise.
    ground_material : ndarray of int, shape (L,)
        Of the equipment ground.
    grown_from : ndarray of int, shape (L,)
        `WITHOUT_DISTANCE` or `WITHOUT_FACTORS`, by the edition of the code.
    """

    material: Ints
    wall: Ints
    amps: Floats
    raised_amps: Floats
    least_rating: Floats
    most_rating: Floats
    most_known: Bools
    next_size: Bools
    own_overload: Bools
    marking: Ints
    cable_column: Ints
    segments: Segments
    sets: Ints
    smallest: Ints
    largest: Ints
    temperature: Floats
    targets: DropTargets
    ground_material: Ints
    grown_from: Ints

    def some(self, chosen: Ints) -> CircuitLanes:
        """Return some of the circuits, by their places."""
        members = {
            name: member[chosen]
            for name, member in self._asdict().items()
            if name not in ("segments", "targets")
        }
        return CircuitLanes(
            segments=Segments._make(member[chosen] for member in self.segments),
            targets=DropTargets._make(member[chosen] for member in self.targets),
            **members,
        )


class CodeTables(NamedTuple):
    """Tables of the code, by material M, raceway W and rising size N.

    Attributes
    ----------
    area : ndarray, shape (N,)
        Of the conductor [m2], or in any one unit.
    ampacity : ndarray, shape (M, 3, N)
        By column of temperature, NaN where there is none [A].
    cap : ndarray, shape (M, N)
        Largest device of small conductors, infinite for others, negative where there is no such
        size [A].
    parallel_size : ndarray of bool, shape (N,)
        Sizes that may lie in parallel.
    resistance : ndarray, shape (M, W, N)
        At 60 Hz and 75 degC [ohm/m].
    reactance : ndarray, shape (W, N)
        At 60 Hz [ohm/m].
    ratings : ndarray, shape (K,)
        Standard overcurrent devices, rising [A].
    factors : Factors
        Of correction and adjustment.
    ground : GroundTable
        Of the equipment ground, in the unit of `area`; its ladder has the N sizes.
    """

    area: Floats
    ampacity: Floats
    cap: Floats
    parallel_size: Bools
    resistance: Floats
    reactance: Floats
    ratings: Floats
    factors: Factors
    ground: GroundTable
