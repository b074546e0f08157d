"""Days of air and sun that a unit is put through, as they stand in a year or as they are stated."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.chosen_days import (
    hottest_month,
    hottest_month_day,
    hottest_percentile_day,
    hours_of_day,
    usual_day,
)
from service.checks.heat_exposure.clear_day import clear_day
from service.checks.heat_exposure.design_day import design_dry_bulb
from service.checks.heat_exposure.face_light import Sky
from service.checks.heat_exposure.sky_hours import sky_of_hours
from service.physics.irradiance_on_plane import extraterrestrial_normal
from service.published.optical_depths import Exponents

Floats = NDArray[np.float64]

_HOURS = 24
HOTTEST_PERCENTILE, HOTTEST_MONTH, HOTTEST_THERE, DESIGN, TYPICAL = (
    "hottest_percentile",
    "hottest_month",
    "hottest_there",
    "design",
    "typical",
)


class PlaceYear(NamedTuple):
    """A year of hours at a place.

    Attributes
    ----------
    ghi, dni, dhi, air : ndarray, shape (8760,)
        Irradiances [W/m2] and air temperature [K].
    latitude, longitude, utc_offset : float
        [rad, rad, s].
    """

    ghi: Floats
    dni: Floats
    dhi: Floats
    air: Floats
    latitude: float
    longitude: float
    utc_offset: float


class Course(NamedTuple):
    """Air and sun of one day.

    Attributes
    ----------
    role : str
        What the day stands for.
    day : int
        0 on 1 January [d].
    air : ndarray, shape (24,)
        [K].
    sky : Sky
        Shape (24,) [W/m2, rad].
    clear : bool
        Whether its light is that of the clear-sky model.
    """

    role: str
    day: int
    air: Floats
    sky: Sky
    clear: bool


def courses_of_year(year: PlaceYear) -> tuple[Course, ...]:
    """Return the hottest days of a year, and the usual day of its hottest month.

    Parameters
    ----------
    year : PlaceYear
        [W/m2, K, rad, s].

    Returns
    -------
    tuple of Course
        [K, W/m2, rad].

    Notes
    -----
    Source: `hottest_percentile_day`, `hottest_month_day`, `usual_day`.
    """
    chosen = (
        (HOTTEST_PERCENTILE, hottest_percentile_day(year.air, year.dni)),
        (HOTTEST_MONTH, hottest_month_day(year.air, year.dni)),
        (TYPICAL, usual_day(year.air, year.dni, hottest_month(year.air))),
    )
    return tuple(course_of(year, role, day) for role, day in chosen)


def course_of(year: PlaceYear, role: str, day: int) -> Course:
    """Return one day of a year [K, W/m2, rad]. Source: derived."""
    return Course(role, day, hours_of_day(year.air, day), _sky(year, day), clear=False)


def stated_day(year: PlaceYear, highest: float, daily_range: float) -> tuple[Course, ...]:
    """Return a stated design day in the light of a year's hottest day, and the typical day.

    Parameters
    ----------
    year : PlaceYear
        [W/m2, K, rad, s].
    highest, daily_range : float
        Of the design day [K].

    Returns
    -------
    tuple of Course
        [K, W/m2, rad].

    Notes
    -----
    An hour has the mean of the temperatures at its ends, as its light is a mean. Source:
    `design_dry_bulb`, `courses_of_year`.
    """
    moments = design_dry_bulb(highest, daily_range)
    air = 0.5 * (moments + np.roll(moments, -1))
    hottest, _, typical = courses_of_year(year)
    return (hottest._replace(role=DESIGN, air=air), typical)


def cloudless_day(
    highest: float,
    daily_range: float,
    day: int,
    latitude: float,
    longitude: float,
    utc_offset: float,
    beam_depth: float,
    diffuse_depth: float,
    exponents: Exponents,
) -> tuple[Course, ...]:
    """Return a stated design day under a cloudless sky by optical depths.

    Parameters
    ----------
    highest, daily_range : float
        [K].
    day : int
        1 on 1 January [d].
    latitude, longitude, utc_offset : float
        [rad, rad, s].
    beam_depth, diffuse_depth : float
        [1].
    exponents : Exponents
        [1].

    Returns
    -------
    tuple of Course
        One, of the moments of the day [K, W/m2, rad].

    Notes
    -----
    Source: `clear_day`, `design_dry_bulb`.
    """
    found = clear_day(day, latitude, longitude, utc_offset, beam_depth, diffuse_depth, exponents)
    level = found.beam * np.maximum(np.cos(found.zenith), 0.0) + found.diffuse
    outside = np.full(_HOURS, float(extraterrestrial_normal(np.array(float(day)))))
    sky = Sky(level, found.beam, found.diffuse, found.zenith, found.azimuth, outside)
    return (Course(DESIGN, day - 1, design_dry_bulb(highest, daily_range), sky, clear=True),)


def _sky(year: PlaceYear, day: int) -> Sky:
    ghi, dni, dhi = (hours_of_day(part, day) for part in (year.ghi, year.dni, year.dhi))
    first = day * _HOURS
    return sky_of_hours(ghi, dni, dhi, first, year.latitude, year.longitude, year.utc_offset)
