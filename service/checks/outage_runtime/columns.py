"""The calculation: all lanes of all cases in one call of the outage engine.

Pure: arrays in, arrays out, SI. Lane numbers are those of the layout.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.cells import Cells, cells_of
from service.checks.outage_runtime.day_profile import HIGH, DayProfile
from service.checks.outage_runtime.lane_inputs import HORIZON, lane_inputs, profiles_of
from service.checks.outage_runtime.lane_times import LaneTimes, engine_run, run_lanes
from service.checks.outage_runtime.lanes import (
    END_OF_WARRANTY,
    LAYOUT,
    PLAIN_TABLE,
    TABLE,
    VERDICT_TABLE,
    LaneTable,
)
from service.checks.outage_runtime.running_power import running_power
from service.checks.outage_runtime.year_columns import year_columns
from service.checks.outage_runtime.year_ranks import year_rank_columns
from service.physics.constant_load import largest_constant_load
from service.physics.outage_run import OutageRun

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Lanes of one engine call: enough to spread its cost, few enough to stay in the cache. Cases of
#: one call walk as long as the longest of them, so more lanes cost more, not less.
LANES_AT_ONCE = 1_200


def _expanded(a: Arrays, seasons: int) -> tuple[dict[str, NDArray[Any]], Ints, Ints]:
    """Repeat every case once a season; return the arrays, the case and the season of each."""
    cases = a["units"].size
    case_of = np.repeat(np.arange(cases), seasons)
    asked = np.tile(np.arange(seasons), cases)
    stated = a["season_code"][case_of]
    flat = {
        name: values if name.startswith(("row_", "window_")) else values[case_of]
        for name, values in a.items()
    }
    return flat, case_of, np.where(stated < 0, asked, stated)


def _case_columns(a: Arrays, lanes: LaneTable) -> dict[str, NDArray[Any]]:
    """Return the columns of a few cases, shape (C, 2, ...): summer and winter."""
    seasons = 2 if _season_matters(a) else 1
    flat, case_of, season = _expanded(a, seasons)
    # No heat takes anything in winter.
    flat["heat"] = np.where(season[:, None] == 1, 1.0, flat["heat"])
    by_case = profiles_of(a)
    profiles = [by_case[case] for case in case_of.tolist()]
    cells = cells_of(flat, lanes)
    run = run_lanes(lane_inputs(flat, profiles, cells, lanes, season))
    asked = np.array([profile.asked_row for profile in profiles])
    found = _times(flat, run, cells.capacity.shape) | running_power(a, case_of, season, asked)
    found |= {"season": season, "limit": cells.limit, "asked_row": asked}
    found |= {name: flat[name] for name in ("best_rank", "target_tier")}
    pairs = zip(profiles, season.tolist(), strict=True)
    found["nothing_runs"] = np.array([_nothing(profile, s) for profile, s in pairs])
    if lanes is PLAIN_TABLE:
        found |= _energies(run, profiles, cells, season)
        found["constant_load"] = _constant_load(flat, cells)
    shaped = {name: v.reshape(-1, seasons, *v.shape[1:]) for name, v in found.items()}
    if seasons == 1:
        shaped = {name: np.repeat(values, 2, axis=1) for name, values in shaped.items()}
        shaped["season"] = np.where(
            a["season_code"][:, None] < 0, np.arange(2), a["season_code"][:, None]
        )
    return shaped


def _nothing(profile: DayProfile, season: int) -> list[bool]:
    """Return whether nothing draws power, by variant of the loads as `running_power` has them."""
    draws = [bool(profile.power[HIGH, season, :tiers].any()) for tiers in (3, 2, 1)]
    return [not draws[tiers] for tiers in (0, 1, 2, 0, 0)]


def _times(a: Arrays, run: LaneTimes, shape: tuple[int, ...]) -> dict[str, Any]:
    horizon = np.maximum(a["target"], HORIZON)[:, None]
    tripped = np.where(np.repeat(a["proportional"], shape[1]), np.inf, run.overload)
    ended = np.minimum(run.down, tripped).reshape(shape)
    dark = np.minimum(ended, horizon)
    # Served in proportion the bus stays up, and what cannot be shed is not held all the same.
    held = np.minimum(np.minimum(run.down, run.overload).reshape(shape), horizon)
    return {
        "dark": dark,
        "held": held,
        "at_least": ended >= horizon,
        "by_power": (tripped < run.down).reshape(shape) & (dark < horizon),
        "normal_off": np.minimum(run.normal_off.reshape(shape), dark),
        "comfort_off": np.minimum(run.comfort_off.reshape(shape), dark),
        "over_power": np.minimum(run.limited.reshape(shape), dark),
    }


def _energies(
    run: LaneTimes, profiles: list[DayProfile], cells: Cells, season: Ints
) -> dict[str, Any]:
    shape = cells.capacity.shape
    pairs = list(zip(profiles, season.tolist(), strict=True))
    return {
        "start_energy": cells.start,
        "served": run.served.reshape(shape),
        "loss": run.loss.reshape(shape),
        "end_energy": run.end_energy.reshape(shape),
        "capacity": cells.capacity,
        "floor": cells.floor,
        "fixed": cells.fixed,
        "linear": cells.linear,
        "daily_energy": np.array([profile.energy[:, s] for profile, s in pairs]),
    }


def _constant_load(a: Arrays, cells: Cells) -> Floats:
    strict = LAYOUT.readings[2, END_OF_WARRANTY, 0]
    return largest_constant_load(
        np.maximum(cells.start - cells.floor, 0.0)[:, strict],
        np.maximum(a["target"], 1.0),
        cells.fixed[:, strict],
        cells.linear[:, strict],
        cells.square[:, strict],
        cells.limit[:, strict],
    )


def rank_columns(**arrays: NDArray[Any]) -> Arrays:
    """Return the columns of C cases in the few lanes that a verdict takes, for the verdict alone.

    Parameters
    ----------
    **arrays : ndarray
        What ``arguments`` returns, SI.

    Returns
    -------
    mapping of ndarray
        As ``verdict_columns`` [s, W]; where the outage is a matter of the date the times end at
        the target.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    dated = np.array([facts is not None for facts in arrays["year"]])
    if not dated.any():
        return _plain_columns(arrays, VERDICT_TABLE)
    if dated.all():
        return year_rank_columns(arrays)
    parts: dict[str, NDArray[Any]] = {}
    for at, run in (
        (np.flatnonzero(~dated), lambda some: _plain_columns(some, VERDICT_TABLE)),
        (np.flatnonzero(dated), year_rank_columns),
    ):
        for name, values in run(_picked(arrays, at)).items():
            whole = parts.setdefault(name, np.empty((dated.size, *values.shape[1:]), values.dtype))
            whole[at] = values
    return parts


