"""Which typical years answer for a home, and what stands in the way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import radians

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.year_facts import Answering, Weather
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
    Climate,
    CountyClimate,
    OwnClimate,
    PointClimate,
    SiteClimate,
    ZoneClimate,
)
from service.published.outage_defaults import outage_defaults
from service.quantities.units import si

_HOUR = 3600.0
_ZERO_CELSIUS = 273.15
#: How a site came to answer where no distance says so.
NAMED, OF_COUNTY, OF_ZONE, OWN = "named", "county", "zone", "own"


@dataclass(frozen=True, slots=True)
class ClimateChoice:
    """The typical years that answer, those shown beside them, and the rule that bars an answer."""

    answering: tuple[Answering, ...] = ()
    beside: tuple[Answering, ...] = ()
    barred: str | None = None


@lru_cache(maxsize=128)
def weather_of(site_id: str) -> Weather:
    """Return the typical year of a climate site [W/m2, K, rad, s]. Source: the site's data file."""
    site, year = climate_sites()[site_id], typical_year(site_id)
    return Weather(
        site_id,
        site.name,
        year.ghi,
        year.dni,
        year.dhi,
        year.dry_bulb,
        radians(site.latitude_deg),
        radians(site.longitude_deg),
        site.utc_offset_h * _HOUR,
    )


def _yields(error: float) -> tuple[float, float]:
    """Return the range of the year's sun: the data's own, widened by the site's distance."""
    defaults = outage_defaults()
    low, high = (defaults[f"typical_year_{end}"].value for end in ("low", "high"))
    return low * (1.0 - error), high * (1.0 + error)


def _of_site(site_id: str, how: str) -> Answering:
    """Return a site that was named, or that stands for a county or zone as if it were near."""
    error = tier("B") if how in (OF_COUNTY, OF_ZONE) else None
    return Answering(
        weather_of(site_id),
        how,
        yields=_yields(0.0 if error is None else error.yield_error),
        temperature_error=None if error is None else error.temperature_error_k,
    )


def _of_choice(choice: Choice) -> Answering:
    error = tier(choice.tier)
    return Answering(
        weather_of(choice.site.id),
        choice.tier,
        choice.distance_m,
        choice.elevation_difference_m,
        _yields(error.yield_error),
        error.temperature_error_k,
    )


def _of_point(point: PointClimate) -> ClimateChoice:
    return _near(point.latitude, point.longitude, point.elevation, point.terrain, point.accept_far)


@lru_cache(maxsize=256)
def _near(
    latitude: float,
    longitude: float,
    elevation: float | None,
    terrain: str | None,
    accept_far: bool,
) -> ClimateChoice:
    """Return the sites that stand for a position; the reruns of one home ask a thousand times."""
    height = None if elevation is None else si(elevation, "ft")
    found = choose_sites(latitude, longitude, height, terrain)
    usable = [_of_choice(choice) for choice in found if choice.tier != "none"]
    if not usable or found[0].tier == "none":
        return ClimateChoice(barred="climate-too-far")
    if usable[0].tier == "C" and not accept_far:
        return ClimateChoice(beside=tuple(usable), barred="climate-far")
    best = usable[0].tier
    return ClimateChoice(
        answering=tuple(one for one in usable if one.tier == best),
        beside=tuple(one for one in usable if one.tier != best),
    )


def _own(own: OwnClimate) -> ClimateChoice:
    weather = Weather(
        "own_year",
        "the caller's own year",
        np.array(own.ghi_w_m2),
        np.array(own.dni_w_m2),
        np.array(own.dhi_w_m2),
        np.array(own.dry_bulb_degc) + _ZERO_CELSIUS,
        radians(own.latitude),
        radians(own.longitude),
        own.utc_offset_hours * _HOUR,
    )
    return ClimateChoice(answering=(Answering(weather, OWN),))


@lru_cache(maxsize=128)
def hardest(ids: tuple[str, ...]) -> tuple[str, ...]:
    """Return some sites, those first that ask most of a home in one respect or another.

    Parameters
    ----------
    ids : tuple of str
        Climate sites.

    Notes
    -----
    The least sun in a day, in three days in a row and in the year [W/m2], the hottest and the
    coldest hour [K]. All are run, in this order: one that fails ends the search for a verdict.
    Source: own choice.
    """

    def days(site_id: str) -> NDArray[np.float64]:
        return np.asarray(weather_of(site_id).ghi.reshape(-1, 24).mean(axis=1))

    measures: tuple[Callable[[str], float], ...] = (
        lambda one: float(days(one).min()),
        lambda one: float((days(one) + np.roll(days(one), 1) + np.roll(days(one), 2)).min()),
        lambda one: float(days(one).mean()),
        lambda one: -float(weather_of(one).dry_bulb.max()),
        lambda one: float(weather_of(one).dry_bulb.min()),
    )
    found = {min(ids, key=measure) for measure in measures}
    return tuple(sorted(ids, key=lambda one: one not in found))


def choose_climate(climate: Climate | None) -> ClimateChoice:
    """Return which typical years answer.

    Notes
    -----
    Of a place: the best site, with others of the same tier; of a county or zone: all of its
    sites. A site of tier C needs consent; beyond 200 km there is none. Source:
    own choice, common practice.
    """
    if climate is None:
        return ClimateChoice(barred="climate-unknown")
    if isinstance(climate, PointClimate):
        return _of_point(climate)
    if isinstance(climate, OwnClimate):
        return _own(climate)
    if isinstance(climate, SiteClimate):
        return ClimateChoice(answering=(_of_site(climate.site, NAMED),))
    if isinstance(climate, CountyClimate):
        ids, how = sites_of_county(climate.state, climate.county), OF_COUNTY
    else:
        ids, how = sites_of_zone(climate.zone), OF_ZONE
    if not ids:
        return ClimateChoice(barred="climate-unknown")
    return ClimateChoice(answering=tuple(_of_site(site_id, how) for site_id in hardest(ids)))


__all__ = ["ClimateChoice", "ZoneClimate", "choose_climate", "weather_of"]
