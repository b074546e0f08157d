"""Voltage drop of every size of a circuit, for each metre and along the run."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.conductor_sizing.ac_resistance import (
    conductor_temperature,
    temperature_factor,
)
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, CodeTables, DropTargets
from service.checks.conductor_sizing.distance_breaks import DistanceBreaks, distance_breaks
from service.checks.conductor_sizing.terminal_ampacity import COLUMN_90
from service.checks.conductor_sizing.voltage_drop import drop_parts, exact_drop

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Temperature of the column that the current is held against, 90 degC [K].
_RATED = 363.15


def impedance(lanes: CircuitLanes, tables: CodeTables) -> tuple[Floats, Floats]:
    """Return resistance and reactance of every size at the conductor's temperature.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits.
    tables : CodeTables
        Tables of the code.

    Returns
    -------
    tuple of ndarray, shape (L, N)
        Of all parallel sets together [ohm/m]; NaN where the tables have none.

    Notes
    -----
    A conductor is as hot as the tables have it, or as its load makes it in the hottest part of the
    run where that is more; what other circuits beside it add is left out.
    Source: NEC 2023 (NFPA 70) Chapter 9, Tables 8 and 9; n equal sets have 1/n of the impedance.
    """
    material, sets = lanes.material, lanes.sets[:, np.newaxis]
    segments = lanes.segments
    ambient = np.where(segments.length > 0, segments.ambient, 0.0).max(axis=1)[:, np.newaxis]
    full = tables.ampacity[material, COLUMN_90]
    least, of = lanes.temperature[:, np.newaxis], material[:, np.newaxis]
    heat = heated(ambient, lanes.amps[:, np.newaxis] / sets, full, of, least) / sets
    return tables.resistance[material, lanes.wall] * heat, tables.reactance[
        lanes.wall
    ] / lanes.sets[:, np.newaxis]


def heated(
    ambient: ArrayLike, amps: ArrayLike, full: ArrayLike, material: Ints, least: ArrayLike
) -> Floats:
    """Return the resistance of a loaded conductor in parts of that of the tables.

    Parameters
    ----------
    ambient : array_like
        Around it where it is hottest [K].
    amps, full : array_like
        What it carries, and its ampacity in the column of 90 degC [A].
    material : ndarray of int
        Of the conductor.
    least : array_like
        Temperature below which it is not taken [K].

    Returns
    -------
    ndarray
        [1].

    Notes
    -----
    Source: derived; see `conductor_temperature`.
    """
    hot = conductor_temperature(ambient, _RATED, amps, full)
    # A size that cannot carry the current at all is told by the other rules.
    return temperature_factor(np.fmin(np.fmax(hot, least), _RATED), material)


def circuit_drop(lanes: CircuitLanes, per_metre: tuple[Floats, Floats], target: int) -> Floats:
    """Return the drop of every size along the run, for one of the targets.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits.
    per_metre : tuple of ndarray, shape (L, N)
        Resistance and reactance [ohm/m].
    target : int
        Index of the target.

    Returns
    -------
    ndarray, shape (L, N)
        [V].

    Notes
    -----
    Source: derived, Kirchhoff's voltage law for phasors.
    """
    one, along, across = _parts(lanes, per_metre, target)
    length = lanes.segments.length.sum(axis=1)[:, np.newaxis]
    return exact_drop(one.volts, one.volts_at_load, along * length, across * length)


def circuit_reach(
    lanes: CircuitLanes, tables: CodeTables, usable: Bools, step: float = 0.3048
) -> DistanceBreaks:
    """Return how far each size of a circuit reaches under all of its targets.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits.
    tables : CodeTables
        Tables of the code.
    usable : ndarray of bool, shape (L, N)
        Whether a size meets every constraint that does not depend on length.
    step : float, optional
        Lengths are whole multiples of it [m].

    Returns
    -------
    DistanceBreaks

    Notes
    -----
    Source: derived, see `distance_breaks`.
    """
    per_metre = impedance(lanes, tables)
    reach = np.where(usable, np.inf, 0.0)
    for target in range(lanes.targets.limit.shape[1]):
        one, along, across = _parts(lanes, per_metre, target)
        limited = np.isfinite(one.limit)
        limit = np.where(limited, one.limit, 0.0)
        found = distance_breaks(one.volts, one.volts_at_load, limit, along, across, usable, step)
        reach = np.where(limited, np.minimum(reach, found.reach), reach)
    return DistanceBreaks(reach, np.maximum.accumulate(reach, axis=1))


def _parts(
    lanes: CircuitLanes, per_metre: tuple[Floats, Floats], target: int
) -> tuple[DropTargets, Floats, Floats]:
    """Return one target with its members in columns, and the parts of its drop [V/m]."""
    one = DropTargets._make(member[:, target, np.newaxis] for member in lanes.targets)
    along, across = drop_parts(one.amps, *per_metre, one.power_factor, one.passes)
    return one, along, across
