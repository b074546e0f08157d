"""Walls in order of heat, and what shade and a lighter colour take off."""

import numpy as np
import pytest
from numpy.typing import ArrayLike

from service.checks.heat_exposure.exposure import Finish, exposure, light_reaching
from service.checks.heat_exposure.face_light import FaceLight, clear_sky_light
from service.checks.heat_exposure.lit_parts import Shades, lit_parts
from service.checks.heat_exposure.remedies import (
    AS_IT_IS,
    LIGHTER,
    SHADED,
    SHADED_AND_LIGHTER,
    with_remedies,
)
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.wall_ranking import rank_walls
from service.checks.heat_exposure.wall_sun import wall_sun
from tests.checks.heat_exposure.design_days import (
    AREAS,
    PLACES,
    TABLES,
    UNIT,
    ZERO,
    Floats,
    air,
    tabled_day,
)

FACINGS = np.radians([[0.0], [90.0], [180.0], [270.0]])
NORTH, EAST, SOUTH, WEST = range(4)


def followed(site: str) -> Floats:
    """Return the lagged temperatures on north, east, south and west walls [K]."""
    day = tabled_day(site)
    light = clear_sky_light(*day, FACINGS, 0.2)
    lit = lit_parts(wall_sun(day.zenith, day.azimuth, FACINGS), UNIT, Shades())
    return exposure(air(site), light_reaching(light, lit), AREAS, TABLES).followed


@pytest.mark.parametrize("site", PLACES)
def test_north_and_east_are_cool_walls_and_west_is_the_hottest(site: str) -> None:
    """On the hot days of southern California; the morning sun of an east wall meets cool air."""
    ranking = rank_walls(followed(site).max(axis=-1))
    assert set(ranking.order[:2].tolist()) == {NORTH, EAST}
    assert ranking.order[2:].tolist() == [SOUTH, WEST]
    assert bool(ranking.alike[NORTH])
    assert not ranking.alike[[SOUTH, WEST]].any()


@pytest.mark.parametrize("site", ["san_diego", "lax", "burbank", "riverside"])
def test_in_late_summer_north_is_the_coolest(site: str) -> None:
    assert rank_walls(followed(site).max(axis=-1)).order.tolist() == [NORTH, EAST, SOUTH, WEST]


@pytest.mark.parametrize("site", ["palmdale", "palm_springs"])
def test_in_july_the_evening_sun_comes_round_to_the_north_wall(site: str) -> None:
    """East is then as good, by less than the estimate can tell: no fixed order of walls holds."""
    ranking = rank_walls(followed(site).max(axis=-1))
    assert ranking.order.tolist() == [EAST, NORTH, SOUTH, WEST]
    assert 0.0 < ranking.behind[NORTH] < 0.6
    assert bool(ranking.alike[NORTH])


def test_walls_of_one_peak_are_parted_by_their_hours_and_then_by_their_order() -> None:
    assert rank_walls([310.0, 310.0, 309.0], [3, 2, 9]).order.tolist() == [2, 1, 0]
    assert rank_walls([310.0, 310.0]).order.tolist() == [0, 1]
    assert rank_walls([310.0, 310.5, 311.5]).alike.tolist() == [True, True, False]


def test_of_several_readings_the_hottest_ranks() -> None:
    """A wall that is cool in wind and hot in still air is a hot wall."""
    assert rank_walls([[300.0, 305.0], [320.0, 306.0]]).order.tolist() == [1, 0]


def test_no_wall_has_no_order() -> None:
    assert rank_walls(np.zeros(0)).order.tolist() == []


def remedied(light: FaceLight, lit: ArrayLike, finish: Finish, lighter: float) -> Floats:
    """Return the equivalent ambient at Riverside with each remedy, lagged [K]."""
    at = air("riverside")
    as_it_is = exposure(at, light_reaching(light, lit), AREAS, finish)
    return lagged(with_remedies(at, light, as_it_is, AREAS, finish, lighter), finish.lag)


def test_what_shade_and_colour_buy_on_a_west_wall_is_the_tables() -> None:
    """Riverside: dark 64.66, light 50.74, full shade 41.83 degC without lag."""
    day = tabled_day("riverside")
    light = clear_sky_light(*day, FACINGS[WEST], 0.2)
    lit = lit_parts(wall_sun(day.zenith, day.azimuth, FACINGS[WEST]), UNIT, Shades())
    dark = TABLES._replace(absorptance=0.9, lag=0.0)
    found = remedied(light, lit, dark, 0.45)
    found = found.max(axis=-1) - ZERO
    assert found[AS_IT_IS] == pytest.approx(64.66, abs=0.02)
    assert found[LIGHTER] == pytest.approx(50.74, abs=0.02)
    assert found[SHADED_AND_LIGHTER] == pytest.approx(41.83, abs=0.02)
    assert found[SHADED_AND_LIGHTER] < found[SHADED] < found[AS_IT_IS]


def test_a_colour_darker_than_it_is_buys_nothing_and_costs_nothing() -> None:
    day = tabled_day("riverside")
    light = clear_sky_light(*day, FACINGS[WEST], 0.2)
    found = remedied(light, 1.0, TABLES, 0.9)
    np.testing.assert_array_equal(found[LIGHTER], found[AS_IT_IS])


def test_readings_and_walls_keep_their_axes() -> None:
    """Three readings of the surface, four walls, a day."""
    day = tabled_day("riverside")
    light = clear_sky_light(*day, FACINGS, 0.2)
    lit = lit_parts(wall_sun(day.zenith, day.azimuth, FACINGS), UNIT, Shades())
    band = TABLES._replace(coefficient=np.array([10.0, 12.0, 17.0]).reshape(3, 1, 1))
    found = remedied(light, lit, band, 0.3)
    assert found.shape == (4, 3, 4, 24)
    one = TABLES._replace(coefficient=12.0)
    alone = remedied(light, lit, one, 0.3)
    np.testing.assert_allclose(found[:, 1], alone, rtol=1e-13)
