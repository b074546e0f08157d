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
from service.checks.heat_exposure.courses import Course
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
from service.checks.heat_exposure.spots import Stand, spots_of
from service.checks.heat_exposure.tree_shade import beam_through, month_of_hour
from service.facts import HangingWall, HungUnit
from service.published.sunlit_faces import absorptances
from service.quantities.units import si

#: Way from the wall to a unit's back where none is stated [m]: 4 in, the far side of usual
#: brackets, which is the sunnier. Standing: common practice.
USUAL_STANDOFF = 0.1016
#: Colour that stands for a lighter one.
LIGHTER = "white"
_HOURS = 24
_OPEN: NDArray[np.float64] = np.ones(_HOURS)
_DOORS = (None, "west_door", "other_door")
Floats = NDArray[np.float64]


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
        Whether shade and colour are tried too.

    Returns
    -------
    dict
        ``days`` and ``offsets`` by request, ``course_*`` by day, the rest by lane [K, W/m2, rad, m,
        s].
    """
    found = [climate_days(one.climate) for one in requests] if days is None else list(days)
    courses: dict[int, int] = {}
    kept: list[Course] = []
    rows: dict[str, list[Any]] = {}
    offsets = [0]
    for request, climate in zip(requests, found, strict=True):
        _lanes(request, climate, courses, kept, rows)
        offsets.append(len(rows.get("course", ())))
    held = np.empty(len(found), dtype=object)
    held[:] = found
    most = max((len(one) for one in rows.get("screen_distance", ())), default=0)
    for name in ("screen_distance", "screen_height"):
        if name in rows:
            rows[name] = [[*one, *[0.0] * (most - len(one))] for one in rows[name]]
    return {
        "days": held,
        "offsets": np.array(offsets),
        "remedies": np.array(remedies),
        "lighter": _readings(spread(*absorptances()[LIGHTER])),
        "covered_loss": _readings(sky_loss_of(covered=True)),
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
) -> None:
    """Append the lanes of one request."""
    unit = unit_of(request.unit)
    for spot in spots_of(request):
        stands = [(one, unit | stand_of(request, climate, one)) for one in spot.stands]
        for place in climate.places:
            for stand, values in stands:
                for course in place.courses:
                    if id(course) not in courses:
                        courses[id(course)] = len(kept)
                        kept.append(course)
                    lane = values | {
                        "course": courses[id(course)],
                        "through": through_of(stand.wall, course.day),
                    }
                    for name, value in lane.items():
                        rows.setdefault(name, []).append(value)


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


def stand_of(request: HeatExposureRequest, climate: ClimateDays, stand: Stand) -> dict[str, Any]:
    """Return what is of one way to stand [rad, m, 1, K, W/m2]."""
    wall, garage = stand.wall, stand.door is not None
    rise = air_rise_of(request, climate.error, stated=climate.stated, garage=garage)
    edge_depth, edge_height = _edge(wall)
    screens = [] if wall is None else wall.screens
    return {
        "facing": radians(stand.facing),
        "door": _DOORS.index(stand.door),
        "edge_depth": edge_depth,
        "edge_height": edge_height,
        "screen_distance": [si(one.distance, "ft") for one in screens],
        "screen_height": [si(one.height, "ft") for one in screens],
        "albedo": albedo_of(wall),
        "sky_loss": (0.0,) * 5 if garage else sky_loss_of(covered=covered(request.unit, wall)),
        "air_rise": rise,
    }


def covered(unit: HungUnit, wall: HangingWall | None) -> bool:
    """Return whether something stands over the unit, so that it sees less of the cold sky."""
    if wall is None:
        return False
    if wall.full_shade or wall.tree is not None:
        return True
    standoff = USUAL_STANDOFF / si(1.0, "in") if unit.standoff is None else unit.standoff
    return wall.eave is not None and wall.eave.depth > standoff


def _edge(wall: HangingWall | None) -> tuple[float, float]:
    """Return depth and height of what ends the wall above; 0 for a wall no higher than the unit."""
    inch = si(1.0, "in")
    if wall is None:
        return 0.0, 0.0
    if wall.eave is not None:
        return wall.eave.depth * inch, wall.eave.height * inch
    return 0.0, (wall.height or 0.0) * inch


def through_of(wall: HangingWall | None, day: int) -> Floats:
    """Return the part of the beam that a shade known by its hours lets through, by hour [1]."""
    if wall is None or (not wall.full_shade and wall.tree is None):
        return _OPEN
    if wall.full_shade or wall.tree is None:
        return 0.0 * _OPEN
    month = month_of_hour()[day * _HOURS : (day + 1) * _HOURS]
    return np.asarray(beam_through(month, np.arange(_HOURS), *tree_of(wall)))


def tree_of(wall: HangingWall) -> tuple[Floats, float, float]:
    """Return what a tree lets through by month [1], and its hours [h]."""
    if wall.tree is None:
        return np.ones(12), 0.0, float(_HOURS)
    parts = np.resize(np.array(wall.tree.through_percent) / 100.0, 12)
    return parts, wall.tree.from_hour, wall.tree.to_hour
