"""From requests to lanes: every way to stand of every spot, on every day of every place."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import radians
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.heat_exposure.climate_days import ClimateDays, climate_days
from service.checks.heat_exposure.courses import TYPICAL, Course
from service.checks.heat_exposure.days_there import courses_there
from service.checks.heat_exposure.face_light import Sky
from service.checks.heat_exposure.readings import (
    Five,
    absorptance_of,
    air_rise_of,
    albedo_of,
    coefficient_of,
    lag_of,
    sky_loss_of,
    spread,
)
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shade_hours import cover_of, shade_hours_of, through_of
from service.checks.heat_exposure.spots import USUAL_STANDOFF, Stand, spots_of
from service.checks.heat_exposure.stated_outage import window_of
from service.facts import HangingWall, HungUnit
from service.published.sunlit_faces import absorptances
from service.quantities.units import si

#: Colour that stands for a lighter one.
LIGHTER = "white"
_DOORS = (None, "west_door", "other_door", "measured")
Floats = NDArray[np.float64]
#: Days by spot, and by place and way to stand within it.
Days = tuple[tuple[tuple[Course, ...], ...], ...]


def arguments(
    requests: Sequence[HeatExposureRequest],
    days: Sequence[ClimateDays] | None = None,
    *,
    remedies: bool = True,
) -> Arrays:
    """Return the lanes of some requests.

    Parameters
    ----------
    requests : sequence of HeatExposureRequest
        R requests; the lanes of one follow each other by spot, place, stand and day.
    days : sequence of ClimateDays, optional
        Of each request, where they are known already.
    remedies : bool, optional
        Whether shade and colour are tried too, and a typical day, on which no verdict hangs.

    Returns
    -------
    dict
        ``days``, ``offsets`` and ``there`` by request, ``course_*`` by day, the rest by lane [K,
        W/m2, rad, m, s].
    """
    found = [climate_days(one.climate) for one in requests] if days is None else list(days)
    courses: dict[int, int] = {}
    kept: list[Course] = []
    rows: dict[str, list[Any]] = {}
    offsets = [0]
    held, there = np.empty((2, len(found)), dtype=object)
    held[:] = found
    for at, (request, climate) in enumerate(zip(requests, found, strict=True)):
        there[at] = _lanes(request, climate, courses, kept, rows, typical=remedies)
        offsets.append(len(rows.get("course", ())))
    most = max((len(one) for one in rows.get("screen_distance", ())), default=0)
    for name in ("screen_distance", "screen_height"):
        if name in rows:
            rows[name] = [[*one, *[0.0] * (most - len(one))] for one in rows[name]]
    return {
        "days": held,
        "offsets": np.array(offsets),
        "there": there,
        "remedies": np.array(remedies),
        "lighter": _readings(spread(*absorptances()[LIGHTER])),
        "covered_loss": _readings(sky_loss_of(1.0)),
        "course_air": np.array([one.air for one in kept]),
        "course_clear": np.array([one.clear for one in kept], dtype=bool),
        **{
            f"course_{name}": np.array([getattr(one.sky, name) for one in kept])
            for name in Sky._fields
        },
        **{name: np.array(values) for name, values in rows.items()},
    }


def _readings(values: Five) -> Floats:
    return np.array(values).reshape(5, 1, 1)


def _lanes(
    request: HeatExposureRequest,
    climate: ClimateDays,
    courses: dict[int, int],
    kept: list[Course],
    rows: dict[str, list[Any]],
    *,
    typical: bool,
) -> Days:
    """Append the lanes of one request, and return its days."""
    unit, window, every = unit_of(request.unit), window_of(request), []
    rises_of = [_rises(request, climate, garage=garage) for garage in (False, True)]
    for spot in spots_of(request) if climate.places else ():
        stands = [
            (one, unit | stand_of(request, one), shade_hours_of(one.wall)) for one in spot.stands
        ]
        of_spot = []
        for place in climate.places:
            for stand, values, shade in stands:
                days = courses_there(
                    place, stand, values, window, stated=climate.stated, typical=typical
                )
                of_spot.append(days)
                rises = rises_of[stand.door is not None]
                for course in days:
                    if courses.setdefault(id(course), len(kept)) == len(kept):
                        kept.append(course)
                for name, value in values.items():
                    rows.setdefault(name, []).extend([value] * len(days))
                for name, given in (
                    ("course", [courses[id(course)] for course in days]),
                    ("through", [through_of(shade, course.day) for course in days]),
                    ("air_rise", [rises[course.role == TYPICAL] for course in days]),
                ):
                    rows.setdefault(name, []).extend(given)
        every.append(tuple(of_spot))
    return tuple(every)


def _rises(
    request: HeatExposureRequest, climate: ClimateDays, *, garage: bool
) -> tuple[Five, Five]:
    """Return what is added to the air of a hot day, and of a typical one: no extremes there [K]."""
    hot, usual = (
        air_rise_of(request, climate.error, extremes=extremes, garage=garage)
        for extremes in (not climate.stated, False)
    )
    return hot, usual


@lru_cache(maxsize=512)
def unit_of(unit: HungUnit) -> dict[str, Any]:
    """Return what is of the unit itself, wherever it stands [m, 1, s]."""
    inch = si(1.0, "in")
    return {
        "width": unit.width * inch,
        "height": unit.height * inch,
        "depth": unit.depth * inch,
        "standoff": USUAL_STANDOFF if unit.standoff is None else unit.standoff * inch,
        "bottom": (unit.bottom or 0.0) * inch,
        "absorptance": absorptance_of(unit),
        "coefficient": coefficient_of(),
        "lag": lag_of(unit),
    }


def stand_of(request: HeatExposureRequest, stand: Stand) -> dict[str, Any]:
    """Return what is of one way to stand [rad, m, 1, W/m2]."""
    wall, garage = stand.wall, stand.door is not None
    edge_depth, edge_height, wall_height = _edge(wall)
    screens = [] if wall is None else wall.screens
    found = {
        "facing": radians(stand.facing),
        "door": _DOORS.index(stand.door),
        "edge_depth": edge_depth,
        "edge_height": edge_height,
        "wall_height": wall_height,
        "screen_distance": [si(one.distance, "ft") for one in screens],
        "screen_height": [si(one.height, "ft") for one in screens],
        "albedo": albedo_of(wall),
        "sky_loss": (0.0,) * 5 if garage else sky_loss_of(_cover(request.unit, wall)),
    }
    return found if stand.standoff is None else found | {"standoff": stand.standoff}


def _cover(unit: HungUnit, wall: HangingWall | None) -> float:
    """Return how much of the cold sky over the top is taken by what stands over the unit [1]."""
    if wall is None:
        return 0.0
    standoff = USUAL_STANDOFF / si(1.0, "in") if unit.standoff is None else unit.standoff
    eave = 0.0 if wall.eave is None else (wall.eave.depth - standoff) / unit.depth
    return max(min(max(eave, 0.0), 1.0), cover_of(shade_hours_of(wall)))


def _edge(wall: HangingWall | None) -> tuple[float, float, float]:
    """Return depth and height of the eave, and the wall's own height; 0: up to the unit."""
    inch = si(1.0, "in")
    if wall is None:
        return 0.0, 0.0, 0.0
    height = (wall.height or 0.0) * inch
    if wall.eave is not None:
        return wall.eave.depth * inch, wall.eave.height * inch, height
    return 0.0, height, height
