"""The columns of one case whose outage is a matter of the date.

Every lane is run from a start on every day of the year at the stated hour; a column holds what the
deciding start of each half of the year gives: the worst one, or the one that the stated share of
starts leaves behind.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.cells import Cells, cells_of
from service.checks.outage_runtime.day_profile import HIGH, DayProfile
from service.checks.outage_runtime.lane_inputs import HORIZON, profiles_of
from service.checks.outage_runtime.lanes import (
    END_OF_WARRANTY,
    LAYOUT,
    TABLE,
    VERDICT_LAYOUT,
    VERDICT_TABLE,
    LaneTable,
)
from service.checks.outage_runtime.running_power import running_power
from service.checks.outage_runtime.verdict import target_verdicts
from service.checks.outage_runtime.year_course import YearCourse, course_of, daily_energy
from service.checks.outage_runtime.year_devices import Devices, devices_of
from service.checks.outage_runtime.year_facts import Answering, YearFacts
from service.checks.outage_runtime.year_lanes import Starts, daily_starts
from service.checks.outage_runtime.year_power import is_summer
from service.checks.outage_runtime.year_run import run_devices
from service.checks.outage_runtime.year_survey import Survey, survey
from service.physics.constant_load import largest_constant_load

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BASE = np.array([triple[:4] for triple in VERDICT_LAYOUT.triples.values()])
_TYPICAL = VERDICT_LAYOUT.triples["base"].typical
_STRICT = VERDICT_LAYOUT.triples["base"].strict


@dataclass(frozen=True, slots=True)
class SiteOutcome:
    """How the home fares under one typical year: verdict rank of the target, typical time [s]."""

    climate: Answering | None
    rank: int
    typical: float


@dataclass(frozen=True, slots=True)
class YearColumn:
    """What a case has beside its columns: the site that answers, the others, the survey.

    ``devices`` are those that differ, ``device_of`` which of them each lane at the own hour is,
    ``place_of`` where a lane of the layout stands among those, ``worst_day`` the day on which
    typical use, now, from the start charge, is held shortest.
    """

    answering: Answering | None
    sites: tuple[SiteOutcome, ...]
    course: YearCourse
    devices: Devices
    device_of: Ints
    place_of: dict[int, int]
    worst_day: int
    starts: Starts
    survey: Survey | None

    @property
    def typical(self) -> int:
        """Return the device of typical use, now, from the start charge."""
        return self.device(LAYOUT.readings[1, 0, 0])

    def device(self, lane: int) -> int:
        """Return the device of a lane of the full layout."""
        return int(self.device_of[self.place_of[lane]])


def _case_profile(a: Arrays) -> DayProfile:
    """Return the day of both seasons, whichever was asked for."""
    return profiles_of({**a, "season_code": np.array([-1])})[0]


def _seasons(code: int) -> Ints:
    return np.array([0, 1]) if code < 0 else np.array([code, code])


def _horizon(a: Arrays) -> float:
    return float(max(a["target"][0], HORIZON))


def _times(a: Arrays, course: YearCourse, devices: Devices) -> dict[str, NDArray[Any]]:
    """Return the columns of every device and start, shape (N, 365)."""
    horizon = _horizon(a)
    starts = daily_starts(float(a["start_second"][0]), course.steps, horizon)
    proportional = bool(a["proportional"][0])
    run = run_devices(course, devices, starts, proportional)
    tripped = np.broadcast_to(np.inf, run.down.shape) if proportional else run.overload
    ended = np.minimum(run.down, tripped)
    dark = np.minimum(ended, horizon)
    return {
        "dark": dark,
        "held": np.minimum(np.minimum(run.down, run.overload), horizon),
        "at_least": ended >= horizon,
        "by_power": (tripped < run.down) & (dark < horizon),
        "normal_off": np.minimum(run.normal_off, dark),
        "comfort_off": np.minimum(run.comfort_off, dark),
        "over_power": np.minimum(run.overload, dark),
    }


def _decided(times: dict[str, NDArray[Any]], share: float, seasons: Ints) -> dict[str, Any]:
    """Return the columns at the deciding start of each season, shape (2, N)."""
    summer = is_summer()
    found: dict[str, list[Any]] = {name: [] for name in times}
    for season in seasons.tolist():
        days = np.flatnonzero(summer if season == 0 else ~summer)
        at = min(int(np.floor((1.0 - share) * days.size + 1e-9)), days.size - 1)
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


def _measured(decided: dict[str, Any], tier: int) -> Floats:
    held = decided["held"]
    for name in ("normal_off", "comfort_off")[:tier]:
        held = np.minimum(held, decided[name])
    return np.asarray(held)


def _site_outcome(
    a: Arrays, facts: YearFacts, climate: Answering | None, profile: DayProfile
) -> SiteOutcome:
    """Return how the target stands under one typical year."""
    course = course_of(facts, climate, profile, a["start_second"])
    cells = cells_of(a, VERDICT_TABLE)
    devices, which = devices_of(cells, a["control"][0], facts, VERDICT_TABLE, _sheddable(course))
    seasons = _seasons(int(a["season_code"][0]))
    decided = _decided(_times(a, course, devices), facts.share, seasons)
    times = _measured(decided, int(a["target_tier"][0]))[:, which]
    ranks = target_verdicts(times, float(a["target"][0]), _BASE)
    return SiteOutcome(
        climate, int(ranks.min()), float(min(times[:, _TYPICAL].min(), times[:, _STRICT].min()))
    )


def _sheddable(course: YearCourse) -> bool:
    return bool(course.load[:, 1:].any())


def _answering(
    a: Arrays, facts: YearFacts, profile: DayProfile
) -> tuple[Answering | None, tuple[SiteOutcome, ...]]:
    """Return the typical year that answers, the worst for this home, and how all of them fare."""
    if len(facts.answering) < 2:
        return (facts.answering[0] if facts.answering else None), ()
    outcomes = tuple(_site_outcome(a, facts, climate, profile) for climate in facts.answering)
    worst = min(outcomes, key=lambda outcome: (outcome.rank, outcome.typical))
    return worst.climate, outcomes


def year_columns(a: Arrays, lanes: LaneTable) -> dict[str, NDArray[Any]]:
    """Return the columns of one case, axis 0 of length 1, axis 1 the season.

    Parameters
    ----------
    a : mapping of ndarray
        What ``arguments`` returns, of one case; SI.
    lanes : LaneTable

    Returns
    -------
    dict of ndarray
        As ``columns`` [s, J, W]; ``year`` holds a `YearColumn`.

    Notes
    -----
    Source: the step rule of the outage engine; deciding start: own choice.
    """
    facts: YearFacts = a["year"][0]
    profile = _case_profile(a)
    answering, sites = _answering(a, facts, profile)
    course = course_of(facts, answering, profile, a["start_second"])
    cells = cells_of(a, lanes)
    full = lanes is TABLE
    here = LAYOUT.at_own_hour() if full else np.arange(lanes.use.size)
    asked = lanes.some(here) if full else lanes
    devices, which = devices_of(
        _some_cells(cells, here), a["control"][0], facts, asked, _sheddable(course)
    )
    seasons = _seasons(int(a["season_code"][0]))
    times = _times(a, course, devices)
    decided = _decided(times, facts.share, seasons)
    found = _spread(decided, here, which, lanes.use.size)
    found |= _of_case(a, course, profile, cells, seasons)
    if full:
        found |= _energies(a, course, cells, seasons)
    starts = daily_starts(float(a["start_second"][0]), course.steps, _horizon(a))
    place = {lane: at for at, lane in enumerate(here.tolist())}
    typical = LAYOUT.readings[1, 0, 0] if full else _TYPICAL
    column = YearColumn(
        answering,
        sites,
        course,
        devices,
        which,
        place,
        int(times["held"][which[place[typical]]].argmin()),
        starts,
        _survey(a, course, devices, which, place) if full else None,
    )
    year = np.full(1, None)
    year[0] = column
    return {name: values[None] for name, values in found.items()} | {"year": year}


def _some_cells(cells: Cells, at: Ints) -> Cells:
    return Cells(*(getattr(cells, name)[:, at] for name in Cells.__slots__))


def _spread(
    decided: dict[str, Any], here: Ints, which: Ints, lanes: int
) -> dict[str, NDArray[Any]]:
    """Return the columns by lane; lanes that start at another hour are answered by the survey."""
    found = {}
    for name, values in decided.items():
        wide = np.zeros((2, lanes), dtype=values.dtype)
        wide[:, here] = values[:, which]
        found[name] = wide
    return found


def _of_case(
    a: Arrays, course: YearCourse, profile: DayProfile, cells: Cells, seasons: Ints
) -> dict[str, NDArray[Any]]:
    nothing = _nothing(course)
    asked = np.full(2, profile.asked_row)
    flat = {name: np.repeat(values, 2, axis=0) for name, values in a.items() if name in _PER_CASE}
    power = running_power(a, np.zeros(2, dtype=np.int64), seasons, asked)
    return {
        **power,
        **flat,
        "season": seasons,
        "limit": np.repeat(cells.limit, 2, axis=0),
        "asked_row": asked,
        "nothing_runs": np.array([nothing, nothing]),
    }


_PER_CASE = ("best_rank", "target_tier")


def _nothing(course: YearCourse) -> list[bool]:
    """Return whether nothing draws power all year, by variant as `running_power` has them."""
    draws = [bool(course.load[HIGH, :tiers].any()) for tiers in (3, 2, 1)]
    return [not draws[tiers] for tiers in (0, 1, 2, 0, 0)]


def _energies(
    a: Arrays, course: YearCourse, cells: Cells, seasons: Ints
) -> dict[str, NDArray[Any]]:
    daily = daily_energy(course)[:, seasons].T
    strict = LAYOUT.readings[2, END_OF_WARRANTY, 0]
    constant = largest_constant_load(
        np.maximum(cells.start - cells.floor, 0.0)[:, strict],
        np.maximum(a["target"], 1.0),
        cells.fixed[:, strict],
        cells.linear[:, strict],
        cells.square[:, strict],
        cells.limit[:, strict],
    )
    twice = {
        "start_energy": cells.start,
        "capacity": cells.capacity,
        "floor": cells.floor,
        "fixed": cells.fixed,
        "linear": cells.linear,
        "constant_load": constant,
    }
    nothing = np.zeros((2, cells.start.shape[1]))
    return {name: np.repeat(values, 2, axis=0) for name, values in twice.items()} | {
        "daily_energy": daily,
        "served": nothing,
        "loss": nothing,
        "end_energy": nothing,
    }


def _survey(
    a: Arrays, course: YearCourse, devices: Devices, which: Ints, place: dict[int, int]
) -> Survey:
    """Return how every start hour of the year fares, from the start charge and from full."""
    lanes = [LAYOUT.readings[1, 0, start] for start in (0, 1)]
    chosen = devices.some(which[[place[lane] for lane in lanes]])
    return survey(course, chosen, _horizon(a), bool(a["proportional"][0]), int(a["target_tier"][0]))
