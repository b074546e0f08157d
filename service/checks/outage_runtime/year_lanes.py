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
from service.physics.outage_power_limit import POWER_TOLERANCE
from service.physics.ride_through import first_losses, next_time

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Devices worked on at once: their state stays in the cache.
AT_ONCE = 48


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
    steps : int
        Steps of a day.
    """

    first: int
    stride: int
    count: int
    late: float
    horizon: float
    steps: int


def daily_starts(second: float, steps: int, horizon: float) -> Starts:
    """Return a start on every day at one second of the day [s]. Source: derived."""
    step = DAY / steps
    first = min(int((second + 1e-9) // step), steps - 1)
    return Starts(first, steps, DAYS, max(second - first * step, 0.0), horizon, steps)


def hourly_starts(steps: int, horizon: float) -> Starts:
    """Return a start at every hour of the year, followed to a horizon [s]. Source: derived."""
    return Starts(0, steps // 24, DAYS * 24, 0.0, horizon, steps)


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
    """Times by device and start, shape (N, S) [s], infinite where it never happens.

    ``down`` is the first loss of the bus, ``held`` when more was dark than is put up with.
    """

    down: Floats
    held: Floats
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
    Devices that differ in stored energy alone share one balance through the year. Source: derived,
    `first_losses`.
    """
    count = devices.use.size
    down = np.empty((count, starts.count))
    over = np.empty((count, starts.count))
    year = _YearBalance(course, devices, starts)
    for first in range(0, count, AT_ONCE):
        some = slice(first, first + AT_ONCE)
        down[some], over[some] = year.losses(devices.some(some), year.of[some])
    never = np.broadcast_to(np.inf, down.shape)
    return LossTimes(down, down, over, never, never)


def overloads(course: YearCourse, devices: Devices, starts: Starts, *, critical: bool) -> Floats:
    """Return when the load first passes what inverter and sun carry, shape (N, S) [s].

    Parameters
    ----------
    course : YearCourse
        In fine steps.
    devices : Devices
        N devices [J, W].
    starts : Starts
        Of a coarser year.
    critical : bool
        Whether critical loads alone count: the others can be shed.

    Notes
    -----
    A generator that may help is left out: cautious. Source: derived.
    """
    load = course.load[devices.use, 0] if critical else course.loads(devices)
    on_bus, _ = course.suns(devices)
    over = load - on_bus > devices.limit[:, None] + POWER_TOLERANCE
    if not over.any():
        return np.full((devices.use.size, starts.count), np.inf)
    scale = course.steps // starts.steps
    begin = starts.first * scale + int(starts.late // course.step)
    late = starts.late % course.step
    at = (begin + starts.stride * scale * np.arange(starts.count)) % course.size
    edges = np.arange(course.size + 1, dtype=np.float64) * course.step
    return np.asarray(np.maximum(next_time(over, edges)[:, at] - late, 0.0))


class _YearBalance:
    """What the cells gain through the year, of every way that devices live on it."""

    def __init__(self, course: YearCourse, devices: Devices, starts: Starts) -> None:
        self.starts, self.step = starts, course.step
        self.spans = durations(starts, course.step)
        ways, self.of = devices.ways()
        load = course.loads(ways)
        on_bus, direct = course.suns(ways)
        balance, over = cells_balance(ways, load, on_bus, direct)
        at = (starts.first + starts.stride * np.arange(starts.count)) % course.size
        self.rows = _rows(balance, course.steps, starts, self.spans.size)
        self.limited = np.full((ways.use.size, starts.count), np.inf)
        if over.any():
            edges = np.arange(course.size + 1, dtype=np.float64) * course.step
            self.limited = np.maximum(next_time(over, edges)[:, at] - starts.late, 0.0)
        # A solar inverter waits before it joins: the outage begins without its sun.
        self.wait = min(reconnect(course), float(self.spans[0]))
        if self.wait > 0.0:
            self.dark, dark_over = cells_balance(
                ways, load[:, at], 0.0 * on_bus[:, at], direct[:, at]
            )
            self.limited[dark_over] = 0.0

    def losses(self, devices: Devices, of: Ints) -> tuple[Floats, Floats]:
        """Return the times of loss and of the first overload of some devices [s]."""
        limited = self.limited[of]
        start = devices.start[:, None]
        if self.wait <= 0.0:
            return self._losses(devices, self.spans, self.rows, start, of), limited
        dark = self.dark[of]
        early = self._losses(devices, np.array([self.wait]), [dark], start, None)
        charge = np.minimum(start + self.wait * dark, devices.capacity[:, None])
        # A lane that is lost before the sun joins has nothing left for what follows.
        left = np.where(np.isfinite(early), -np.inf, charge)
        spans = np.concatenate([[self.spans[0] - self.wait], self.spans[1:]])
        late = self._losses(devices, spans, self.rows, left, of)
        return np.where(np.isfinite(early), early, self.wait + late), limited

    @staticmethod
    def _losses(
        devices: Devices, spans: Floats, rows: list[Floats], start: Floats, of: Ints | None
    ) -> Floats:
        return first_losses(
            duration=spans,
            balance=rows,
            capacity=devices.capacity[:, None],
            start_energy=start,
            floor=devices.floor[:, None],
            of=of,
        )


def _rows(balance: Floats, steps: int, starts: Starts, rows: int) -> list[Floats]:
    """Return the rows that the starts walk through; of daily starts each is one stretch of memory.

    Parameters
    ----------
    balance : ndarray, shape (N, T)
        One year [W].
    steps : int
        Steps a day.
    """
    if starts.stride != steps:
        return list(walked(wrapped(balance, rows), starts, rows))
    days = (starts.first + rows) // steps + 1
    by_day = balance.reshape(len(balance), DAYS, steps)
    by_day = np.concatenate([by_day, by_day[:, :days]], axis=1)
    by_time = np.ascontiguousarray(by_day.transpose(2, 0, 1))
    places = [divmod(starts.first + k, steps) for k in range(rows)]
    return [by_time[phase, :, day : day + starts.count] for day, phase in places]
