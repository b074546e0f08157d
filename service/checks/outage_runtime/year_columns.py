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
from service.checks.outage_runtime.lane_inputs import profiles_of
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
from service.checks.outage_runtime.year_deciding import (
    decided_by,
    deciding_days,
    followed_times,
    horizon_of,
    measured,
    seasons_of,
    sheddable,
    year_times,
)
from service.checks.outage_runtime.year_devices import Devices, devices_of
from service.checks.outage_runtime.year_facts import Answering, YearFacts
from service.checks.outage_runtime.year_lanes import Starts, daily_starts
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
    """What a case has beside its columns: the site that answers, the others, the year itself.

    ``held`` are the times of the lanes of the verdict by start, shape (5, 365) [s], of the asked
    tier.

    ``devices`` are those that differ, ``device_of`` which of them each lane at the own hour is,
    ``place_of`` where a lane of the layout stands among those, ``daily`` how long typical use, now,
    from the start charge, has power from each day of the year on [s].
    """

    answering: Answering | None
    sites: tuple[SiteOutcome, ...]
    course: YearCourse
    devices: Devices
    device_of: Ints
    place_of: dict[int, int]
    daily: Floats
    held: Floats
    starts: Starts
    proportional: bool
    tier: int

    def survey(self) -> Survey:
        """Return how every start hour fares, typical use, now, from start charge and from full."""
        lanes = [LAYOUT.readings[1, 0, start] for start in (0, 1)]
        devices = self.devices.some(np.array([self.device(lane) for lane in lanes]))
        return survey(self.course, devices, self.starts.horizon, self.proportional, self.tier)

    @property
    def typical(self) -> int:
        """Return the device of typical use, now, from the start charge."""
        return self.device(LAYOUT.readings[1, 0, 0])

    def worst_day(self, season: int) -> int:
        """Return the day of a season on which typical use has power for the shortest time."""
        days = deciding_days(1.0, np.array([season]))[0][0]
        return int(days[self.daily[days].argmin()])

    def at_share(self, share: float, seasons: Ints) -> Floats:
        """Return the times that a part of the days carries, by season and lane [s]."""
        return np.array(
            [
                np.partition(self.held[:, days], at, axis=1)[:, at]
                for days, at in deciding_days(share, seasons)
            ]
        )

    def device(self, lane: int) -> int:
        """Return the device of a lane of the full layout."""
        return int(self.device_of[self.place_of[lane]])


def case_profile(a: Arrays) -> DayProfile:
    """Return the day of both seasons [W, s], whichever was asked for. Source: `day_profile`."""
    return profiles_of({**a, "season_code": np.array([-1])})[0]


def _site_outcome(
    a: Arrays, facts: YearFacts, climate: Answering | None, profile: DayProfile
) -> SiteOutcome:
    """Return how the target stands under one typical year."""
    course = course_of(facts, climate, profile, a["start_second"])
    cells = cells_of(a, VERDICT_TABLE)
    devices, which = devices_of(cells, a["control"], facts, VERDICT_TABLE, sheddable(course))
    seasons = seasons_of(int(a["season_code"][0]))
    # Where the charge decides, sites are told apart no further than the target.
    horizon = max(float(a["target"][0]), course.step) if facts.hourly else horizon_of(a)
    decided = decided_by(followed_times(a, course, devices, horizon), facts.share, seasons)
    times = measured(decided, int(a["target_tier"][0]))[:, which]
    ranks = target_verdicts(times, float(a["target"][0]), _BASE)
    return SiteOutcome(
        climate, int(ranks.min()), float(min(times[:, _TYPICAL].min(), times[:, _STRICT].min()))
    )


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
    profile = case_profile(a)
    answering, sites = _answering(a, facts, profile)
    course = course_of(facts, answering, profile, a["start_second"])
    cells = cells_of(a, lanes)
    full = lanes is TABLE
    here = LAYOUT.at_own_hour() if full else np.arange(lanes.use.size)
    asked = lanes.some(here) if full else lanes
    devices, which = devices_of(
        _some_cells(cells, here), a["control"], facts, asked, sheddable(course)
    )
    seasons = seasons_of(int(a["season_code"][0]))
    layout = LAYOUT if full else VERDICT_LAYOUT
    shown = np.zeros(devices.use.size, dtype=np.bool_)
    shown[which[layout.shown()[here]]] = True
    times = year_times(a, course, devices, shown)
    decided = decided_by(times, facts.share, seasons)
    found = _spread(decided, here, which, lanes.use.size)
    found |= of_case(a, 0, course, profile, cells, seasons)
    if full:
        found |= _energies(a, course, cells, seasons)
    starts = daily_starts(float(a["start_second"][0]), course.steps, horizon_of(a))
    place = {lane: at for at, lane in enumerate(here.tolist())}
    typical = LAYOUT.readings[1, 0, 0] if full else _TYPICAL
    column = YearColumn(
        answering,
        sites,
        course,
        devices,
        which,
        place,
        times["dark"][which[place[typical]]],
        measured(times, int(a["target_tier"][0]))[
            which[[place[lane] for lane in layout.triples["base"]]]
        ],
        starts,
        bool(a["proportional"][0]),
        int(a["target_tier"][0]),
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


def of_case(
    a: Arrays, case: int, course: YearCourse, profile: DayProfile, cells: Cells, seasons: Ints
) -> dict[str, NDArray[Any]]:
    """Return what does not depend on the start, by season.

    Parameters
    ----------
    a : mapping of ndarray
        Flat rows of all cases, and per-case arrays of this one alone; SI.
    case : int
        Which of the flat rows are its own.
    course : YearCourse
    profile : DayProfile
        [s, W].
    cells : Cells
        Of this case alone, shape (1, L) [J, W].
    seasons : ndarray of int, shape (2,)

    Notes
    -----
    Source: see `running_power`.
    """
    nothing = _nothing(course)
    asked = np.full(2, profile.asked_row)
    flat = {name: np.repeat(values, 2, axis=0) for name, values in a.items() if name in _PER_CASE}
    power = running_power(a, np.full(2, case), seasons, asked)
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
