"""Outages that start on many days of one year: when each device of a home loses its bus."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.lib.stride_tricks import as_strided
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import DAY
from service.checks.outage_runtime.year_course import YearCourse, cells_balance, reconnect
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_power import DAYS
from service.physics.ride_through import first_losses, next_time

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Devices worked on at once: their year stays in the cache.
_AT_ONCE = 24


@dataclass(frozen=True, slots=True)
class Starts:
    """Outage starts that are evenly spread through the year.

    Attributes
    ----------
    first : int
        Step of the first start.
    stride : int
        Steps from one start to the next.
    count : int
        How many there are.
    late : float
        Time from the beginning of its step to the start [s].
    horizon : float
        Time that is followed [s].
    """

    first: int
    stride: int
    count: int
    late: float
    horizon: float


def daily_starts(second: float, steps: int, horizon: float) -> Starts:
    """Return a start on every day at one second of the day [s]. Source: derived."""
    step = DAY / steps
    first = min(int((second + 1e-9) // step), steps - 1)
    return Starts(first, steps, DAYS, max(second - first * step, 0.0), horizon)


def hourly_starts(steps: int, horizon: float) -> Starts:
    """Return a start at every hour of the year, followed to a horizon [s]. Source: derived."""
    return Starts(0, steps // 24, DAYS * 24, 0.0, horizon)


def durations(starts: Starts, step: float) -> Floats:
    """Return the steps from a start to the horizon, shape (T,) [s]: the first and last are cut.

    Parameters
    ----------
    starts : Starts
        [s].
    step : float
        [s].

    Notes
    -----
    Source: derived, own arithmetic.
    """
    edges = np.arange(1, int((starts.horizon + starts.late) // step) + 1) * step - starts.late
    inside = edges[(edges > 1e-9) & (edges < starts.horizon - 1e-9)]
    return np.diff(np.concatenate([[0.0], inside, [starts.horizon]]))


def walked(values: NDArray[Any], starts: Starts, rows: int) -> NDArray[Any]:
    """Return a year as the starts walk through it, a view of shape (rows, ..., count).

    Parameters
    ----------
    values : ndarray, shape (..., T + rows), contiguous
        One year [W, or whatever it holds], its beginning repeated at the end.
    starts : Starts
    rows : int
        Steps walked.

    Notes
    -----
    Source: derived, own arrangement.
    """
    item = values.strides[-1]
    return as_strided(
        values[..., starts.first :],
        (rows, *values.shape[:-1], starts.count),
        (item, *values.strides[:-1], item * starts.stride),
        writeable=False,
    )


def wrapped(values: NDArray[Any], rows: int) -> NDArray[Any]:
    """Return a year [W] with its beginning repeated at the end. Source: derived."""
    return np.ascontiguousarray(np.concatenate([values, values[..., :rows]], axis=-1))


@dataclass(frozen=True, slots=True)
class LossTimes:
    """Times by device and start, shape (N, S) [s], infinite where it never happens."""

    down: Floats
    overload: Floats
    normal_off: Floats
    comfort_off: Floats


def loss_times(course: YearCourse, devices: Devices, starts: Starts) -> LossTimes:
    """Return when devices under no control and without generator lose their bus.

    Parameters
    ----------
    course : YearCourse
    devices : Devices
        N devices [J, W].
    starts : Starts

    Returns
    -------
    LossTimes

    Notes
    -----
    A solar inverter on the bus waits before it joins: the outage begins without its sun. Source:
    derived, `first_losses`.
    """
    count = devices.use.size
    down = np.empty((count, starts.count))
    over = np.empty((count, starts.count))
    for first in range(0, count, _AT_ONCE):
        some = slice(first, first + _AT_ONCE)
        down[some], over[some] = _some_losses(course, devices.some(some), starts)
    never = np.broadcast_to(np.inf, down.shape)
    return LossTimes(down, over, never, never)


def _some_losses(course: YearCourse, devices: Devices, starts: Starts) -> tuple[Floats, Floats]:
    load = course.loads(devices)
    on_bus, direct = course.suns(devices)
    balance, over = cells_balance(devices, load, on_bus, direct)
    spans = durations(starts, course.step)
    rows = walked(wrapped(balance, spans.size), starts, spans.size)
    at = (starts.first + starts.stride * np.arange(starts.count)) % course.size
    edges = np.arange(course.size + 1, dtype=np.float64) * course.step
    limited = np.maximum(next_time(over, edges)[:, at] - starts.late, 0.0)
    wait = min(reconnect(course), float(spans[0]))
    if wait <= 0.0:
        return _losses(devices, spans, rows, devices.start[:, None]), limited
    dark, over_dark = cells_balance(devices, load[:, at], 0.0 * on_bus[:, at], direct[:, at])
    limited[over_dark] = 0.0
    early = _losses(devices, np.array([wait]), dark[None], devices.start[:, None])
    charge = np.minimum(devices.start[:, None] + wait * dark, devices.capacity[:, None])
    # A lane that is lost before the sun joins has nothing left for what follows.
    left = np.where(np.isfinite(early), -np.inf, charge)
    spans = np.concatenate([[spans[0] - wait], spans[1:]])
    late = _losses(devices, spans, rows, left)
    return np.where(np.isfinite(early), early, wait + late), limited


def _losses(devices: Devices, spans: Floats, rows: Floats, start: Floats) -> Floats:
    return first_losses(
        duration=spans,
        balance=rows,
        capacity=devices.capacity[:, None],
        start_energy=start,
        floor=devices.floor[:, None],
    )
