"""Light on a tilted plane agrees with pvlib and with what geometry demands."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from pvlib import irradiance

from service.physics.irradiance_on_plane import extraterrestrial_normal, plane_of_array

Floats = NDArray[np.float64]

RIGHT = 0.5 * np.pi
# Tilt and azimuth faced [deg].
PLANES = [(0, 180), (20, 180), (35, 90), (35, 270), (60, 0), (90, 180), (90, 45)]


def hours(seed: int, least: float, most: float) -> dict[str, Floats]:
    """Draw 2000 hours whose sun is between two zenith angles [deg]."""
    draw = np.random.default_rng(seed)
    zenith = np.radians(draw.uniform(least, most, 2000))
    dni, dhi = (
        draw.choice([0.0, 1.0], 2000) * draw.uniform(0, 1100, 2000),
        draw.uniform(0, 400, 2000),
    )
    return {
        "ghi": dhi + dni * np.maximum(np.cos(zenith), 0.0),
        "dni": dni,
        "dhi": dhi,
        "zenith": zenith,
        "azimuth": draw.uniform(0, 2 * np.pi, 2000),
        "extraterrestrial": extraterrestrial_normal(draw.integers(1, 366, 2000)),
    }


def by_pvlib(sky: dict[str, Floats], tilt: float, facing: float, albedo: float) -> Floats:
    """Return what pvlib's Hay-Davies model gives a plane [deg], its four parts added up."""
    zenith, azimuth = np.degrees(sky["zenith"]), np.degrees(sky["azimuth"])
    found = irradiance.get_total_irradiance(
        tilt,
        facing,
        zenith,
        azimuth,
        sky["dni"],
        sky["ghi"],
        sky["dhi"],
        dni_extra=sky["extraterrestrial"],
        albedo=albedo,
        model="haydavies",
    )
    return np.asarray(found["poa_global"])


@pytest.mark.parametrize("tilt, facing", PLANES)
@pytest.mark.parametrize("least, most", [(0.0, 90.0), (85.0, 90.0)], ids=["day", "low sun"])
def test_light_of_every_hour_is_what_pvlib_says(
    tilt: float, facing: float, least: float, most: float
) -> None:
    """With the same sun the Hay-Davies models agree to 1e-6, down to a sun on the horizon."""
    sky = hours(11, least, most)
    found = plane_of_array(**sky, tilt=np.radians(tilt), facing=np.radians(facing), albedo=0.2)
    np.testing.assert_allclose(found, by_pvlib(sky, tilt, facing, 0.2), rtol=1e-6, atol=1e-9)


def test_a_beam_stronger_than_outside_the_atmosphere_leaves_no_even_light() -> None:
    """Weather files hold such hours at sunrise; pvlib, too, takes no light away for them."""
    sky = hours(18, 0.0, 90.0)
    sky["dni"] = 1.5 * sky["dni"]
    assert np.any(sky["dni"] > sky["extraterrestrial"])
    found = plane_of_array(**sky, tilt=0.5, facing=2.0, albedo=0.2)
    expected = by_pvlib(sky, np.degrees(0.5), np.degrees(2.0), 0.2)
    np.testing.assert_allclose(found, expected, rtol=1e-6, atol=1e-9)


def test_night_is_what_pvlib_says_where_there_is_no_beam() -> None:
    """Diffuse light that a weather file holds with the sun down comes evenly from the sky."""
    sky = hours(12, 90.001, 180.0)
    sky["dni"] = np.zeros(2000)
    found = plane_of_array(**sky, tilt=0.5, facing=np.pi, albedo=0.2)
    expected = by_pvlib(sky, np.degrees(0.5), 180.0, 0.2)
    np.testing.assert_allclose(found, expected, rtol=1e-6, atol=1e-9)


def test_a_sun_below_the_horizon_gives_no_beam() -> None:
    """The beam of an hour whose middle is before sunrise reaches no plane."""
    sky = hours(13, 90.001, 120.0)
    dark = dict(sky, dni=np.zeros(2000))
    facing = sky["azimuth"]
    with_beam = plane_of_array(**sky, tilt=RIGHT, facing=facing, albedo=0.2)
    np.testing.assert_array_equal(
        with_beam, plane_of_array(**dark, tilt=RIGHT, facing=facing, albedo=0.2)
    )