def _picked(arrays: Arrays, at: Ints) -> Arrays:
    """Return some of the cases, their rows and windows."""
    slices = [_slice(arrays, case, case + 1) for case in at.tolist()]
    picked = {
        name: np.concatenate([one[name] for one in slices])
        for name in slices[0]
        if not name.endswith("_offsets")
    }
    for name in ("row_offsets", "window_offsets"):
        lengths = np.concatenate([np.diff(one[name]) for one in slices])
        picked[name] = np.concatenate([[0], np.cumsum(lengths)])
    return picked


def traced(arrays: Arrays, season: int, lanes: list[int]) -> OutageRun:
    """Run some lanes of one case once more with their course recorded, for time series.

    Parameters
    ----------
    arrays : mapping of ndarray
        What ``arguments`` returns for one request, SI.
    season : int
        0 summer, 1 winter.
    lanes : list of int
        Lane numbers as in ``lanes.LAYOUT``.

    Returns
    -------
    OutageRun
        With traces [s, J], the lanes in the order asked for.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    heat = arrays["heat"] if season == 0 else np.ones_like(arrays["heat"])
    profiles, cells = profiles_of(arrays), cells_of({**arrays, "heat": heat}, PLAIN_TABLE)
    inputs = lane_inputs(arrays, profiles, cells, PLAIN_TABLE, np.array([season]))
    return engine_run(inputs, np.array(lanes), trace=True)


def _season_matters(a: Arrays) -> bool:
    """Return whether any case leaves the season open and has a load or heat that goes by it."""
    case = np.repeat(np.arange(a["units"].size), np.diff(a["row_offsets"]))
    differs = a["row_season"][:, 0] != a["row_season"][:, 1]
    heated = (a["heat"] < 1.0).any(axis=1) & (a["season_code"] < 0)
    return bool(np.any(differs & (a["season_code"][case] < 0)) or np.any(heated))


def _slice(arrays: Arrays, first: int, last: int) -> dict[str, NDArray[Any]]:
    """Return cases `first` to `last`, their rows and windows."""
    rows = arrays["row_offsets"][first : last + 1]
    windows = arrays["window_offsets"][rows[0] : rows[-1] + 1]
    cut: dict[str, NDArray[Any]] = {}
    for name, values in arrays.items():
        if name == "row_offsets":
            cut[name] = rows - rows[0]
        elif name == "window_offsets":
            cut[name] = windows - windows[0]
        elif name.startswith("row_"):
            cut[name] = values[rows[0] : rows[-1]]
        elif name.startswith("window_"):
            cut[name] = values[windows[0] : windows[-1]]
        else:
            cut[name] = values[first:last]
    return cut


def _plain_columns(arrays: Arrays, lanes: LaneTable) -> dict[str, NDArray[Any]]:
    """Return the columns of cases that are the same on every day of a season."""
    cases = arrays["units"].size
    at_once = max(1, LANES_AT_ONCE // (2 * lanes.use.size))
    parts = [
        _case_columns(_slice(arrays, first, min(first + at_once, cases)), lanes)
        for first in range(0, cases, at_once)
    ]
    found = {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
    return {name: _widened(values) for name, values in found.items()} | {
        "year": np.full(cases, None)
    }


def _widened(values: NDArray[Any]) -> NDArray[Any]:
    """Return a column of lanes at the full width; what moves the sun alone is not filled."""
    if values.ndim < 3 or values.shape[2] != LAYOUT.plain:
        return values
    wide = np.zeros((*values.shape[:2], len(LAYOUT.lanes)), dtype=values.dtype)
    wide[:, :, : LAYOUT.plain] = values
    return wide


def _all_columns(arrays: Arrays, plain: LaneTable, yearly: LaneTable) -> Arrays:
    """Return the columns of all cases: the plain ones together, the others one by one."""
    dated = [case for case, facts in enumerate(arrays["year"]) if facts is not None]
    if not dated:
        return _plain_columns(arrays, plain)
    parts = [
        year_columns(_slice(arrays, case, case + 1), yearly)
        if arrays["year"][case] is not None
        else _plain_columns(_slice(arrays, case, case + 1), plain)
        for case in range(arrays["units"].size)
    ]
    return {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}


def columns(**arrays: NDArray[Any]) -> Arrays:
    """Return the columns of C cases for both admissible seasons.

    Parameters
    ----------
    **arrays : ndarray
        What ``arguments`` returns, SI.

    Returns
    -------
    mapping of ndarray
        Axis 0 is the case, axis 1 the season answered for (summer, winter; where a season was
        stated both are that one). Times [s], energies [J], powers [W]; lanes on axis 2 as in
        ``lanes.LAYOUT``.

    Notes
    -----
    Source: the step rule of the outage engine; own arrangement.
    """
    return _all_columns(arrays, PLAIN_TABLE, TABLE)


def verdict_columns(**arrays: NDArray[Any]) -> Arrays:
    """Return the columns of C cases in the few lanes that a verdict takes.

    Parameters
    ----------
    **arrays : ndarray
        What ``arguments`` returns, SI.

    Returns
    -------
    mapping of ndarray
        As ``columns`` [s, W], lanes as in ``lanes.VERDICT_LAYOUT``.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    return _all_columns(arrays, VERDICT_TABLE, VERDICT_TABLE)
