"""The calculation: all lanes of all cases in one call of the outage engine.

Pure: arrays in, arrays out, SI. Lane numbers are those of ``lanes.LAYOUT``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime import lanes as ln
from service.checks.outage_runtime.battery_parameters import capacity_factor, power_factor_of_heat
from service.checks.outage_runtime.day_profile import DAY, DayProfile, day_profile
from service.checks.outage_runtime.running_power import running_power
from service.checks.outage_runtime.schedule import padded_days, walk
from service.physics.constant_load import largest_constant_load
from service.physics.outage_engine import simulate_outage
from service.physics.outage_run import OutageRun
from service.physics.part_load import discharge_coefficients, schmid_coefficients

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Simulated time where the target does not ask for more [s]: one week.
HORIZON = 7 * DAY
#: Cases of one engine call: enough lanes to fill the arrays, few enough to stay in the cache.
CASES_AT_ONCE = 16
_LAYOUT = ln.LAYOUT
_LANES = len(_LAYOUT.lanes)
_ENDS = _LAYOUT.column("ends").astype(np.int64)
_USE = _LAYOUT.column("use").astype(np.int64)
_AGE = _LAYOUT.column("age").astype(np.int64)
_START = _LAYOUT.column("start").astype(np.int64)
_HOUR = _LAYOUT.column("hour").astype(np.int64)
_MORE_UNITS = _LAYOUT.column("more_units")
_UNITS = _LAYOUT.column("units")
_TIERS_OFF = _LAYOUT.column("tiers_off").astype(np.int64)
_CONTROL = _LAYOUT.column("control").astype(np.int64)
_RESERVE_LESS = _LAYOUT.column("reserve_less")
_ENERGY_SCALE = _LAYOUT.column("energy_scale")
_POWER_SCALE = _LAYOUT.column("power_scale")
#: Usual set-points of load control, for the alternative that supposes one: normal, comfort,
#: hysteresis. Standing: common practice, no source.
USUAL_CONTROL = (0.25, 0.50, 0.10)


@dataclass(frozen=True, slots=True)
class _Cells:
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


def _cells(a: dict[str, NDArray[Any]]) -> _Cells:
    chosen = a["parameters"][:, np.arange(len(ln.PARAMETERS))[None, :], _ENDS]
    depth, trip, idle, retention, years, kelvin, floor, reserve = np.moveaxis(chosen, -1, 0)
    units = np.where(_UNITS > 0, _UNITS, a["units"][:, None] + _MORE_UNITS)
    faded = np.minimum(a["age_years"][:, None] / years, 1.0)
    now = 1.0 - (1.0 - retention) * faded
    left = np.where(_AGE == ln.END_OF_WARRANTY, retention, now)
    capacity = a["unit_energy"][:, None] * depth * units * left * _ENERGY_SCALE
    capacity = capacity * capacity_factor(kelvin)
    reserve = np.maximum(reserve - _RESERVE_LESS, 0.0)
    stated = a["start_fraction"][:, None]
    full = (_START == ln.FROM_FULL) | ((_START == ln.FROM_BEST) & (stated < 0))
    fraction = np.where(full, 1.0, np.where(stated >= 0, stated, reserve))
    fixed, linear, square, efficiency = _draw(a["curve"], units, trip, idle)
    limit = units * a["unit_power"][:, None] * _POWER_SCALE * power_factor_of_heat(kelvin)
    return _Cells(
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


def _profiles(a: dict[str, NDArray[Any]]) -> list[DayProfile]:
    found = []
    for first, last in zip(
        a["row_offsets"][:-1].tolist(), a["row_offsets"][1:].tolist(), strict=True
    ):
        rows = slice(first, last)
        windows = a["window_offsets"][first : last + 1]
        span = slice(int(windows[0]), int(windows[-1]))
        found.append(
            day_profile(
                watts=a["row_watts"][rows],
                duty=a["row_duty"][rows],
                use_seconds=a["row_use_seconds"][rows],
                pieces=a["row_pieces"][rows],
                season=a["row_season"][rows],
                tier=a["row_tier"][rows],
                askable=a["row_askable"][rows],
                window_offsets=windows - windows[0],
                window_start=a["window_start"][span],
                window_end=a["window_end"][span],
            )
        )
    return found


def _control(control: Floats) -> tuple[Floats, Floats, Floats, NDArray[np.bool_]]:
    """Return shed fractions (C, L), hysteresis, and where load control works."""
    stated = control[:, None, :]
    usual = np.array(USUAL_CONTROL)
    chosen = np.where((_CONTROL == ln.CONTROL_USUAL)[None, :, None], usual, stated)
    works = (chosen[..., 0] >= 0) & (_CONTROL != ln.CONTROL_NONE)
    return chosen[..., 0], chosen[..., 1], chosen[..., 2], works


def _loads(
    power: Floats, interval: Ints, walk_of: Ints, season: Ints, works: NDArray[np.bool_]
) -> Floats:
    """Return the load of every lane, shape (T, 3, C * L) [W].

    Without load control nothing is shed by itself: every kept tier hangs on the bus like the
    critical one.
    """
    cases = power.shape[0]
    case = np.repeat(np.arange(cases), _LANES)
    variant, off = np.tile(_USE, cases), np.tile(_TIERS_OFF, cases)
    by_lane = power[case, variant, season]
    by_lane[:, 2] *= (off < 1)[:, None]
    by_lane[:, 1] *= (off < 2)[:, None]
    whole = by_lane.sum(axis=1)
    controlled = works.reshape(-1)[:, None]
    by_lane[:, 0] = np.where(controlled, by_lane[:, 0], whole)
    by_lane[:, 1:] *= controlled[:, None, :]
    lane = np.arange(case.size)
    gathered = by_lane[lane[None, :], :, interval[:, walk_of]]
    return np.ascontiguousarray(gathered.transpose(0, 2, 1))


def _run(
    a: dict[str, NDArray[Any]],
    profiles: list[DayProfile],
    cells: _Cells,
    season: Ints,
    days: int,
    trace: bool = False,
) -> OutageRun:
    cases = a["units"].size
    edges, power = padded_days(profiles)
    hours = np.unique(_HOUR)
    start = np.where(hours < 0, a["start_second"][:, None], hours * 3600.0)
    horizon = np.maximum(a["target"], HORIZON)
    duration, interval = walk(
        np.repeat(edges, hours.size, axis=0),
        start.reshape(-1),
        np.repeat(horizon, hours.size),
        days,
    )
    walk_of = (
        np.arange(cases)[:, None] * hours.size + np.searchsorted(hours, _HOUR)[None, :]
    ).reshape(-1)
    normal, comfort, hysteresis, works = _control(a["control"])
    shed = np.stack([normal, comfort]) * cells.capacity
    shed = np.maximum(np.where(works, shed, cells.floor), cells.floor)
    back = np.where(works, hysteresis, 1.0) * cells.capacity
    flat = {name: getattr(cells, name).reshape(-1) for name in cells.__slots__}
    return simulate_outage(
        duration=duration[:, walk_of],
        load=_loads(power, interval, walk_of, np.repeat(season, _LANES), works),
        capacity=flat["capacity"],
        start_energy=flat["start"],
        floor=flat["floor"],
        discharge_fixed=flat["fixed"],
        discharge_linear=flat["linear"],
        discharge_square=flat["square"],
        charge_efficiency=flat["efficiency"],
        discharge_limit=flat["charge"],
        charge_limit=flat["charge"],
        shed_at=shed.reshape(2, -1),
        restore_at=(shed + back).reshape(2, -1),
        power_limit_rule=np.repeat(a["proportional"].astype(np.int64), _LANES),
        trace=trace,
    )


def _days_needed(a: dict[str, NDArray[Any]], profiles: list[DayProfile], cells: _Cells) -> int:
    """Return whole days after which every lane is dark or past the horizon of its case."""
    horizon = np.maximum(a["target"], HORIZON)
    least = np.array([profile.energy[0].min() / DAY for profile in profiles])
    draw = np.maximum(cells.fixed.min(axis=1) + least, 1e-9)
    longest = np.minimum(cells.capacity.max(axis=1) / draw + 2 * DAY, horizon)
    return int(np.ceil(longest.max() / DAY))


def _expanded(
    a: dict[str, NDArray[Any]], seasons: int
) -> tuple[dict[str, NDArray[Any]], NDArray[np.int64], Ints]:
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


def _case_columns(a: dict[str, NDArray[Any]]) -> dict[str, NDArray[Any]]:
    """Return the columns of a few cases, shape (C, 2, ...): summer and winter."""
    seasons = 2 if _season_matters(a) else 1
    flat, case_of, season = _expanded(a, seasons)
    by_case = _profiles(a)
    profiles = [by_case[case] for case in case_of.tolist()]
    cells = _cells(flat)
    run = _run(flat, profiles, cells, season, _days_needed(flat, profiles, cells))
    found = (
        _times(flat, run, cells.capacity.shape)
        | _energies(run, profiles, cells, season)
        | running_power(a, case_of, season)
        | {"constant_load": _constant_load(flat, cells), "season": season}
    )
    shaped = {name: v.reshape(-1, seasons, *v.shape[1:]) for name, v in found.items()}
    if seasons == 1:
        shaped = {name: np.repeat(values, 2, axis=1) for name, values in shaped.items()}
        shaped["season"] = np.where(
            a["season_code"][:, None] < 0, np.arange(2), a["season_code"][:, None]
        )
    return shaped


def _times(a: dict[str, NDArray[Any]], run: OutageRun, shape: tuple[int, ...]) -> dict[str, Any]:
    horizon = np.maximum(a["target"], HORIZON)[:, None]
    trips = run.overload & np.repeat(~a["proportional"], _LANES)
    lost = np.where(run.first_loss_seen, run.first_loss, np.inf)
    tripped = np.where(trips, run.first_power_limit, np.inf)
    ended = np.minimum(lost, tripped).reshape(shape)
    dark = np.minimum(ended, horizon)
    off = np.where(run.tier_first_off_seen, run.tier_first_off, np.inf)
    limited = np.where(run.first_power_limit_seen, run.first_power_limit, np.inf)
    return {
        "dark": dark,
        "at_least": ended >= horizon,
        "by_power": (tripped < lost).reshape(shape) & (dark < horizon),
        "normal_off": np.minimum(off[0].reshape(shape), dark),
        "comfort_off": np.minimum(off[1].reshape(shape), dark),
        "over_power": np.minimum(limited.reshape(shape), dark),
    }


def _energies(
    run: OutageRun, profiles: list[DayProfile], cells: _Cells, season: Ints
) -> dict[str, Any]:
    shape = cells.capacity.shape
    pairs = list(zip(profiles, season.tolist(), strict=True))
    return {
        "start_energy": cells.start,
        "served": run.served.sum(axis=0).reshape(shape),
        "loss": run.conversion_loss.reshape(shape),
        "end_energy": run.end_energy.reshape(shape),
        "capacity": cells.capacity,
        "limit": cells.limit,
        "fixed": cells.fixed,
        "linear": cells.linear,
        "daily_energy": np.array([profile.energy[:, s] for profile, s in pairs]),
        "asked_row": np.array([profile.asked_row for profile in profiles]),
    }


def _constant_load(a: dict[str, NDArray[Any]], cells: _Cells) -> Floats:
    strict = _LAYOUT.readings[2, ln.END_OF_WARRANTY, 0]
    return largest_constant_load(
        np.maximum(cells.start - cells.floor, 0.0)[:, strict],
        np.maximum(a["target"], 1.0),
        cells.fixed[:, strict],
        cells.linear[:, strict],
        cells.square[:, strict],
        cells.limit[:, strict],
    )


def traced(arrays: Arrays, season: int) -> OutageRun:
    """Run one case once more with its course recorded, for time series.

    Parameters
    ----------
    arrays : mapping of ndarray
        What ``arguments`` returns for one request, SI.
    season : int
        0 summer, 1 winter.

    Returns
    -------
    OutageRun
        With traces [s, J]; lanes as in ``lanes.LAYOUT``.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    a = dict(arrays)
    profiles, cells = _profiles(a), _cells(a)
    days = _days_needed(a, profiles, cells)
    return _run(a, profiles, cells, np.array([season]), days, trace=True)


def _season_matters(a: dict[str, NDArray[Any]]) -> bool:
    """Return whether any case leaves the season open and has a load that differs by season."""
    case = np.repeat(np.arange(a["units"].size), np.diff(a["row_offsets"]))
    differs = a["row_season"][:, 0] != a["row_season"][:, 1]
    return bool(np.any(differs & (a["season_code"][case] < 0)))


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
    cases = arrays["units"].size
    parts = [
        _case_columns(_slice(arrays, first, min(first + CASES_AT_ONCE, cases)))
        for first in range(0, cases, CASES_AT_ONCE)
    ]
    return {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