def test_a_level_plane_gets_the_global_horizontal_irradiance() -> None:
    """Beam and diffuse add up to the global irradiance while the sun is a degree up or more."""
    sky = hours(14, 0.0, 88.9)
    found = plane_of_array(**sky, tilt=0.0, facing=1.0, albedo=0.7)
    np.testing.assert_allclose(found, sky["ghi"], rtol=1e-12)


def test_a_wall_that_faces_away_from_the_sun_gets_no_beam() -> None:
    """It sees half of the sky's even light and half of the ground's."""
    sky = hours(15, 1.0, 90.0)
    found = plane_of_array(**sky, tilt=RIGHT, facing=sky["azimuth"] + np.pi, albedo=0.2)
    even = sky["dhi"] * (1.0 - sky["dni"] / sky["extraterrestrial"])
    np.testing.assert_allclose(found, 0.5 * even + 0.1 * sky["ghi"], rtol=1e-9, atol=1e-12)


def test_a_plane_square_to_the_sun_gets_all_of_the_beam() -> None:
    """Without diffuse light and with a black ground only the beam is left."""
    sky = dict(hours(16, 0.0, 90.0), dhi=np.zeros(2000))
    found = plane_of_array(**sky, tilt=sky["zenith"], facing=sky["azimuth"], albedo=0.0)
    np.testing.assert_allclose(found, sky["dni"], rtol=1e-12)


def test_light_from_about_the_sun_stops_growing_a_degree_above_the_horizon() -> None:
    """The quotient of the projections divides by no less than 0.01745."""
    # By hand: index 137 / 1370 = 0.1; 137 + 50 x 0.1 / 0.01745 + 50 x 0.9 / 2 = 446.0 W/m2.
    found = plane_of_array(
        ghi=0.0,
        dni=137.0,
        dhi=50.0,
        zenith=np.radians(90.0),
        azimuth=1.0,
        tilt=RIGHT,
        facing=1.0,
        extraterrestrial=1370.0,
        albedo=0.0,
    )
    assert found == pytest.approx(446.03, abs=0.01)


def test_many_planes_at_once_get_what_each_gets_alone() -> None:
    """Planes in rows, hours in columns."""
    sky = hours(17, 0.0, 120.0)
    tilt, facing = (np.radians(column)[:, None] for column in np.array(PLANES, dtype=float).T)
    together = plane_of_array(**sky, tilt=tilt, facing=facing, albedo=0.2)
    assert together.shape == (len(PLANES), 2000)
    for row, (one_tilt, one_facing) in enumerate(zip(tilt[:, 0], facing[:, 0], strict=True)):
        alone = plane_of_array(**sky, tilt=one_tilt, facing=one_facing, albedo=0.2)
        np.testing.assert_array_equal(together[row], alone)


@given(
    dni=st.floats(0.0, 2000.0),
    dhi=st.floats(0.0, 800.0),
    ghi=st.floats(0.0, 1400.0),
    zenith=st.floats(0.0, np.pi),
    azimuth=st.floats(0.0, 2 * np.pi),
    tilt=st.floats(0.0, RIGHT),
    facing=st.floats(0.0, 2 * np.pi),
)
def test_light_is_finite_and_never_negative(
    dni: float, dhi: float, ghi: float, zenith: float, azimuth: float, tilt: float, facing: float
) -> None:
    """Even where a weather file holds more beam than there is outside the atmosphere."""
    found = plane_of_array(ghi, dni, dhi, zenith, azimuth, tilt, facing, 1370.0, 0.2)
    assert np.isfinite(found)
    assert found >= 0.0


def test_light_outside_the_atmosphere_is_what_pvlib_says() -> None:
    """Spencer's series, every day of the year."""
    day = np.arange(1, 366)
    expected = irradiance.get_extra_radiation(day, method="spencer")
    np.testing.assert_allclose(extraterrestrial_normal(day), expected, rtol=1e-12)


def test_light_outside_the_atmosphere_follows_the_distance_of_the_sun() -> None:
    """Strongest in the first days of January and weakest in the first days of July."""
    year = extraterrestrial_normal(np.arange(1, 366))
    # Source: the orbit's eccentricity 0.0167 (The Astronomical Almanac, from memory, not
    # verified) makes the extremes stand as ((1 + e) / (1 - e))^2 = 1.0691. The short series is
    # 0.08 % off at either end.
    assert year.max() / year.min() == pytest.approx(1.0691, abs=0.002)
    assert int(np.argmax(year)) + 1 in range(1, 8)
    assert int(np.argmin(year)) + 1 in range(182, 190)
