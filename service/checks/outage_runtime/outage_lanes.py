"""The load side of every lane, and the one call of the outage engine."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.cells import Cells
from service.checks.outage_runtime.day_profile import DAY, DayProfile, day_profile
from service.checks.outage_runtime.lanes import CONTROL_NONE, CONTROL_USUAL, LaneTable
from service.checks.outage_runtime.schedule import padded_days, walk
from service.physics.outage_engine import simulate_outage
from service.physics.outage_run import OutageRun

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Simulated time where the target does not ask for more [s]: one week.
HORIZON = 7 * DAY
#: Usual set-points of load control, for the alternative that supposes one: normal, comfort,
#: hysteresis. Standing: common practice, no source.
USUAL_CONTROL = (0.25, 0.50, 0.10)


def profiles_of(a: Arrays) -> list[DayProfile]:
    """Return the day of each case out of its flat rows [W, s]. Source: see `day_profile`.

    Cases of the same rows share one day: reruns mostly differ in the battery.
    """
    known: dict[tuple[bytes, ...], DayProfile] = {}
    found = []
    offsets = a["row_offsets"].tolist()
    for first, last, code in zip(offsets, offsets[1:], a["season_code"].tolist(), strict=False):
        rows = _rows(a, first, last, code)
        key = tuple(values.tobytes() for values in rows.values())
        if key not in known:
            known[key] = day_profile(**rows)
        found.append(known[key])
    return found


def _rows(a: Arrays, first: int, last: int, code: int) -> dict[str, NDArray[Any]]:
    windows = a["window_offsets"][first : last + 1]
    span = slice(int(windows[0]), int(windows[-1]))
    return {
        "watts": a["row_watts"][first:last],
        "duty": a["row_duty"][first:last],
        "use_seconds": a["row_use_seconds"][first:last],
        "pieces": a["row_pieces"][first:last],
        "season": _admissible(a["row_season"][first:last], code),
        "tier": a["row_tier"][first:last],
        "askable": a["row_askable"][first:last],
        "window_offsets": windows - windows[0],
        "window_start": a["window_start"][span],
        "window_end": a["window_end"][span],
    }


def _admissible(season: Floats, code: int) -> Floats:
    """Return the rows' season factors, those of the stated season twice where one was stated."""
    return season if code < 0 else season[:, [code, code]]


def _control(control: Floats, lanes: LaneTable) -> tuple[Floats, Floats, Floats, NDArray[np.bool_]]:
    """Return shed fractions (C, L), hysteresis, and where load control works."""
    chosen = np.where(
        (lanes.control == CONTROL_USUAL)[None, :, None],
        np.array(USUAL_CONTROL),
        control[:, None, :],
    )
    works = (chosen[..., 0] >= 0) & (lanes.control != CONTROL_NONE)
    return chosen[..., 0], chosen[..., 1], chosen[..., 2], works


def _loads(
    power: Floats,
    lanes: LaneTable,
    interval: Ints,
    walk_of: Ints,
    season: Ints,
    works: NDArray[np.bool_],
) -> Floats:
    """Return the load of every lane, shape (T, 3, C * L) [W].

    Without load control nothing is shed by itself: every kept tier hangs on the bus like the
    critical one.
    """
    cases = power.shape[0]
    case = np.repeat(np.arange(cases), lanes.use.size)
    variant, off = np.tile(lanes.use, cases), np.tile(lanes.tiers_off, cases)
    by_lane = power[case, variant, season[case]]
    by_lane[:, 2] *= (off < 1)[:, None]
    by_lane[:, 1] *= (off < 2)[:, None]
    whole = by_lane.sum(axis=1)
    controlled = works.reshape(-1)[:, None]
    by_lane[:, 0] = np.where(controlled, by_lane[:, 0], whole)
    by_lane[:, 1:] *= controlled[:, None, :]
    lane = np.arange(case.size)
    gathered = by_lane[lane[None, :], :, interval[:, walk_of]]
    return np.ascontiguousarray(gathered.transpose(0, 2, 1))


def run_lanes(
    a: Arrays,
    profiles: list[DayProfile],
    cells: Cells,
    lanes: LaneTable,
    season: Ints,
    trace: bool = False,
) -> OutageRun:
    """Run C cases in L lanes each, case by case in the flat order C * L.

    Parameters
    ----------
    a : mapping of ndarray
        Per-case arrays of ``arguments``, SI.
    profiles : list of DayProfile
        Days of the cases [s, W].
    cells : Cells
        Battery side, shape (C, L) [J, W].
    lanes : LaneTable
    season : ndarray of int, shape (C,)
        0 summer, 1 winter.
    trace : bool
        Whether the course is recorded.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    cases, count = cells.capacity.shape
    edges, power = padded_days(profiles)
    hours, hour_of = np.unique(lanes.hour, return_inverse=True)
    start = np.where(hours < 0, a["start_second"][:, None], hours * 3600.0)
    duration, interval = walk(
        np.repeat(edges, hours.size, axis=0),
        start.reshape(-1),
        np.repeat(np.maximum(a["target"], HORIZON), hours.size),
        _days_needed(a, profiles, cells),
    )
    walk_of = (np.arange(cases)[:, None] * hours.size + hour_of[None, :]).reshape(-1)
    normal, comfort, hysteresis, works = _control(a["control"], lanes)
    shed = np.stack([normal, comfort]) * cells.capacity
    shed = np.maximum(np.where(works, shed, cells.floor), cells.floor)
    back = np.where(works, hysteresis, 1.0) * cells.capacity
    return simulate_outage(
        duration=duration[:, walk_of],
        load=_loads(power, lanes, interval, walk_of, season, works),
        capacity=cells.capacity.reshape(-1),
        start_energy=cells.start.reshape(-1),
        floor=cells.floor.reshape(-1),
        discharge_fixed=cells.fixed.reshape(-1),
        discharge_linear=cells.linear.reshape(-1),
        discharge_square=cells.square.reshape(-1),
        charge_efficiency=cells.efficiency.reshape(-1),
        discharge_limit=cells.limit.reshape(-1),
        charge_limit=cells.charge.reshape(-1),
        shed_at=shed.reshape(2, -1),
        restore_at=(shed + back).reshape(2, -1),
        power_limit_rule=np.repeat(a["proportional"].astype(np.int64), count),
        trace=trace,
    )


def _days_needed(a: Arrays, profiles: list[DayProfile], cells: Cells) -> int:
    """Return whole days after which every lane is dark or past the horizon of its case.

    The least mean draw of any lane is that of its critical loads alone, as far as the inverter
    serves them; a lane ends at most a day after its energy would be used up at that mean.
    """
    horizon = np.maximum(a["target"], HORIZON)
    limit = cells.limit.min(axis=1)
    least = np.array(
        [
            (np.minimum(profile.power[:, :, 0], most) @ np.diff(profile.edges)).min() / DAY
            for profile, most in zip(profiles, limit.tolist(), strict=True)
        ]
    )
    draw = np.maximum(cells.fixed.min(axis=1) + least, 1e-9)
    longest = np.minimum(cells.capacity.max(axis=1) / draw + 2 * DAY, horizon)
    return int(np.ceil(longest.max() / DAY))
