"""What a start did to bus, motor and source: extremes and how long limits were passed."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.run_up import RunUp
from service.checks.surge_feasibility.speed_curves import SpeedCurves

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class Course(NamedTuple):
    """A start against time: two ends of every stretch along axis 1, lanes along axis 2.

    Attributes
    ----------
    time : ndarray, shape (S, 2, L)
        Since the start [s].
    speed : ndarray, shape (S, 2, L)
        Part of synchronous speed [1].
    bus, motor_volts, amps, motor_amps, over : ndarray, shape (S, 2, L)
        As in the curves [V, A].
    solved : ndarray of bool, shape (L,)
        False where a voltage was missing on the way.
    """

    time: Floats
    speed: Floats
    bus: Floats
    motor_volts: Floats
    amps: Floats
    motor_amps: Floats
    over: Floats
    solved: Bools


def course(curves: SpeedCurves, run: RunUp) -> Course:
    """Return what the curves say at both ends of every stretch [s, V, A].

    Notes
    -----
    Source: derived.
    """
    ends = np.stack([run.speed[:-1], run.speed[1:]], axis=1)
    lanes = np.arange(ends.shape[2])
    middle = (ends[:, 0] + ends[:, 1]) / 2
    last = curves.speed.shape[1] - 2
    # One search for all lanes: each lane's nodes lie in a unit of their own.
    scale = curves.speed[:, -1] * 1.001
    nodes = (curves.speed / scale[:, None] + lanes[:, None]).ravel()
    at = np.searchsorted(nodes, middle / scale + lanes, side="right") - 1
    cell = np.clip(at - lanes * curves.speed.shape[1], 0, last)
    low, high = curves.speed[lanes, cell], curves.speed[lanes, cell + 1]
    part = (ends - low[:, None]) / (high - low)[:, None]

    def read(values: Floats) -> Floats:
        first = values[lanes, run.phase, cell][:, None]
        return np.asarray(first + (values[lanes, run.phase, cell + 1][:, None] - first) * part)

    solved = curves.solved[lanes, run.phase, cell] & curves.solved[lanes, run.phase, cell + 1]
    return Course(
        time=np.stack([run.time[:-1], run.time[1:]], axis=1),
        speed=ends,
        bus=read(curves.bus),
        motor_volts=read(curves.motor_volts),
        amps=read(curves.amps),
        motor_amps=read(curves.motor_amps),
        over=read(curves.over),
        solved=(solved | (run.time[1:] == run.time[:-1])).all(axis=0),
    )


def lanes_of(course: Course, lanes: slice | NDArray[np.int64]) -> Course:
    """Return some lanes of a course [s, V, A].

    Notes
    -----
    Source: derived.
    """
    return Course._make(member[..., lanes] for member in course)


def time_above(course: Course, values: Floats, limit: Floats) -> Floats:
    """Return how long in all values lay above a limit [s], shape (L,).

    Parameters
    ----------
    course : Course
        The starts.
    values : ndarray, shape (S, 2, L)
        At both ends of every stretch, linear between.
    limit : ndarray, shape (L,)
        In their unit.

    Notes
    -----
    Source: derived.
    """
    return np.asarray(_parts_above(course, values, limit).sum(axis=0))


def longest_below(course: Course, values: Floats, limit: Floats) -> Floats:
    """Return the longest time without a break that values lay below a limit [s], shape (L,).

    Notes
    -----
    Source: derived.
    """
    part = _parts_above(course, -values, -limit)
    whole = course.time[:, 1] - course.time[:, 0]
    # A stretch that is partly below ends one run, where it rises, or begins another.
    falls = values[:, 1] < values[:, 0]
    cut = part < whole * (1 - 1e-12)
    before = np.where(cut & falls, 0.0, part)
    total = np.cumsum(np.stack([before, part - before], axis=1).reshape(-1, part.shape[1]), axis=0)
    breaks = np.stack([cut, np.zeros_like(cut)], axis=1).reshape(total.shape)
    since = np.maximum.accumulate(np.where(breaks, total, 0.0), axis=0)
    return np.asarray((total - since).max(axis=0, initial=0.0))


def _parts_above(course: Course, values: Floats, limit: Floats) -> Floats:
    """Return how long of every stretch the values lay above the limit [s], shape (S, L)."""
    whole = course.time[:, 1] - course.time[:, 0]
    first, last = values[:, 0] - limit, values[:, 1] - limit
    spread = np.abs(last - first)
    high = np.maximum(first, last)
    share = np.where(spread > 0, np.clip(high / np.where(spread > 0, spread, 1.0), 0, 1), high > 0)
    return np.asarray(whole * share)
