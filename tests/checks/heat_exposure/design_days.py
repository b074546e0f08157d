"""Design days of six places, and the unit of the reference tables."""

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.clear_day import ClearDay, clear_day
from service.checks.heat_exposure.design_day import design_dry_bulb
from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.lit_parts import Mounting
from service.checks.heat_exposure.unit_faces import face_areas
from service.published.optical_depths import optical_depth_exponents

Floats = NDArray[np.float64]

REFERENCE = Path(__file__).parents[2] / "reference"
ZERO = 273.15
INCH = 0.0254
OFFSET = -8 * 3600.0
FACING = {"N": 0.0, "E": 0.5 * np.pi, "S": np.pi, "W": 1.5 * np.pi}

AREAS = face_areas(26 * INCH, 40 * INCH, 10 * INCH)
UNIT = Mounting(1 * INCH, 10 * INCH, 18 * INCH, 40 * INCH)
#: The top loses 3.9 K at 17 W/(m2 K), as the tables have it: 7 degF.
TABLES = Finish(0.45, 17.0, 3.9 * 17.0, 3 * 3600.0)


class Place(NamedTuple):
    """Position [deg], highest temperature [degC], range [K], optical depths [1], day [d]."""

    latitude: float
    longitude: float
    highest: float
    daily_range: float
    beam_depth: float
    diffuse_depth: float
    day: int


# Source: California design-day files of 2010, annual 0.4 % dry bulb, as an open building-energy
# program ships them (published); 233 is 21 August, 202 is 21 July.
PLACES = {
    "san_diego": Place(32.73, -117.17, 28.3, 4.1, 0.426, 2.214, 233),
    "lax": Place(33.93, -118.40, 28.8, 4.7, 0.446, 2.091, 233),
    "burbank": Place(34.20, -118.35, 36.1, 12.4, 0.436, 2.104, 233),
    "riverside": Place(33.95, -117.43, 37.3, 15.4, 0.448, 2.037, 233),
    "palmdale": Place(34.63, -118.08, 39.0, 16.2, 0.434, 2.033, 202),
    "palm_springs": Place(33.83, -116.50, 44.0, 13.7, 0.485, 1.942, 202),
}


def rows(name: str) -> Iterator[dict[str, str]]:
    """Yield the rows of a reference table."""
    with (REFERENCE / f"{name}.csv").open(encoding="utf-8") as file:
        yield from csv.DictReader(line for line in file if not line.startswith("#"))


@cache
def tabled() -> dict[str, dict[str, Floats]]:
    """Return the columns of the reference irradiances, 24 hours of each site."""
    found: dict[str, dict[str, list[float]]] = {}
    for row in rows("vertical_irradiance"):
        columns = found.setdefault(row.pop("site"), {name: [] for name in row})
        for name, value in row.items():
            columns.setdefault(name, []).append(float(value))
    return {site: {k: np.array(v) for k, v in columns.items()} for site, columns in found.items()}


def tabled_day(site: str) -> ClearDay:
    """Return sun and light of a site as the reference table has them."""
    hours = tabled()[site]
    zenith, azimuth = np.radians(hours["zenith"]), np.radians(hours["azimuth"])
    return ClearDay(hours["Eb_tau09"], hours["Ed_tau09"], zenith, azimuth)


def own_day(site: str, edition: str = "ashrae_2009") -> ClearDay:
    """Return sun and light of a site as the service works them out."""
    place = PLACES[site]
    north, east = np.radians([place.latitude, place.longitude])
    depths = (place.beam_depth, place.diffuse_depth)
    exponents = optical_depth_exponents()[edition]
    return clear_day(place.day, north, east, OFFSET, *depths, exponents)


def air(site: str) -> Floats:
    """Return the air temperature on the hours of a site's design day [K]."""
    place = PLACES[site]
    return design_dry_bulb(place.highest + ZERO, place.daily_range)
