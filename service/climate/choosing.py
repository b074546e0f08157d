"""Which climate site stands for a place."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.climate.sites import ClimateSite, climate_sites
from service.climate.tiers import tiers

EARTH_RADIUS: Final = 6_371_000.0
#: What a metre of elevation and another class of terrain weigh against distance: 100 m of
#: elevation like 10 km, another class like 40 km. Standing: derived, from the errors of pairs of
#: stations; our own.
_PER_ELEVATION: Final = 100.0
_OTHER_CLASS: Final = 40_000.0
NO_TIER: Final = "none"


@dataclass(frozen=True, slots=True)
class Choice:
    """A site that may stand for a place.

    Attributes
    ----------
    distance_m : float
        [m].
    elevation_difference_m : float or None
        [m]; None where the place's elevation is not known.
    same_class : bool or None
        Whether the terrain is of the same class; None where that is not known.
    score : float
        What the sites are ordered by, as a distance [m].
    tier : str
        A, B, C or none.
    """

    site: ClimateSite
    distance_m: float
    elevation_difference_m: float | None
    same_class: bool | None
    score: float
    tier: str


def distances(latitude_deg: float, longitude_deg: float) -> NDArray[np.float64]:
    """Return the distance of a place to every climate site, shape (sites,) [m].

    Parameters
    ----------
    latitude_deg, longitude_deg : float
        [deg].

    Notes
    -----
    Haversine on a sphere of radius 6,371 km. Source: spherical trigonometry.
    """
    sites = climate_sites().values()
    there = np.radians([[site.latitude_deg, site.longitude_deg] for site in sites])
    here = np.radians([latitude_deg, longitude_deg])
    half = np.sin(0.5 * (there - here)) ** 2
    chord = half[:, 0] + np.cos(here[0]) * np.cos(there[:, 0]) * half[:, 1]
    return np.asarray(2.0 * EARTH_RADIUS * np.arcsin(np.sqrt(np.clip(chord, 0.0, 1.0))))


def _tier(distance: float, rise: float | None, same: bool | None) -> str:
    for one in tiers():
        if one.same_class and (same is not True or rise is None):
            continue
        level = rise is None or rise <= one.most_elevation_difference_m
        if distance <= one.most_distance_m and level:
            return one.id
    return NO_TIER


def choose_sites(
    latitude_deg: float,
    longitude_deg: float,
    elevation_m: float | None = None,
    terrain: str | None = None,
    most: int = 3,
) -> list[Choice]:
    """Return the sites that stand best for a place, the best first.

    Parameters
    ----------
    latitude_deg, longitude_deg : float
        [deg].
    elevation_m : float, optional
        [m]; without it elevation does not count, and the tier is B at best.
    terrain : str, optional
        Class of terrain; without it the class does not count, and the tier is B at best.
    most : int
        How many are returned at most.

    Notes
    -----
    Least sum of distance, a hundred times the difference in elevation, and 40 km where the class
    of terrain differs; ties by id. Source: derived, table climate_tiers.
    """
    found = []
    for site, distance in zip(
        climate_sites().values(), distances(latitude_deg, longitude_deg).tolist(), strict=True
    ):
        rise = None if elevation_m is None else abs(elevation_m - site.elevation_m)
        same = None if terrain is None else terrain == site.terrain_class
        score = distance + _PER_ELEVATION * (rise or 0.0) + (_OTHER_CLASS if same is False else 0.0)
        found.append(Choice(site, distance, rise, same, score, _tier(distance, rise, same)))
    return sorted(found, key=lambda choice: (choice.score, choice.site.id))[:most]
