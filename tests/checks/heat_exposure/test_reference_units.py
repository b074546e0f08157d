"""A unit of given size at six places is as hot as an independent calculation says."""

from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from service.checks.heat_exposure.exposure import (
    Exposure,
    Finish,
    exposure,
    face_temperatures,
    light_reaching,
)
from service.checks.heat_exposure.face_light import clear_sky_light
from service.checks.heat_exposure.hours_over import hours_over
from service.checks.heat_exposure.lit_parts import Shades, lit_parts
from service.checks.heat_exposure.unit_faces import FRONT, LEFT, RIGHT, TOP
from service.checks.heat_exposure.wall_sun import wall_sun
from tests.checks.heat_exposure.design_days import (
    AREAS,
    FACING,
    TABLES,
    UNIT,
    ZERO,
    air,
    own_day,
    rows,
    tabled_day,
)

Floats = NDArray[np.float64]

DARK = TABLES._replace(absorptance=0.9)
FREE_STANDING = [
    pytest.param(r, id=f"{r['site']}-{r['wall']}") for r in rows("unit_heat_free_standing")
]
ON_WALL = [pytest.param(r, id=f"{r['site']}-{r['wall']}") for r in rows("unit_heat_on_wall")]
#: Sun and light of the tables are printed to 0.001 deg and 0.1 W/m2; temperatures to 0.01 K.
CLOSE = 0.012


@cache
def light(site: str, wall: str, host_wall: bool, shaded: bool = False, own: bool = False) -> Floats:
    day = own_day(site) if own else tabled_day(site)
    faces = clear_sky_light(*day, FACING[wall], 0.2)
    sun = wall_sun(day.zenith, day.azimuth, FACING[wall])
    lit = lit_parts(sun, UNIT, Shades(host_wall=host_wall))
    return light_reaching(faces, 0.0 if shaded else lit)


def found(row: dict[str, str], host_wall: bool, finish: Finish = TABLES, **how: bool) -> Exposure:
    reaching = light(row["site"], row["wall"], host_wall, **how)
    return exposure(air(row["site"]), reaching, AREAS, finish)


def over(course: Floats) -> str:
    return "/".join(str(n) for n in hours_over(course, np.array([40.0, 45.0, 50.0]) + ZERO))


def peak(course: Floats) -> float:
    return float(course.max() - ZERO)


@pytest.mark.parametrize("row", FREE_STANDING)
def test_a_unit_whose_faces_stand_free_is_as_hot_as_the_table_says(row: dict[str, str]) -> None:
    """Steady and lagged peaks and their hours, the front's own, full shade, and a dark unit."""
    as_is = found(row, False)
    assert peak(as_is.equivalent) == pytest.approx(float(row["steady"]), abs=CLOSE)
    assert int(np.argmax(as_is.equivalent)) == int(row["steady_hour"])
    assert peak(as_is.followed) == pytest.approx(float(row["lagged"]), abs=CLOSE)
    assert int(np.argmax(as_is.followed)) == int(row["lagged_hour"])
    assert over(as_is.followed) == row["hours"]
    front = face_temperatures(air(row["site"]), light(row["site"], row["wall"], False), TABLES)[
        FRONT
    ]
    assert peak(front) == pytest.approx(float(row["front"]), abs=CLOSE)
    shaded = found(row, False, shaded=True)
    assert peak(shaded.equivalent) == pytest.approx(float(row["shaded"]), abs=CLOSE)
    assert over(shaded.followed) == row["shaded_hours"]
    dark = found(row, False, DARK)
    assert peak(dark.equivalent) == pytest.approx(float(row["dark"]), abs=2 * CLOSE)
    assert over(dark.followed) == row["dark_hours"]


@pytest.mark.parametrize("row", ON_WALL)
def test_a_unit_on_its_wall_is_as_hot_as_the_table_says(row: dict[str, str]) -> None:
    """The wall takes the sun that stands behind it from both sides and the top."""
    as_is = found(row, True)
    assert peak(found(row, False).equivalent) == pytest.approx(
        float(row["free_standing"]), abs=CLOSE
    )
    assert peak(as_is.equivalent) == pytest.approx(float(row["steady"]), abs=CLOSE)
    assert int(np.argmax(as_is.equivalent)) == int(row["steady_hour"])
    assert peak(as_is.followed) == pytest.approx(float(row["lagged"]), abs=CLOSE)
    assert int(np.argmax(as_is.followed)) == int(row["lagged_hour"])
    assert over(as_is.followed) == row["hours"]
    dark = found(row, True, DARK)
    assert peak(dark.equivalent) == pytest.approx(float(row["dark"]), abs=2 * CLOSE)
    assert over(dark.followed) == row["dark_hours"]


