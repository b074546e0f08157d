"""A year on several walls at once: the same as day by day, and as hot as its own hours."""

import math

import numpy as np
import pytest
from pvlib import irradiance

from service.checks.heat_exposure.chosen_days import hottest_percentile_day, hours_of_day
from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.face_light import Sky, weather_light
from service.checks.heat_exposure.hours_over import hours_over
from service.checks.heat_exposure.lit_parts import Shades
from service.checks.heat_exposure.sky_hours import sky_of_hours
from service.checks.heat_exposure.tree_shade import beam_through, month_of_hour
from service.checks.heat_exposure.walls import OnWalls, on_walls
from service.checks.heat_exposure.year_on_walls import bright_hours, year_on_walls
from service.climate import climate_sites, typical_year
from tests.checks.heat_exposure.design_days import AREAS, UNIT, ZERO, Floats

FACINGS = np.radians([[0.0], [90.0], [180.0], [270.0]])
BAND = Finish(0.7, np.reshape([17.0, 12.0, 10.0], (3, 1, 1)), 63.0, 3 * 3600.0)
THRESHOLDS = np.array([40.0, 45.0, 50.0]) + ZERO


def sky(site_id: str, first: int, count: int) -> tuple[Sky, Floats]:
    site, year = climate_sites()[site_id], typical_year(site_id)
    hours = slice(first, first + count)
    found = sky_of_hours(
        year.ghi[hours],
        year.dni[hours],
        year.dhi[hours],
        first,
        math.radians(site.latitude_deg),
        math.radians(site.longitude_deg),
        site.utc_offset_h * 3600.0,
    )
    return found, year.dry_bulb[hours]


def exposed(
    site_id: str,
    first: int = 0,
    count: int = 8760,
    shades: Shades | None = None,
    finish: Finish = BAND,
    through: Floats | float = 1.0,
) -> OnWalls:
    weather, air = sky(site_id, first, count)
    light = weather_light(weather, FACINGS, 0.2)
    return on_walls(
        air,
        light,
        weather.zenith,
        weather.azimuth,
        FACINGS,
        UNIT,
        Shades() if shades is None else shades,
        AREAS,
        finish,
        through,
    )


def test_a_year_is_hour_by_hour_what_each_day_is_before_the_lag() -> None:
    year = exposed("riverside").exposure.equivalent
    assert year.shape == (3, 4, 8760)
    for day in (0, 58, 59, 180, 253, 364):
        alone = exposed("riverside", day * 24, 24).exposure.equivalent
        np.testing.assert_allclose(hours_of_day(year, day), alone, rtol=1e-12)


def test_the_lag_of_a_year_forgets_the_day_before_yesterday() -> None:
    """A day in the year differs from the same day repeated only by the weather before it."""
    year, day = exposed("palm_springs").exposure.followed, 176
    alone = exposed("palm_springs", day * 24, 24).exposure.followed
    evening = slice(18, 24)
    np.testing.assert_allclose(hours_of_day(year, day)[..., evening], alone[..., evening], atol=0.1)


@pytest.mark.parametrize("site_id", ["riverside", "palm_springs", "long_beach", "truckee"])
def test_calm_is_hotter_than_windy_and_shade_cooler_than_sun(site_id: str) -> None:
    """Hours over each threshold, hottest reading last."""
    plain, eaved = exposed(site_id), exposed(site_id, shades=Shades(1.0, 2.5))
    hours = hours_over(plain.exposure.followed, THRESHOLDS)
    assert np.all(np.diff(hours, axis=0) <= 0)
    assert np.all(hours[:, 0] <= hours[:, 2])
    assert np.all(eaved.exposure.followed <= plain.exposure.followed + 1e-9)
    air = typical_year(site_id).dry_bulb
    # The top loses long-wave heat by night; by day no wall is cooler than the shaded air.
    day = plain.light.max(axis=0)[0] > 200.0
    assert np.all(plain.exposure.equivalent[:, 0, day] >= air[day] - 1.0)


def test_hours_over_air_alone_are_those_of_the_weather_file() -> None:
    """Counted by a plain loop."""
    air = typical_year("palm_springs").dry_bulb
    counted = [sum(1 for value in air.tolist() if value > limit) for limit in THRESHOLDS.tolist()]
    assert hours_over(air, THRESHOLDS).tolist() == counted
    assert counted[0] > 100


def test_a_tree_of_summer_helps_in_summer_alone() -> None:
    months = month_of_hour()
    leafy = np.where(np.isin(np.arange(12), (5, 6, 7)), 0.2, 1.0)
    through = beam_through(months, np.arange(8760), leafy)
    bare, treed = exposed("riverside"), exposed("riverside", through=through)
    difference = bare.exposure.equivalent - treed.exposure.equivalent
    assert np.all(difference >= -1e-9)
    assert difference[..., np.isin(months, (5, 6, 7))].max() > 5.0
    assert difference[..., ~np.isin(months, (5, 6, 7))].max() == 0.0


def test_the_shipped_hottest_day_is_a_day_of_its_year() -> None:
    """West at Palm Springs on 26 June passes 45 degC with the lag even in wind, in a light coat."""
    year = typical_year("palm_springs")
    day = hottest_percentile_day(year.dry_bulb, year.dni)
    light_grey = BAND._replace(absorptance=0.45)
    found = exposed("palm_springs", day * 24, 24, finish=light_grey).exposure.followed
    assert float(found[0, 3].max()) - ZERO > 45.0
    assert float(found[2, 3].max()) > float(found[0, 3].max()) + 2.0


@pytest.mark.parametrize("site_id", ["palm_springs", "truckee"])
def test_a_year_of_bright_hours_alone_is_the_year_of_all_hours(site_id: str) -> None:
    """With an eave, a fence and a tree before the walls."""
    weather, air = sky(site_id, 0, 8760)
    fence = Shades(0.6, 2.6, np.full((1, 1, 1), 2.0), np.full((1, 1, 1), 1.8))
    through = beam_through(month_of_hour(), np.arange(8760), np.full(12, 0.4), 15.5, 19.0)
    all_hours = exposed(site_id, shades=fence, through=through).exposure
    found = year_on_walls(air, weather, FACINGS, 0.2, UNIT, fence, AREAS, BAND, through)
    np.testing.assert_allclose(found.equivalent, all_hours.equivalent, rtol=1e-13)
    np.testing.assert_allclose(found.followed, all_hours.followed, rtol=1e-13)


def test_the_light_outside_the_air_is_that_of_the_hours_own_day() -> None:
    """The first hour is of 1 January, the last of 31 December."""
    weather, _ = sky("riverside", 0, 8760)
    expected = irradiance.get_extra_radiation(np.repeat(np.arange(1, 366), 24), method="spencer")
    found = np.asarray(weather.extraterrestrial, dtype=np.float64)
    np.testing.assert_allclose(found, expected, rtol=1e-12)
    later, _ = sky("riverside", 4000, 30)
    np.testing.assert_array_equal(np.asarray(later.extraterrestrial), found[4000:4030])


def test_an_hour_of_any_light_is_bright() -> None:
    """Diffuse light alone, as a weather file holds at dusk, counts."""
    light = np.eye(4)[:3]
    bright, dark = bright_hours(Sky(light[0], light[1], light[2], *np.ones((3, 4))))
    assert dark.tolist() == [False, False, False, True]
    assert np.asarray(bright.dhi).tolist() == [0.0, 0.0, 1.0]
