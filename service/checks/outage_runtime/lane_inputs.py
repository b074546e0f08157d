"""What the lanes of a request run on: the chosen loads through the day, each from its own hour."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.cells import Cells
from service.checks.outage_runtime.day_profile import DAY, DayProfile, day_profile
from service.checks.outage_runtime.lanes import CONTROL_NONE, CONTROL_USUAL, LaneTable
from service.checks.outage_runtime.schedule import padded_days, walk

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


@dataclass(frozen=True, slots=True)
class LaneInputs:
    """Everything that the lanes of C cases run on, in the flat order C * L.

    ``power`` (C, 6, 2, 3, M) [W] is looked up through case, variant and season of a lane; a lane
    walks through the columns of ``duration`` [s] and ``interval`` that ``walk_of`` names.
    """

    cells: Cells
    power: Floats
    case: Ints
    variant: Ints
    season: Ints
    tiers_off: Ints
    duration: Floats
    interval: Ints
    walk_of: Ints
    shed: Floats
    back: Floats
    controlled: NDArray[np.bool_]
    proportional: NDArray[np.bool_]

    def tiers(self, at: Ints) -> Floats:
        """Return the power of some lanes' tiers through the day, shape (N, 3, M) [W]."""
        found = self.power[self.case[at], self.variant[at], self.season[at]]
        off = self.tiers_off[at]
        found[:, 2] *= (off < 1)[:, None]
        found[:, 1] *= (off < 2)[:, None]
        return found

    def cell(self, name: str, at: Ints) -> Floats:
        """Return one field of the battery side of some lanes."""
        return np.asarray(getattr(self.cells, name).reshape(-1)[at])


def lane_inputs(
    a: Arrays, profiles: list[DayProfile], cells: Cells, lanes: LaneTable, season: Ints
) -> LaneInputs:
    """Return what the lanes of C cases run on.

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

    Notes
    -----
    Source: derived, own arrangement.
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
    normal, comfort, hysteresis, works = _control(a["control"], lanes)
    shed = np.maximum(np.stack([normal, comfort]) * cells.capacity, cells.floor)
    sheddable = np.array([bool(profile.power[:, :, 1:].any()) for profile in profiles])
    return LaneInputs(
        cells=cells,
        power=power,
        case=np.repeat(np.arange(cases), count),
        variant=np.tile(lanes.use, cases),
        season=np.repeat(season, count),
        tiers_off=np.tile(lanes.tiers_off, cases),
        duration=duration,
        interval=interval,
        walk_of=(np.arange(cases)[:, None] * hours.size + hour_of[None, :]).reshape(-1),
        shed=shed.reshape(2, -1),
        back=(hysteresis * cells.capacity).reshape(-1),
        controlled=(works & sheddable[:, None]).reshape(-1),
        proportional=np.repeat(a["proportional"], count),
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
