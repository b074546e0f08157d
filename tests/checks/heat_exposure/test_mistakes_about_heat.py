"""What estimates of heat at a battery are known to get wrong, each put to this one."""

import numpy as np
import pytest

from service.checks.heat_exposure.clear_sky import clear_sky
from service.checks.heat_exposure.derating import power_factor
from service.checks.heat_exposure.design_day import design_dry_bulb
from service.checks.heat_exposure.exposure import (
    exposure,
    face_temperatures,
    light_reaching,
)
from service.checks.heat_exposure.face_light import clear_sky_light
from service.checks.heat_exposure.hours_over import hours_over
from service.checks.heat_exposure.lit_parts import Shades, lit_parts
from service.checks.heat_exposure.self_heating import compared_temperature, enclosure_rise
from service.checks.heat_exposure.sol_air import sol_air
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.unit_faces import FRONT, LEFT, RIGHT, TOP
from service.checks.heat_exposure.wall_sun import wall_sun
from service.published.design_day_profile import range_parts
from service.published.optical_depths import optical_depth_exponents
from service.published.sunlit_faces import absorptances, surface_coefficients
from tests.checks.heat_exposure.design_days import (
    AREAS,
    FACING,
    PLACES,
    TABLES,
    UNIT,
    ZERO,
    Floats,
    air,
    own_day,
    tabled_day,
)


def reaching(site: str, wall: str, shades: Shades | None = None) -> Floats:
    day = tabled_day(site)
    lit = lit_parts(
        wall_sun(day.zenith, day.azimuth, FACING[wall]),
        UNIT,
        Shades() if shades is None else shades,
    )
    return light_reaching(clear_sky_light(*day, FACING[wall], 0.2), lit)


def test_a_hot_face_is_not_held_against_a_rated_ambient() -> None:
    """A dark west face passes 70 degC where the unit as a whole stays 10 K below that."""
    dark = TABLES._replace(absorptance=0.9)
    light = reaching("riverside", "W")
    face = face_temperatures(air("riverside"), light, dark)[FRONT].max() - ZERO
    unit = exposure(air("riverside"), light, AREAS, dark).followed.max() - ZERO
    assert 70.0 < face < 80.0
    assert unit < face - 10.0


def test_the_units_own_heat_is_not_added_to_a_rated_ambient() -> None:
    """Counted twice it would switch off a unit that runs at half power."""
    ambient = 45.0 + ZERO
    rise = float(enclosure_rise(100.0, float(AREAS.sum()), 5.5))
    curve = (np.array([40.0, 50.0]) + ZERO, np.array([1.0, 0.0]))
    assert float(power_factor(compared_temperature(ambient, rise), *curve)) == pytest.approx(0.5)
    assert float(power_factor(ambient + rise, *curve)) == 0.0


def test_the_sun_behind_a_north_wall_does_not_heat_its_unit_at_noon() -> None:
    """Riverside: 42.3 degC lagged free-standing, 39.0 with the wall that it hangs on."""
    free = reaching("riverside", "N", Shades(host_wall=False))
    hosted = reaching("riverside", "N")
    assert free[TOP, 12] > hosted[TOP, 12] + 500.0
    found = [
        exposure(air("riverside"), light, AREAS, TABLES).followed.max() - ZERO
        for light in (free, hosted)
    ]
    assert found == pytest.approx([42.26, 38.95], abs=0.02)


def test_the_low_sun_before_a_north_wall_is_still_seen() -> None:
    """In July the sun rises and sets north of east and west."""
    light = reaching("palmdale", "N")
    assert light[FRONT, 17] > 150.0
    assert light[[LEFT, RIGHT], 17].max() > 500.0


def test_hour_24_of_the_printed_profile_is_midnight() -> None:
    """Read one row off, the day peaks an hour early and begins at the wrong part."""
    assert range_parts()[0] == 0.82
    assert range_parts()[1] == 0.88
    assert range_parts()[23] == 0.75
    day = design_dry_bulb(310.0, 10.0)
    assert day[0] == pytest.approx(301.8)
    assert np.flatnonzero(day == day.max()).tolist() == [14, 15]


