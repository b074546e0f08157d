"""The days that a way to stand is put through: those of its climate, and the hottest there."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from math import radians
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.climate_days import PlaceDays, sky_of_year
from service.checks.heat_exposure.courses import HOTTEST_THERE, TYPICAL, Course, course_of
from service.checks.heat_exposure.hot_days import (
    Shortlist,
    course_on,
    hottest_two,
    shortlist,
)
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.readings import COOL, HOT
from service.checks.heat_exposure.shade_hours import ShadeHours, shade_hours_of, through_year_of
from service.checks.heat_exposure.sol_air import mean_light
from service.checks.heat_exposure.spots import Stand
from service.checks.heat_exposure.unit_faces import face_areas
from service.checks.heat_exposure.year_on_walls import year_light

Floats = NDArray[np.float64]
_Made = TypeVar("_Made")

#: Facings for which days are listed [1], and how far a wall may reach above a unit there [m].
_FACINGS, _ABOVE = 16, (0.0, 0.5, 1.0, 2.0, 1e6)


def _remembered(size: int) -> Callable[[Callable[..., _Made]], Callable[..., _Made]]:
    """Keep what was made for a climate site; a caller's own year keeps its own, while it lasts."""

    def wrap(make: Callable[..., _Made]) -> Callable[..., _Made]:
        shared = lru_cache(maxsize=size)(make)

        @wraps(make)
        def found(place: PlaceDays, *key: Any) -> _Made:
            if place.site is not None:
                return shared(place, *key)
            own = (make.__name__, *key)
            if own not in place.held:
                place.held[own] = make(place, *key)
            kept: _Made = place.held[own]
            return kept

        return found

    return wrap


@_remembered(1024)
def _listed(place: PlaceDays, facing: int, above: float) -> Shortlist:
    if place.year is None:
        raise ValueError("a design day has no year")
    return shortlist(place.year.air, sky_of_year(place), radians(facing * 360.0 / _FACINGS), above)


@_remembered(2048)
def _course(place: PlaceDays, day: int) -> Course:
    if place.year is None:
        raise ValueError("a design day has no year")
    return course_of(place.year, HOTTEST_THERE, day)


def courses_there(
    place: PlaceDays,
    stand: Stand,
    values: dict[str, Any],
    window: Floats,
    *,
    stated: bool,
    typical: bool,
) -> tuple[Course, ...]:
    """Return the days of one way to stand at one place.

    Parameters
    ----------
    place : PlaceDays
    stand : Stand
    values : dict
        Of the unit and of the stand, as from `arguments` [m, rad, 1, W/(m2 K), s].
    window : ndarray, shape (24,)
        Length of each hour within the outage [s].
    stated : bool
        Whether the caller states the day: nothing is sought then.
    typical : bool
        Whether the typical day, which no verdict hangs on, is one of them.

    Returns
    -------
    tuple of Course
        The days of the climate, then the two hottest there, then the typical one [K, W/m2].

    Notes
    -----
    Source: `hottest_two`, of the days of a shortlist, or of a whole year behind shades.
    """
    last = [one for one in place.courses if typical and one.role == TYPICAL]
    first = [one for one in place.courses if one.role != TYPICAL]
    if place.year is None or stated:
        return (*first, *last)
    quotient = values["absorptance"][HOT] / values["coefficient"][HOT]
    lags, wall = (values["lag"][HOT], values["lag"][COOL]), stand.wall
    if stand.shaded:
        mean = _mean_light(place, shade_hours_of(wall), *_sizes(values))
        course = (place.year.air + quotient * mean).reshape(-1, 24)
        days: Any = range(course.shape[0])
    else:
        top = values["bottom"] + values["height"]
        above = 0.0 if wall is None else max(values["edge_height"] - top, 0.0)
        step = round(values["facing"] * _FACINGS / (2.0 * np.pi)) % _FACINGS
        listed = _listed(place, step, min(_ABOVE, key=lambda one: abs(one - above)))
        areas = _areas(values["width"], values["height"], values["depth"])
        exposed = quotient if stand.door is None else 0.0
        course = course_on(listed, exposed, areas, values["albedo"][HOT])
        days = listed.days
    there = [_course(place, int(days[at])) for at in hottest_two(course, lags, window)]
    return (*first, *there, *last)


def _areas(width: float, height: float, depth: float) -> Floats:
    side = height * depth
    return np.array([width * height, side, side, width * depth])


def _sizes(values: dict[str, Any]) -> tuple[Any, ...]:
    """Return what the light on a unit behind shades hangs on, to know it again [m, rad, 1]."""
    names = ("width", "height", "depth", "standoff", "bottom", "facing")
    edges = ("edge_depth", "edge_height", "wall_height")
    screens = (tuple(values["screen_distance"]), tuple(values["screen_height"]))
    return (*(values[name] for name in (*names, *edges)), *screens, values["albedo"][HOT])


@_remembered(512)
def _mean_light(place: PlaceDays, shade: ShadeHours | None, *sizes: Any) -> NDArray[np.float32]:
    """Return the light of a year on a unit behind its shades, weighted by area [W/m2]."""
    width, height, depth, standoff, bottom, facing, *rest = sizes
    edge_depth, edge_height, wall_height, distance, high, albedo = rest
    shades = Shades(
        edge_depth,
        edge_height,
        np.reshape(distance, (-1, 1, 1)),
        np.reshape(high, (-1, 1, 1)),
        wall_height=wall_height,
    )
    unit = Mounting(standoff, depth, bottom, height)
    light = year_light(sky_of_year(place), facing, unit, shades, albedo, through_year_of(shade))
    # This picks days: half the digits do, and take half the room.
    return mean_light(light, face_areas(width, height, depth)).astype(np.float32)
