"""The sun stands where the solar position algorithm and the sky's symmetries put it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from pvlib import spa

from service.physics.sun_position import azimuth_towards, sun_position

Floats = NDArray[np.float64]

QUARTERS = np.arange(0.0, 8760.0, 0.25)
# Place, latitude [deg], longitude [deg], local standard time less universal time [h].
PLACES = [
    ("Los Angeles", 33.93, -118.40, -8),
    ("Chicago", 41.98, -87.92, -6),
    ("Honolulu, in the tropics", 21.32, -157.93, -10),
    ("the equator", 0.0, -78.50, -5),
    ("Sydney, in the south", -33.87, 151.20, 10),
    ("north of the polar circle", 78.20, 15.60, 1),
    ("south of the polar circle", -77.85, 166.67, 12),
    ("the North Pole", 90.0, 0.0, 0),
]
# Year, hours by which it goes on from 28 February to 1 March over a 29th.
YEARS = [(2023, 0), (2024, 24), (1990, 0), (2000, 24)]


def ours(
    hour: Floats, latitude: float, longitude: float, offset: float, year: int = 2023
) -> tuple[Floats, Floats]:
    """Return zenith and azimuth [deg] of a place given in degrees and hours."""
    north, east = np.radians([latitude, longitude])
    zenith, azimuth = sun_position(hour, north, east, offset * 3600.0, year)
    return np.degrees(zenith), np.degrees(azimuth)


def reference(
    latitude: float, longitude: float, offset: float, year: int, skipped: int
) -> tuple[Floats, Floats]:
    """Return true zenith and azimuth [deg] of the solar position algorithm, every quarter."""
    hour = QUARTERS + np.where(QUARTERS >= 59 * 24, skipped, 0)
    start = np.datetime64(f"{year}-01-01", "s").astype(np.float64)
    clock = start + (hour - offset) * 3600.0
    found = spa.solar_position(clock, latitude, longitude, 0, 1013.25, 12.0, 69.0, 0.5667)
    return found[1], found[4]


def apart(first: Floats, second: Floats) -> Floats:
    """Return how far two azimuths are apart [deg], around the circle."""
    return np.abs((first - second + 180.0) % 360.0 - 180.0)


@pytest.mark.parametrize("year, skipped", YEARS)
@pytest.mark.parametrize("place, latitude, longitude, offset", PLACES, ids=[p[0] for p in PLACES])
def test_the_sun_stands_where_the_solar_position_algorithm_has_it(
    place: str, latitude: float, longitude: float, offset: float, year: int, skipped: int
) -> None:
    """All year within 0.02 deg in elevation, and in azimuth within 0.03 deg.

    The azimuth turns faster than any clock where the sun passes overhead, so within 20 deg of the
    zenith the distance on the sky is held instead: 0.02 deg, there and everywhere.
    """
    zenith, azimuth = ours(QUARTERS, latitude, longitude, offset, year)
    true_zenith, true_azimuth = reference(latitude, longitude, offset, year, skipped)
    assert np.max(np.abs(zenith - true_zenith)) < 0.02
    off = apart(azimuth, true_azimuth)
    assert np.max(off * np.sin(np.radians(true_zenith))) < 0.02
    assert np.max(off[(true_zenith > 20.0) & (true_zenith < 85.0)]) < 0.03


@pytest.mark.parametrize("latitude, bright", [(78.2, 172), (-77.85, 355), (90.0, 172)])
def test_polar_day_and_polar_night_last_around_the_clock(latitude: float, bright: int) -> None:
    """Near the pole the sun stays up all midsummer day and down all midwinter day."""
    hours = np.arange(0.0, 24.0, 0.25)
    dark = (bright + 182) % 365
    assert np.all(ours(bright * 24 + hours, latitude, 15.6, 1)[0] < 80.0)
    assert np.all(ours(dark * 24 + hours, latitude, 15.6, 1)[0] > 100.0)


@pytest.mark.parametrize("latitude", [10.0, 25.0, 40.0, 60.0, -10.0, -25.0, -40.0, -60.0])
def test_at_an_equinox_the_noon_sun_is_as_far_from_the_zenith_as_the_place_from_the_equator(
    latitude: float,
) -> None:
    """On 20 March 2023 at 21:24 universal time the declination is zero."""
    # The sun culminates at that very moment where it is 12:07:28 by mean local time: the sun is
    # 7 min 28 s behind the clock on that day. Source: March equinox of 2023 at 21:24 (from memory,
    # not verified).
    hour = np.linspace(78 * 24 + 20.0, 78 * 24 + 23.0, 721)
    zenith, _ = ours(hour, latitude, -139.13, 0)
    noon = int(np.argmin(zenith))
    assert abs(hour[noon] - (78 * 24 + 21.4)) < 0.05
    assert zenith[noon] == pytest.approx(abs(latitude), abs=0.02)


@pytest.mark.parametrize(
    "latitude, azimuth", [(33.93, 180.0), (60.0, 180.0), (-33.87, 0.0), (-60.0, 0.0)]
)
def test_the_noon_sun_stands_south_in_the_north_and_north_in_the_south(
    latitude: float, azimuth: float
) -> None:
    """Every day of the year outside the tropics, at the day's highest sun."""
    hours = np.arange(365.0)[:, None] * 24.0 + np.linspace(11.5, 12.5, 1201)
    zenith, found = ours(hours, latitude, 0.0, 0)
    noon = np.argmin(zenith, axis=1)
    assert np.max(apart(found[np.arange(365), noon], np.full(365, azimuth))) < 0.5