def test_the_printed_parameter_of_sol_air_tables_is_no_absorptance() -> None:
    """0.15 and 0.30 h ft2 degF/Btu are absorptances of 0.45 and 0.9: misread, a face is cool."""
    right = float(sol_air(35.0, 700.0, 0.45, 17.0))
    misread = float(sol_air(35.0, 700.0, 0.15, 17.0))
    assert right - misread > 12.0
    assert absorptances()["light_grey"].value == pytest.approx(0.15 * 3.0)
    assert absorptances()["dark"].value == pytest.approx(0.30 * 3.0)


def test_one_surface_coefficient_hides_a_band() -> None:
    """Calm is hotter than windy by 5 to 8 K on a west wall at Riverside."""
    ends = [surface_coefficients()[name] for name in ("windy", "calm")]
    found = [
        exposure(
            air("riverside"),
            reaching("riverside", "W"),
            AREAS,
            TABLES._replace(coefficient=value, sky_loss=63.0),
        ).followed.max()
        for value in ends
    ]
    assert 5.0 < found[1] - found[0] < 8.0


def test_lag_draws_towards_the_hour_itself() -> None:
    """Towards the hour before, the peak of a west wall moves an hour into the evening."""
    steady = exposure(air("riverside"), reaching("riverside", "W"), AREAS, TABLES).equivalent
    assert int(np.argmax(lagged(steady, 3 * 3600.0))) == 16
    assert int(np.argmax(lagged(np.roll(steady, 1), 3 * 3600.0))) == 17


def test_the_air_at_noon_and_the_sun_at_noon_do_not_make_the_hottest_hour() -> None:
    """A west wall is hottest at three to five, when sun and warm air meet on it."""
    for site in PLACES:
        found = exposure(air(site), reaching(site, "W"), AREAS, TABLES)
        assert int(np.argmax(found.equivalent)) == 15
        assert int(np.argmax(found.followed)) in (16, 17)


def test_longitude_is_negative_in_the_west_and_clocks_keep_standard_time() -> None:
    """With the sign turned or an hour of summer time the sun would miss the table's by far."""
    ours, tabled = own_day("riverside"), tabled_day("riverside")
    up = tabled.zenith < np.radians(85.0)
    assert np.max(np.abs(ours.zenith - tabled.zenith)[up]) < np.radians(0.2)
    assert np.max(np.abs(np.roll(ours.zenith, 1) - tabled.zenith)[up]) > np.radians(10.0)


def test_an_upright_face_loses_nothing_to_the_sky() -> None:
    """3.9 K off every face, not off the top alone, would hide three kelvin of heat."""
    light = reaching("riverside", "W")
    right = exposure(air("riverside"), light, AREAS, TABLES).equivalent
    wrong = right - 3.9 * (1.0 - AREAS[TOP] / AREAS.sum())
    assert np.all(right - wrong > 3.0)
    only_top = exposure(air("riverside"), light, AREAS, TABLES._replace(sky_loss=0.0)).equivalent
    np.testing.assert_allclose(only_top - right, 3.9 * AREAS[TOP] / AREAS.sum())


def test_depths_are_read_with_the_exponents_of_their_own_edition() -> None:
    """At five in the afternoon the two editions part by 5 % of the beam."""
    place, zenith = PLACES["riverside"], np.radians(72.62)
    beams = [
        float(clear_sky(zenith, 1367.0, place.beam_depth, place.diffuse_depth, exponents)[0])
        for exponents in optical_depth_exponents().values()
    ]
    assert abs(beams[0] / beams[1] - 1.0) > 0.05


def test_hours_over_a_limit_hang_on_a_kelvin_and_are_a_range() -> None:
    """One kelvin, or an hour of lag, moves the count by an hour or two."""
    found = exposure(air("riverside"), reaching("riverside", "S"), AREAS, TABLES)
    counts = {
        int(hours_over(lagged(found.equivalent + shift, lag * 3600.0), [40.0 + ZERO])[0])
        for shift in (-1.0, 0.0, 1.0)
        for lag in (2.0, 3.0, 4.0)
    }
    assert len(counts) > 1
    assert max(counts) - min(counts) <= 4
