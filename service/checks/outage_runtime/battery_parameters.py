"""A battery's parameters: as stated, or as a default with its two ends."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.outage_runtime.lanes import PARAMETERS
from service.facts import Battery, NominalEnergy, OneWayLosses, PartLoadLosses, RoundTripLosses
from service.published import load
from service.published.outage_defaults import Default, Worse, outage_defaults

_ZERO_CELSIUS = 273.15


class Ranged(NamedTuple):
    """A number as used, at the end that shortens the runtime, and at the other end."""

    value: float
    worse: float
    better: float


def _stated(value: float) -> Ranged:
    return Ranged(value, value, value)


def _default(name: str, scale: float = 1.0) -> Ranged:
    entry: Default = outage_defaults()[name]
    ends = (entry.low, entry.high) if entry.worse is Worse.LOW else (entry.high, entry.low)
    return Ranged(entry.value * scale, ends[0] * scale, ends[1] * scale)


def pick(value: float | None, name: str, scale: float = 1.0) -> Ranged:
    """Return what was stated, or the default `name` with its ends, times `scale`."""
    return _default(name, scale) if value is None else _stated(value * scale)


def capacity_factor(kelvin: ArrayLike) -> NDArray[np.float64]:
    """Return the part of its energy that a cell gives at an air temperature.

    Parameters
    ----------
    kelvin : array_like, any shape
        Air temperature at the unit [K].

    Returns
    -------
    ndarray
        Factor [1], linear between rows, constant outside them, at the low column.

    Notes
    -----
    Source: table temperature_capacity (from memory, not verified).
    """
    table = load("temperature_capacity")
    x = [table.number(key, "temperature_degc") + _ZERO_CELSIUS for key in table.rows]
    y = [table.number(key, "factor_low") for key in table.rows]
    return np.asarray(np.interp(np.asarray(kelvin, dtype=np.float64), x, y))


def temperature_rows(degf: float | None) -> list[str]:
    """Return the rows of table temperature_capacity that a temperature [degF] is read from."""
    table = load("temperature_capacity")
    celsius = (pick(degf, "ambient_degf").value - 32.0) / 1.8
    keys = list(table.rows)
    at = [table.number(key, "temperature_degc") for key in keys]
    below = max([place for place, value in enumerate(at) if value <= celsius + 1e-9], default=0)
    between = at[below] < celsius - 1e-9
    return keys[below : below + 2] if between else [keys[below]]


def power_factor_of_heat(kelvin: ArrayLike) -> NDArray[np.float64]:
    """Return the part of its continuous power that a unit gives at an air temperature.

    Parameters
    ----------
    kelvin : array_like, any shape
        Air temperature at the unit [K].

    Returns
    -------
    ndarray
        Factor [1], linear between rows, constant outside them.

    Notes
    -----
    Source: table temperature_power (common practice, no source).
    """
    table = load("temperature_power")
    x = [table.number(key, "temperature_degc") + _ZERO_CELSIUS for key in table.rows]
    y = [table.number(key, "factor") for key in table.rows]
    return np.asarray(np.interp(np.asarray(kelvin, dtype=np.float64), x, y))


def _losses(
    losses: RoundTripLosses | OneWayLosses | PartLoadLosses | None,
) -> tuple[Ranged, Ranged]:
    """Return the one-way discharge efficiency squared and the idle draw of a unit [W]."""
    if losses is None:
        return _default("round_trip_efficiency"), _default("idle_w")
    if isinstance(losses, PartLoadLosses):
        return _stated(losses.cell_efficiency**2), _stated(0.0)
    if isinstance(losses, OneWayLosses):
        trip = _stated(losses.discharge_efficiency**2)
    else:
        trip = pick(losses.efficiency, "round_trip_efficiency")
    return trip, pick(losses.idle_watts, "idle_w")


def ranged_parameters(battery: Battery, to_kelvin: Callable[[float], float]) -> NDArray[np.float64]:
    """Return the parameters of one battery, shape (8, 3): value, worse end, better end.

    `to_kelvin` turns degrees Fahrenheit into kelvin at the boundary's exact factor.
    """
    trip, idle = _losses(battery.losses)
    depth = _stated(1.0)
    if isinstance(battery.energy, NominalEnergy):
        depth = pick(battery.energy.depth_of_discharge, "depth_of_discharge")
    ambient = pick(battery.ambient, "ambient_degf")
    by_name = {
        "depth_of_discharge": depth,
        "round_trip_efficiency": trip,
        "idle_w": idle,
        "end_of_warranty_retention": pick(
            battery.end_of_warranty_retention, "end_of_warranty_retention"
        ),
        "warranty_years": pick(battery.warranty_years, "warranty_years"),
        "ambient_degf": Ranged(*(to_kelvin(value) for value in ambient)),
        "floor_percent": pick(battery.floor_percent, "floor_percent", 0.01),
        "reserve_percent": pick(battery.reserve_percent, "reserve_percent", 0.01),
    }
    return np.array([by_name[name] for name in PARAMETERS])
