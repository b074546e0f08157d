"""The columns that a verdict takes, for many cases whose outage is a matter of the date.

Cases of the same loads under the same weather share one year, and each is followed no further than
its target.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.cells import cells_of
from service.checks.outage_runtime.day_profile import DayProfile
from service.checks.outage_runtime.lane_inputs import profiles_of
from service.checks.outage_runtime.lanes import VERDICT_LAYOUT, VERDICT_TABLE
from service.checks.outage_runtime.verdict import FAIL, PASS, target_verdicts
from service.checks.outage_runtime.year_columns import of_case
from service.checks.outage_runtime.year_course import YearCourse, course_of
from service.checks.outage_runtime.year_deciding import (
    decided_by,
    followed_times,
    measured,
    seasons_of,
    sheddable,
)
from service.checks.outage_runtime.year_devices import devices_of
from service.checks.outage_runtime.year_facts import Answering, YearFacts

_BASE = np.array([triple[:4] for triple in VERDICT_LAYOUT.triples.values()])


def _groups(a: Arrays, profiles: list[DayProfile]) -> dict[Hashable, list[int]]:
    """Return the cases that share year, start, target and season."""
    found: dict[Hashable, list[int]] = {}
    for case, facts in enumerate(a["year"]):
        metered = None if facts.metered is None else facts.metered.watts.tobytes()
        key = (
            facts.answering,
            facts.sun,
            facts.units,
            metered,
            facts.restart,
            facts.generator,
            facts.share,
            facts.dark,
            facts.hourly,
            facts.hotter,
            facts.outdoor,
            id(profiles[case]),
            *(float(a[name][case]) for name in ("start_second", "target", "season_code")),
            bool(a["proportional"][case]),
        )
        found.setdefault(key, []).append(case)
    return found


def year_rank_columns(a: Arrays) -> dict[str, NDArray[Any]]:
    """Return the columns of C cases in the lanes that a verdict takes, target and no further.

    Parameters
    ----------
    a : mapping of ndarray
        What ``arguments`` returns, of dated cases alone; SI.

    Returns
    -------
    dict of ndarray
        As ``verdict_columns`` [s, W]; times end at the target, ``year`` is empty.

    Notes
    -----
    Of several typical years the worst answers, by the verdict on the target. Source: the step rule
    of the outage engine.
    """
    profiles = profiles_of({**a, "season_code": np.full(a["units"].size, -1)})
    cells = cells_of(a, VERDICT_TABLE)
    rows: list[dict[str, NDArray[Any]]] = [{} for _ in range(a["units"].size)]
    worst: Counter[object] = Counter()
    for cases in _groups(a, profiles).values():
        facts: YearFacts = a["year"][cases[0]]
        seasons = seasons_of(int(a["season_code"][cases[0]]))
        ranks = dict.fromkeys(cases, PASS + 1)
        # The site that was the worst so far comes first: nothing is worse than a fail.
        for climate in sorted(facts.answering or (None,), key=lambda one: -worst[_site(one)]):
            left = [case for case in cases if ranks[case] > FAIL]
            if not left:
                break
            course = course_of(facts, climate, profiles[left[0]], a["start_second"][left[:1]])
            decided = _decided_group(a, facts, course, left, seasons)
            for place, case in enumerate(left):
                own = {name: values[:, place] for name, values in decided.items()}
                times = measured(own, int(a["target_tier"][case]))
                rank = int(target_verdicts(times, float(a["target"][case]), _BASE).min())
                worst[_site(climate)] += rank == FAIL
                if rank < ranks[case]:
                    ranks[case] = rank
                    one = {n: v[case : case + 1] for n, v in a.items() if not n.startswith(_FLAT)}
                    flat = {n: v for n, v in a.items() if n.startswith(_FLAT)}
                    limits = type(cells)(
                        *(getattr(cells, n)[case : case + 1] for n in type(cells).__slots__)
                    )
                    rows[case] = own | of_case(
                        {**flat, **one}, case, course, profiles[case], limits, seasons
                    )
    found = {name: np.array([row[name] for row in rows]) for name in rows[0]}
    return found | {"year": np.full(len(rows), None)}


_FLAT = ("row_", "window_")


def _site(climate: Answering | None) -> str | None:
    return None if climate is None else climate.weather.id


def _decided_group(
    a: Arrays, facts: YearFacts, course: YearCourse, cases: list[int], seasons: NDArray[np.int64]
) -> dict[str, NDArray[Any]]:
    """Return the columns at the deciding start, shape (2, cases, lanes)."""
    at = np.array(cases)
    some = {name: v[at] for name, v in a.items() if not name.startswith(_FLAT)}
    devices, which = devices_of(
        cells_of(some, VERDICT_TABLE), some["control"], facts, VERDICT_TABLE, sheddable(course)
    )
    horizon = max(float(some["target"][0]), course.step)
    decided = decided_by(followed_times(some, course, devices, horizon), facts.share, seasons)
    shape = (2, at.size, VERDICT_TABLE.use.size)
    return {name: values[:, which].reshape(shape) for name, values in decided.items()}
