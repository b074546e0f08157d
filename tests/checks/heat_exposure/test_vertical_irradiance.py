"""Light on upright faces, hour by hour at six places, against tables and against pvlib."""

import math

import numpy as np
import pytest
from pvlib import irradiance, spa

from service.checks.heat_exposure.clear_sky import clear_sky
from service.checks.heat_exposure.face_light import FaceLight, Sky, clear_sky_light, weather_light
from service.checks.heat_exposure.sky_hours import sky_of_hours
from service.checks.heat_exposure.unit_faces import FRONT, LEFT, RIGHT, TOP
from service.climate import climate_sites, typical_year
from service.published.optical_depths import optical_depth_exponents
from tests.checks.heat_exposure.design_days import (
    FACING,
    PLACES,
    ZERO,
    Floats,
    air,
    own_day,
    tabled,
)

EACH = pytest.mark.parametrize("site", PLACES)
WALL = pytest.mark.parametrize("wall", FACING)
EDITION = pytest.mark.parametrize("edition, suffix", [("ashrae_2009", "09"), ("ashrae_2013", "13")])


def front(light: FaceLight) -> Floats:
    return np.asarray(light.directed[FRONT] + light.scattered[FRONT])


def outside(site: str) -> float:
    return 1367.0 * (1.0 + 0.033 * math.cos(2.0 * math.pi * (PLACES[site].day - 3) / 365.0))


@EACH
@WALL
@EDITION
def test_cloudless_light_is_the_tables_at_the_tables_sun(
    site: str, wall: str, edition: str, suffix: str
) -> None:
    """Within 0.3 W/m2 an hour: the table prints the sun to 0.001 deg."""
    hours, place = tabled()[site], PLACES[site]
    zenith, azimuth = np.radians(hours["zenith"]), np.radians(hours["azimuth"])
    exponents = optical_depth_exponents()[edition]
    beam, diffuse = clear_sky(
        zenith, outside(site), place.beam_depth, place.diffuse_depth, exponents
    )
    if suffix == "09":
        np.testing.assert_allclose(beam, hours["Eb_tau09"], atol=0.2)
        np.testing.assert_allclose(diffuse, hours["Ed_tau09"], atol=0.2)
    light = clear_sky_light(beam, diffuse, zenith, azimuth, FACING[wall], 0.2)
    np.testing.assert_allclose(front(light), hours[f"{wall}_tau{suffix}"], atol=0.3)


@EACH
@WALL
@EDITION
def test_cloudless_light_with_our_own_sun_is_the_tables_within_two_percent(
    site: str, wall: str, edition: str, suffix: str
) -> None:
    """Of the highest value of the day; the sun is that of another year."""
    expected = tabled()[site][f"{wall}_tau{suffix}"]
    found = front(clear_sky_light(*own_day(site, edition), FACING[wall], 0.2))
    assert np.max(np.abs(found - expected)) < 0.02 * expected.max()
    assert found.sum() == pytest.approx(expected.sum(), rel=0.01)


@EACH
@WALL
def test_an_even_sky_gives_what_pvlib_gave_for_its_own_cloudless_light(
    site: str, wall: str
) -> None:
    """The table's zenith is the true one, its light that of a refracted sun: 2 % of the peak."""
    hours = tabled()[site]
    zenith, azimuth = np.radians(hours["zenith"]), np.radians(hours["azimuth"])
    ghi, dni, dhi = (hours[f"{name}_ineichen"] for name in ("ghi", "dni", "dhi"))
    sky = Sky(ghi, dni, dhi, zenith, azimuth, np.inf)
    found, expected = front(weather_light(sky, FACING[wall], 0.2)), hours[wall]
    assert np.max(np.abs(found - expected)) < 0.005 * expected.max()


@EACH
def test_the_design_days_air_is_the_tables(site: str) -> None:
    """Hour 24 of the printed profile is midnight; one row off would show everywhere."""
    found = air(site) - ZERO
    np.testing.assert_allclose(found, tabled()[site]["tdb"], atol=0.006)
    assert int(np.argmax(found)) in (14, 15)
    assert int(np.argmin(found)) == 5


@pytest.mark.parametrize("site_id", ["riverside", "palm_springs", "los_angeles_coast", "truckee"])
@WALL
def test_a_typical_years_light_on_every_face_is_what_pvlib_says(site_id: str, wall: str) -> None:
    """With pvlib's own sun: 0.3 % of the year's sum on each face, 10 W/m2 in the worst hour."""
    site, year = climate_sites()[site_id], typical_year(site_id)
    sky = sky_of_hours(
        year.ghi,
        year.dni,
        year.dhi,
        0,
        math.radians(site.latitude_deg),
        math.radians(site.longitude_deg),
        site.utc_offset_h * 3600.0,
    )
    found = weather_light(sky, FACING[wall], 0.2)
    start = np.datetime64("2023-01-01", "s").astype(np.float64)
    clock = start + (np.arange(8760) + 0.5 - site.utc_offset_h) * 3600.0
    sun = spa.solar_position(
        clock, site.latitude_deg, site.longitude_deg, 0, 1013.25, 12.0, 69.0, 0.5667
    )
    extra = irradiance.get_extra_radiation(np.arange(8760) // 24 + 1, method="spencer")
    turned = np.degrees(FACING[wall])
    faces = {FRONT: (90, turned), LEFT: (90, turned + 90), RIGHT: (90, turned - 90), TOP: (0, 180)}
    for face, (tilt, azimuth) in faces.items():
        expected = irradiance.get_total_irradiance(
            tilt,
            azimuth % 360,
            sun[1],
            sun[4],
            np.where(sun[1] <= 90.0, year.dni, 0.0),
            year.ghi,
            year.dhi,
            dni_extra=extra,
            albedo=0.2,
            model="haydavies",
        )["poa_global"]
        ours = found.directed[face] + found.scattered[face]
        assert ours.sum() == pytest.approx(expected.sum(), rel=0.003)
        assert np.max(np.abs(ours - expected)) < 10.0
