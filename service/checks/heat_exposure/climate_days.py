"""Which days answer for a place: those of its climate sites, of an own year, or a stated one."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from math import radians
from typing import Any

import numpy as np

from service.checks.heat_exposure.courses import (
    Course,
    PlaceYear,
    cloudless_day,
    courses_of_year,
    stated_day,
)
from service.checks.heat_exposure.face_light import Sky
from service.checks.heat_exposure.request import HeatClimate
from service.checks.heat_exposure.sky_hours import sky_of_hours
from service.climate import (
    Choice,
    choose_sites,
    climate_sites,
    sites_of_county,
    sites_of_zone,
    tier,
    typical_year,
)
from service.facts import (
    CountyClimate,
    DesignDay,
    DesignDayAtSite,
    OwnClimate,
    PointClimate,
    SiteClimate,
)
from service.published.optical_depths import optical_depth_exponents
from service.quantities.units import si

_HOUR, _ZERO_CELSIUS, _KELVIN_PER_F = 3600.0, 273.15, 1.0 / 1.8


@dataclass(frozen=True, slots=True, eq=False)
class PlaceDays:
    """The days of one place.

    Attributes
    ----------
    site : str or None
        Climate site; None where the caller's own data stand.
    year : PlaceYear or None
        None where a design day alone is known.
    coldest : float or None
        Coldest hour of the year [K].
    held : dict
        What was worked out for a year of the caller's own, kept as long as it is.
    """

    site: str | None
    name: str
    courses: tuple[Course, ...]
    year: PlaceYear | None
    coldest: float | None = None
    held: dict[Any, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, eq=False)
class ClimateDays:
    """The places that stand for a home, how they were chosen, and what they miss it by.

    Attributes
    ----------
    error : float
        By how much a hot hour may be off, for the distance of the sites [K].
    stated : bool
        Whether the hottest day is one that the caller states.
    barred : str or None
        Rule that bars an answer.
    distance : float or None
        Of the nearest site from a position [m].
    beside : tuple of Choice
        Sites that stand for a position less well than those that answer.
    """

    places: tuple[PlaceDays, ...] = ()
    how: str = "named"
    error: float = 0.0
    stated: bool = False
    barred: str | None = None
    distance: float | None = None
    beside: tuple[Choice, ...] = ()


def alone(place: PlaceDays, climate: ClimateDays) -> ClimateDays:
    """Return one of the places that answer, as if no other did."""
    return ClimateDays((place,), climate.how, climate.error)


def of_choice(choice: Choice) -> ClimateDays:
    """Return the days of another site that might stand for a position, with its own error."""
    return ClimateDays(
        (_of_site(choice.site.id),), "nearest", tier(choice.tier).temperature_error_k
    )


def climate_days(climate: HeatClimate) -> ClimateDays:
    """Return the days that answer for a climate."""
    if isinstance(climate, DesignDay):
        return _stated(climate)
    if isinstance(climate, DesignDayAtSite):
        year = year_of(climate.site)
        range_k = climate.daily_range * _KELVIN_PER_F
        courses = stated_day(year, si(climate.highest, "degF"), range_k)
        place = PlaceDays(
            climate.site, climate_sites()[climate.site].name, courses, year, float(year.air.min())
        )
        return ClimateDays((place,), "design_day", stated=True)
    if isinstance(climate, OwnClimate):
        return ClimateDays((_own(climate),), "own")
    if isinstance(climate, SiteClimate):
        return ClimateDays((_of_site(climate.site),))
    if isinstance(climate, PointClimate):
        return _near(climate)
    if isinstance(climate, CountyClimate):
        ids, how = sites_of_county(climate.state, climate.county), "county"
    else:
        ids, how = sites_of_zone(climate.zone), "zone"
    if not ids:
        return ClimateDays(how=how, barred="climate-unknown")
    places = tuple(_of_site(one) for one in ids)
    return ClimateDays(places, how, tier("B").temperature_error_k)


@lru_cache(maxsize=128)
def year_of(site_id: str) -> PlaceYear:
    """Return the typical year of a climate site [W/m2, K, rad, s]. Source: its data file."""
    site, year = climate_sites()[site_id], typical_year(site_id)
    return PlaceYear(
        year.ghi,
        year.dni,
        year.dhi,
        year.dry_bulb,
        radians(site.latitude_deg),
        radians(site.longitude_deg),
        site.utc_offset_h * _HOUR,
    )


@lru_cache(maxsize=4)
def _sky_of_site(site_id: str) -> Sky:
    return _sky(year_of(site_id))


def sky_of_year(place: PlaceDays) -> Sky:
    """Return sun and light through the year of a place [W/m2, rad]. Source: `sky_of_hours`."""
    if place.site is not None:
        return _sky_of_site(place.site)
    if place.year is None:
        raise ValueError("a design day has no year")
    if "sky" not in place.held:
        place.held["sky"] = _sky(place.year)
    sky: Sky = place.held["sky"]
    return sky


def _sky(year: PlaceYear) -> Sky:
    return sky_of_hours(
        year.ghi, year.dni, year.dhi, 0, year.latitude, year.longitude, year.utc_offset
    )


@lru_cache(maxsize=128)
def _of_site(site_id: str) -> PlaceDays:
    year = year_of(site_id)
    name, coldest = climate_sites()[site_id].name, float(year.air.min())
    return PlaceDays(site_id, name, courses_of_year(year), year, coldest)


def _near(point: PointClimate) -> ClimateDays:
    found = _choices(point.latitude, point.longitude, point.elevation, point.terrain)
    usable = [one for one in found if one.tier != "none"]
    if not usable or found[0].tier == "none":
        return ClimateDays(how="nearest", barred="climate-too-far")
    best = usable[0].tier
    if best == "C" and not point.accept_far:
        return ClimateDays(how="nearest", barred="climate-far")
    places = tuple(_of_site(one.site.id) for one in usable if one.tier == best)
    error = tier(best).temperature_error_k
    beside = tuple(one for one in usable if one.tier != best)
    return ClimateDays(places, "nearest", error, distance=usable[0].distance_m, beside=beside)


@lru_cache(maxsize=256)
def _choices(
    latitude: float, longitude: float, elevation: float | None, terrain: str | None
) -> list[Choice]:
    height = None if elevation is None else si(elevation, "ft")
    return choose_sites(latitude, longitude, height, terrain)


def _own(own: OwnClimate) -> PlaceDays:
    year = PlaceYear(
        np.array(own.ghi_w_m2, dtype=np.float64),
        np.array(own.dni_w_m2, dtype=np.float64),
        np.array(own.dhi_w_m2, dtype=np.float64),
        np.array(own.dry_bulb_degc, dtype=np.float64) + _ZERO_CELSIUS,
        radians(own.latitude),
        radians(own.longitude),
        own.utc_offset_hours * _HOUR,
    )
    coldest = float(year.air.min())
    return PlaceDays(None, "the caller's own year", courses_of_year(year), year, coldest)


def _stated(day: DesignDay) -> ClimateDays:
    courses = cloudless_day(
        si(day.highest, "degF"),
        day.daily_range * _KELVIN_PER_F,
        day.day_of_year,
        radians(day.latitude),
        radians(day.longitude),
        day.utc_offset_hours * _HOUR,
        day.depths.beam,
        day.depths.diffuse,
        optical_depth_exponents()[day.depths.edition],
    )
    place = PlaceDays(None, "the caller's own design day", courses, None)
    return ClimateDays((place,), "design_day", stated=True)