@pytest.mark.parametrize("row", ON_WALL)
def test_with_the_services_own_sun_it_is_as_hot_within_a_tenth_of_a_kelvin(
    row: dict[str, str],
) -> None:
    """The sun of 2023 stands up to 0.1 deg from that of 2025."""
    ours = found(row, True, own=True)
    assert peak(ours.equivalent) == pytest.approx(float(row["steady"]), abs=0.1)
    assert peak(ours.followed) == pytest.approx(float(row["lagged"]), abs=0.1)


def test_one_hour_worked_by_hand() -> None:
    """Riverside, a wall that faces west, three in the afternoon, free-standing."""
    # By hand: front 37.3 + 0.45 x 734.7 / 17 = 56.75; north side 40.75, south side 45.43; level
    # light 737.6 cos 47.965 deg + 141.5 = 635.4, top 37.3 + 16.82 - 3.9 = 50.22; weighted by
    # 0.6710, 2 x 0.2581 and 0.1677 m2: 50.74 degC.
    faces = (
        face_temperatures(air("riverside"), light("riverside", "W", False), TABLES)[:, 15] - ZERO
    )
    assert faces[FRONT] == pytest.approx(56.75, abs=0.01)
    assert faces[LEFT] == pytest.approx(40.75, abs=0.01)
    assert faces[RIGHT] == pytest.approx(45.43, abs=0.01)
    assert faces[TOP] == pytest.approx(50.22, abs=0.01)
    together = exposure(air("riverside"), light("riverside", "W", False), AREAS, TABLES)
    assert together.equivalent[15] - ZERO == pytest.approx(50.74, abs=0.01)
    shaded = exposure(air("riverside"), light("riverside", "W", False, shaded=True), AREAS, TABLES)
    assert shaded.equivalent[15] - ZERO == pytest.approx(41.45, abs=0.01)


def test_full_shade_takes_the_beam_from_a_west_wall() -> None:
    """734.7 becomes 208.1 W/m2 at Riverside at three in the afternoon."""
    assert light("riverside", "W", True)[FRONT, 15] == pytest.approx(734.7, abs=0.1)
    assert light("riverside", "W", True, shaded=True)[FRONT, 15] == pytest.approx(208.1, abs=0.1)


# site | hottest month's 0.4 % dry bulb [degC] | lagged peak [degC]. Source: the design-day files
# of `PLACES`; peaks: own calculation of 2026, apart from the service, same light.
HOTTEST_MONTH = [("riverside", 39.1, 47.5), ("palm_springs", 47.0, 55.5)]


@pytest.mark.parametrize("site, highest, expected", HOTTEST_MONTH)
def test_the_hottest_month_adds_its_own_heat_to_the_annual_day(
    site: str, highest: float, expected: float
) -> None:
    """A west wall in the hottest month: 1.8 K more at Riverside, 3.0 K at Palm Springs."""
    hotter = air(site) + highest + ZERO - air(site).max()
    followed = exposure(hotter, light(site, "W", True), AREAS, TABLES).followed
    assert peak(followed) == pytest.approx(expected, abs=0.051)


# site | lagged peak at 12 and at 10 W/(m2 K), whole degC. Source: as `HOTTEST_MONTH`.
STILL_AIR = [("riverside", 50, 53), ("palm_springs", 57, 60)]


@pytest.mark.parametrize("site, least, most", STILL_AIR)
def test_a_still_side_yard_is_hotter_than_a_windy_wall(
    site: str, least: float, most: float
) -> None:
    """One coefficient hides a band of several kelvin."""
    band = TABLES._replace(coefficient=np.array([[10.0], [12.0], [17.0]]), sky_loss=63.0)
    calm, sheltered, windy = (
        exposure(air(site), light(site, "W", True), AREAS, band).followed.max(axis=-1) - ZERO
    )
    assert calm > sheltered > windy + 1.0
    assert (round(sheltered), round(calm)) == (least, most)
