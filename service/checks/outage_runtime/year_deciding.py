"""Which start of each season decides: outages on every day of the year, and the worst of them."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.lane_inputs import HORIZON
from service.checks.outage_runtime.year_course import YearCourse
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_lanes import daily_starts
from service.checks.outage_runtime.year_power import DAYS, is_summer
from service.checks.outage_runtime.year_run import depends_on_charge, run_devices

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def seasons_of(code: int) -> Ints:
    """Return the seasons answered for by the code of the stated one, -1: none was stated.

    Notes
    -----
    0 summer, 1 winter; no unit [1]. Source: own choice.
    """
    return np.array([0, 1]) if code < 0 else np.array([code, code])


def horizon_of(a: Arrays) -> float:
    """Return how long the outages of one case are followed [s]. Source: own choice, a week."""
    return float(max(a["target"][0], HORIZON))


def sheddable(course: YearCourse) -> bool:
    """Return whether load control has any power [W] to shed. Source: derived."""
    return bool(course.load[:, 1:].any())


def year_times(
    a: Arrays, course: YearCourse, devices: Devices, shown: NDArray[np.bool_]
) -> dict[str, NDArray[Any]]:
    """Return the columns of every device and start, shape (N, 365).

    Where the charge decides what happens, devices whose hours are not shown are followed no
    further than the target that they are held against.

    Notes
    -----
    Times [s]. Source: the step rule of the outage engine.
    """
    if shown.all() or not depends_on_charge(course, devices).any():
        return followed_times(a, course, devices, horizon_of(a))
    found: dict[str, NDArray[Any]] = {}
    target = max(float(a["target"][0]), course.step)
    for at, horizon in ((shown, horizon_of(a)), (~shown, target)):
        part = followed_times(a, course, devices.some(at), horizon)
        for name, values in part.items():
            whole = found.setdefault(name, np.empty((shown.size, DAYS), dtype=values.dtype))
            whole[at] = values
    return found


def followed_times(
    a: Arrays, course: YearCourse, devices: Devices, horizon: float
) -> dict[str, NDArray[Any]]:
    """Return the columns of every device and start, followed to a horizon [s], shape (N, 365).

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    starts = daily_starts(float(a["start_second"][0]), course.steps, horizon)
    proportional = bool(a["proportional"][0])
    run = run_devices(course, devices, starts, proportional)
    tripped = np.broadcast_to(np.inf, run.down.shape) if proportional else run.overload
    ended = np.minimum(run.down, tripped)
    dark = np.minimum(ended, horizon)
    return {
        "dark": dark,
        "held": np.minimum(np.minimum(run.held, run.overload), horizon),
        "at_least": ended >= horizon,
        "by_power": (tripped < run.down) & (dark < horizon),
        "normal_off": np.minimum(run.normal_off, dark),
        "comfort_off": np.minimum(run.comfort_off, dark),
        "over_power": np.minimum(run.overload, dark),
    }


def deciding_days(share: float, seasons: Ints) -> list[tuple[Ints, int]]:
    """Return the start days [d] of each season, and the place of the deciding one in their order.

    Notes
    -----
    The worst day where all must be carried. Source: own choice.
    """
    summer = is_summer()
    found = []
    for season in seasons.tolist():
        days = np.flatnonzero(summer if season == 0 else ~summer)
        found.append((days, min(int((1.0 - share) * days.size + 1e-9), days.size - 1)))
    return found


def decided_by(times: dict[str, NDArray[Any]], share: float, seasons: Ints) -> dict[str, Any]:
    """Return the columns at the deciding start of each season, shape (2, N).

    Notes
    -----
    Times [s]; each column has its own deciding start. Source: own choice.
    """
    found: dict[str, list[Any]] = {name: [] for name in times}
    for days, at in deciding_days(share, seasons):
        chosen = _ranked(times["dark"][:, days], at)
        for name, values in times.items():
            if name in ("at_least", "by_power", "dark"):
                found[name].append(np.take_along_axis(values[:, days], chosen, axis=1)[:, 0])
            else:
                found[name].append(np.partition(values[:, days], at, axis=1)[:, at])
    return {name: np.array(values) for name, values in found.items()}


def _ranked(times: Floats, at: int) -> Ints:
    """Return the start that stands at a place in the order of times, shape (N, 1)."""
    if at == 0:
        return np.asarray(times.argmin(axis=1)[:, None])
    return np.argsort(times, axis=1, kind="stable")[:, at : at + 1]


def measured(decided: dict[str, Any], tier: int) -> Floats:
    """Return the time that a tier and every tier above it are held [s]. Source: derived."""
    held = decided["held"]
    for name in ("normal_off", "comfort_off")[:tier]:
        held = np.minimum(held, decided[name])
    return np.asarray(held)