def test_the_morning_sun_stands_in_the_east_and_the_evening_sun_in_the_west() -> None:
    """Azimuth counts clockwise from north."""
    days = np.arange(365.0) * 24.0
    assert np.all(ours(days + 8.5, 33.93, 0.0, 0)[1] < 180.0)
    assert np.all(ours(days + 15.5, 33.93, 0.0, 0)[1] > 180.0)


# East, north, azimuth [deg].
DIRECTIONS = [
    (0.0, 1.0, 0.0),
    (1.0, 1.0, 45.0),
    (1.0, 0.0, 90.0),
    (0.0, -1.0, 180.0),
    (-1.0, 0.0, 270.0),
    (-1e-18, 1.0, 0.0),
    (0.0, 0.0, 0.0),
]


@pytest.mark.parametrize("east, north, azimuth", DIRECTIONS)
def test_an_azimuth_counts_clockwise_and_never_reaches_the_full_turn(
    east: float, north: float, azimuth: float
) -> None:
    """A hair west of north is north, not a whole turn."""
    assert np.degrees(azimuth_towards(east, north)) == pytest.approx(azimuth, abs=1e-12)


def test_the_axis_of_the_earth_leans_by_its_obliquity() -> None:
    """The highest and the lowest noon of the year are 2 x 23.44 deg apart."""
    # Source: obliquity of the ecliptic in 2023, 23.436 deg, as in The Astronomical Almanac
    # (from memory, not verified).
    hours = np.arange(365.0)[:, None] * 24.0 + np.linspace(11.5, 12.5, 121)
    noons = ours(hours, 45.0, 0.0, 0)[0].min(axis=1)
    assert noons.max() - noons.min() == pytest.approx(2 * 23.436, abs=0.02)


@given(
    hour=st.floats(0.0, 8760.0),
    latitude=st.floats(-90.0, 90.0),
    longitude=st.floats(-180.0, 180.0),
    offset=st.integers(-12, 14),
)
def test_every_place_and_hour_has_a_sun_within_its_bounds(
    hour: float, latitude: float, longitude: float, offset: int
) -> None:
    """Zenith in [0, 180] deg, azimuth in [0, 360) deg, both finite."""
    north, east = np.radians([latitude, longitude])
    zenith, azimuth = sun_position(np.array([hour]), north, east, offset * 3600.0)
    assert 0.0 <= zenith[0] <= np.pi
    assert 0.0 <= azimuth[0] < 2.0 * np.pi
