"""Load and sun through a year of equal steps, in watts."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import DAY, DayProfile
from service.checks.outage_runtime.year_facts import Metered, Plane, Sun, Weather
from service.physics.irradiance_on_plane import extraterrestrial_normal, plane_of_array
from service.physics.photovoltaics import array_power
from service.physics.sun_position import sun_position
from service.published.outage_defaults import outage_defaults

Floats = NDArray[np.float64]

DAYS = 365
#: First and last day of summer, May to October, counted from 0.
_SUMMER = (120, 304)
#: Days of the months of the 365-day year.
_MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_OF_DAY = np.repeat(np.arange(12), _MONTH_DAYS)
#: Part of the sun that bare ground gives back. Standing: common practice.
ALBEDO = 0.2
#: Steps a day that a year may be cut into: hours, halves and quarters of an hour.
_STEPS = (24, 48, 96)


def is_summer() -> NDArray[np.bool_]:
    """Return which days [d] of the year are summer, shape (365,). Source: May to October."""
    days = np.arange(DAYS)
    return (days >= _SUMMER[0]) & (days < _SUMMER[1])


def steps_a_day(edges: Floats) -> int:
    """Return the fewest steps a day that keep the edges of a day [s], a quarter hour at least.

    Parameters
    ----------
    edges : ndarray, shape (E,)
        Times of day at which something changes [s].

    Notes
    -----
    What changes inside a quarter hour enters with its mean: energy is kept. Source: derived.
    """
    for steps in _STEPS:
        if np.all(np.abs(edges / (DAY / steps) - np.round(edges * steps / DAY)) < 1e-9):
            return steps
    return _STEPS[-1]


def load_year(profile: DayProfile, steps: int) -> Floats:
    """Return the year of a day profile, shape (6, 3, 365 * steps) [W]: by variant and tier.

    Parameters
    ----------
    profile : DayProfile
        Day of summer and day of winter [s, W].
    steps : int
        Steps a day.

    Notes
    -----
    Means over the steps, exact in energy. Source: derived, own arithmetic.
    """
    spent = np.concatenate(
        [
            np.zeros((*profile.power.shape[:-1], 1)),
            np.cumsum(profile.power * np.diff(profile.edges), axis=-1),
        ],
        axis=-1,
    )
    marks = np.linspace(0.0, DAY, steps + 1)
    after = np.clip(np.searchsorted(profile.edges, marks, side="right") - 1, 0, None)
    after = np.minimum(after, profile.power.shape[-1] - 1)
    at = spent[..., after] + profile.power[..., after] * (marks - profile.edges[after])
    mean = np.diff(at, axis=-1) * (steps / DAY)
    by_day = np.where(is_summer(), 0, 1)
    year = mean[:, by_day].transpose(0, 2, 1, 3)
    return np.ascontiguousarray(year).reshape(6, 3, DAYS * steps)


def metered_year(metered: Metered, steps: int) -> Floats:
    """Return a home's own year, shape (6, 3, 365 * steps) [W]: all of it critical.

    Parameters
    ----------
    metered : Metered
        Mean power of equal steps [W].
    steps : int
        Steps a day; fewer than it has itself take its means.

    Notes
    -----
    Variants that move one row's watts are the use level's own. Source: derived.
    """
    own = metered.watts.size // DAYS
    year = metered.watts
    if own > steps:
        year = year.reshape(DAYS * steps, own // steps).mean(axis=1)
    year = np.repeat(year, max(steps // own, 1))
    low, typical, high = metered.factors
    scale = np.array([low, typical, high, high, typical, typical])
    found = np.zeros((6, 3, year.size))
    found[:, 0] = scale[:, None] * year
    return found


@lru_cache(maxsize=8)
def _position(weather: Weather) -> tuple[Floats, Floats]:
    return sun_position(
        np.arange(DAYS * 24) + 0.5, weather.latitude, weather.longitude, weather.utc_offset
    )


@lru_cache(maxsize=48)
def irradiance(weather: Weather, tilt: float, facing: float) -> Floats:
    """Return the irradiance on a plane through the year, shape (8760,) [W/m2].

    Parameters
    ----------
    weather : Weather
        [W/m2, K].
    tilt, facing : float
        [rad].

    Notes
    -----
    Sun at the middle of the hour. Source: Hay and Davies, as in `plane_of_array`.
    """
    zenith, azimuth = _position(weather)
    found = plane_of_array(
        weather.ghi,
        weather.dni,
        weather.dhi,
        zenith,
        azimuth,
        tilt,
        facing,
        extraterrestrial_normal(np.repeat(np.arange(DAYS) + 1.0, 24)),
        ALBEDO,
    )
    found.setflags(write=False)
    return found


def _plane_power(
    plane: Plane, sun: Sun, weather: Weather, losses: float, shading: float, yields: float
) -> Floats:
    shade = np.array([shading if part < 0 else part for part in plane.shade])
    light = irradiance(weather, plane.tilt, plane.facing)
    return array_power(
        light * (yields * (1.0 - shade[MONTH_OF_DAY].repeat(24))),
        weather.dry_bulb,
        rated=plane.rated,
        losses=losses,
        temperature_coefficient=sun.temperature_coefficient,
        inverter_efficiency=outage_defaults()["solar_inverter_efficiency"].value,
        inverter_limit=plane.limit,
    )


def sun_year(sun: Sun, weather: Weather, parts: tuple[float, ...], steps: int) -> Floats:
    """Return the sun's power through the year, shape (2, 365 * steps) [W]: AC bus, DC side.

    Parameters
    ----------
    sun : Sun
        Arrays [W, rad].
    weather : Weather
        [W/m2, K].
    parts : tuple of float
        Losses, shade where none is stated, and yield of the year [1].
    steps : int
        Steps a day.

    Notes
    -----
    Shade and the year's yield scale the light, losses the power; then the inverter's limit cuts it.
    Source: common practice, as in `array_power`.
    """
    losses, shading, yields = parts
    found = np.zeros((2, DAYS * 24))
    for plane in sun.planes:
        if plane.rated > 0:
            found[int(plane.direct)] += _plane_power(plane, sun, weather, losses, shading, yields)
    return np.repeat(found, steps // 24, axis=1)
