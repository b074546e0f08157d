"""The battery side of every lane: stored energies, draw coefficients, power limits."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.battery_parameters import capacity_factor, power_factor_of_heat
from service.checks.outage_runtime.lanes import (
    END_OF_WARRANTY,
    FROM_BEST,
    FROM_FULL,
    PARAMETERS,
    LaneTable,
)
from service.physics.part_load import discharge_coefficients, schmid_coefficients

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Cells:
    """Battery side of all lanes, shape (C, L): energies [J], powers [W], draw coefficients."""

    capacity: Floats
    start: Floats
    floor: Floats
    fixed: Floats
    linear: Floats
    square: Floats
    limit: Floats
    charge: Floats
    efficiency: Floats


def cells_of(a: Arrays, lanes: LaneTable) -> Cells:
    """Return the battery side of C cases in L lanes.

    Parameters
    ----------
    a : mapping of ndarray
        Per-case arrays of ``arguments`` [J, W, K, 1].
    lanes : LaneTable

    Notes
    -----
    Capacity = energy x depth of discharge x units x part left x temperature factor. The part left
    falls linearly from 1 to the warranty's promise. Source: common practice, no source.
    """
    chosen = a["parameters"][:, np.arange(len(PARAMETERS))[None, :], lanes.ends]
    depth, trip, idle, retention, years, kelvin, floor, reserve = np.moveaxis(chosen, -1, 0)
    units = np.where(lanes.units > 0, lanes.units, a["units"][:, None] + lanes.more_units)
    faded = np.minimum(a["age_years"][:, None] / years, 1.0)
    now = 1.0 - (1.0 - retention) * faded
    left = np.where(lanes.age == END_OF_WARRANTY, retention, now)
    capacity = a["unit_energy"][:, None] * depth * units * left * lanes.energy_scale
    power_left, energy_left = (np.where(lanes.heat > 0, part[:, None], 1.0) for part in a["heat"].T)
    capacity = capacity * capacity_factor(kelvin) * energy_left
    reserve = np.maximum(reserve - lanes.reserve_less, 0.0)
    stated = a["start_fraction"][:, None]
    full = (lanes.start == FROM_FULL) | ((lanes.start == FROM_BEST) & (stated < 0))
    fraction = np.where(full, 1.0, np.where(stated >= 0, stated, reserve))
    fixed, linear, square, efficiency = _draw(a["curve"], units, trip, idle)
    # Two counts of the same heat: the lesser part is left, not their product.
    left = np.minimum(power_factor_of_heat(kelvin), power_left)
    limit = units * a["unit_power"][:, None] * lanes.power_scale * left
    return Cells(
        capacity=capacity,
        start=capacity * fraction,
        floor=capacity * floor,
        fixed=fixed,
        linear=linear,
        square=square,
        limit=limit,
        charge=units * a["unit_charge"][:, None] + 0.0 * limit,
        efficiency=efficiency,
    )


def _draw(
    curve: Floats, units: Floats, trip: Floats, idle: Floats
) -> tuple[Floats, Floats, Floats, Floats]:
    """Return the cells' draw against AC power, and the one-way efficiency: curve or fixed."""
    one_way = np.sqrt(trip)
    by_curve = curve[:, :1] > 0
    rated = np.where(by_curve, curve[:, :1], 1.0) * units
    p0, k = schmid_coefficients(
        np.where(by_curve, curve[:, 1:2], 1.0), np.where(by_curve, curve[:, 2:3], 1.0)
    )
    fixed, linear, square = discharge_coefficients(rated, p0, k, one_way)
    return (
        np.where(by_curve, fixed, idle * units),
        np.where(by_curve, linear, 1.0 / one_way),
        np.where(by_curve, square, 0.0),
        one_way,
    )
