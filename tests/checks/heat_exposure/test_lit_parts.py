"""Shadows of wall, eave and fence lie where a ray followed point by point puts them."""

import random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from service.checks.heat_exposure.lit_parts import Mounting, Shades, lit_parts
from service.checks.heat_exposure.unit_faces import FRONT, LEFT, RIGHT, TOP
from service.checks.heat_exposure.wall_sun import wall_sun
from tests.checks.heat_exposure.design_days import INCH, UNIT
from tests.checks.heat_exposure.ray_casting import Scene, lit_share

Floats = NDArray[np.float64]
UNIT_FRONT = 11 * INCH
UNIT_TOP = 58 * INCH


def lit(scene: Scene, zenith: float, azimuth: float, facing: float) -> Floats:
    screens = np.array(scene.screens).reshape(-1, 2).T
    return lit_parts(
        wall_sun(np.array([zenith]), np.array([azimuth]), facing),
        Mounting(scene.standoff, scene.depth, scene.bottom, scene.height),
        Shades(
            scene.eave_depth,
            scene.eave_height,
            screens[0][:, np.newaxis],
            screens[1][:, np.newaxis],
        ),
    )[:, 0]


def drawn(draw: random.Random) -> tuple[Scene, float, float, float]:
    """Draw a scene, zenith and azimuth of the sun, and the wall's facing [rad]."""
    bottom, height = draw.uniform(0.1, 1.0), draw.uniform(0.3, 1.5)
    standoff, depth = draw.uniform(0.0, 0.1), draw.uniform(0.1, 0.5)
    screens = tuple(
        (standoff + depth + draw.uniform(0.05, 6.0), draw.uniform(0.5, 6.0))
        for _ in range(draw.randrange(3))
    )
    scene = Scene(
        standoff,
        depth,
        bottom,
        height,
        draw.choice([0.0, draw.uniform(0.05, 1.5)]),
        bottom + height + draw.uniform(0.0, 2.0),
        screens,
    )
    angles = (draw.uniform(0.01, 1.56), draw.uniform(0.0, 6.28), draw.uniform(0.0, 6.28))
    return scene, *angles


@pytest.mark.parametrize("seed", range(200))
def test_the_lit_parts_are_those_of_rays_followed_one_by_one(seed: int) -> None:
    """Random walls, eaves and screens; a grid of 60 points a way tells 3 % apart."""
    scene, zenith, azimuth, facing = drawn(random.Random(seed))
    towards = float(np.sin(zenith) * np.cos(azimuth - facing))
    rise = float(np.cos(zenith))
    found = lit(scene, zenith, azimuth, facing)
    if towards > 0.0:
        assert found[FRONT] == pytest.approx(lit_share(scene, "front", towards, rise), abs=0.03)
    assert found[LEFT] == found[RIGHT]
    assert found[LEFT] == pytest.approx(lit_share(scene, "side", towards, rise), abs=0.03)
    assert found[TOP] == pytest.approx(lit_share(scene, "top", towards, rise), abs=0.03)


def at(slope: float, before: bool, shades: Shades) -> Floats:
    """Return the lit parts at a profile angle of a given tangent."""
    height = np.arctan(slope)
    sun = wall_sun(np.array([0.5 * np.pi - height]), np.array([0.0 if before else np.pi]), 0.0)
    return lit_parts(sun, UNIT, shades)[:, 0]


def test_an_eave_no_deeper_than_the_unit_never_shades_its_front() -> None:
    for slope in (0.01, 1.0, 100.0):
        assert at(slope, True, Shades(UNIT_FRONT, UNIT_TOP + 0.01))[FRONT] == 1.0


#: An eave 1 m deep, 3 m above ground.
EAVE = Shades(1.0, 3.0)


def test_an_eave_takes_the_beam_from_the_front_at_the_printed_angle() -> None:
    """Blocked at height z from tan = (eave - z) / (overhang - front) on."""
    overhang = 1.0 - UNIT_FRONT
    from_top, from_bottom = (3.0 - UNIT_TOP) / overhang, (3.0 - 18 * INCH) / overhang
    assert at(from_top - 1e-6, True, EAVE)[FRONT] == 1.0
    assert 0.0 < at(0.5 * (from_top + from_bottom), True, EAVE)[FRONT] < 1.0
    assert at(0.5 * (from_top + from_bottom), True, EAVE)[FRONT] == pytest.approx(0.5)
    assert at(from_bottom + 1e-6, True, EAVE)[FRONT] == 0.0


def test_a_wall_whose_height_is_not_known_takes_all_of_the_sun_behind_it() -> None:
    for slope in (0.01, 1.0, 1e3):
        assert np.all(at(slope, False, Shades()) == 0.0)


def test_a_low_wall_lets_the_sun_behind_it_on_the_outer_strip_of_the_top() -> None:
    """Dark exactly while tan < (wall top - unit top) / front."""
    shades = Shades(edge_height=UNIT_TOP + 0.5)
    limit = 0.5 / UNIT_FRONT
    assert at(limit - 1e-6, False, shades)[TOP] == 0.0
    # By hand: at twice the tangent half of the way to the front is dark.
    dark = 0.5 * UNIT_FRONT - 1 * INCH
    assert at(2 * limit, False, shades)[TOP] == pytest.approx(1.0 - dark / (10 * INCH))
    assert at(2 * limit, False, shades)[FRONT] == 0.0


def test_a_fence_drawn_nearer_than_the_front_counts_as_standing_at_it() -> None:
    """It shades the front up to its own height, and nothing is lit through it."""

    def fenced(distance: float) -> Floats:
        return at(0.5, True, Shades(0.0, 9.0, np.array([[distance]]), np.array([[1.0]])))

    np.testing.assert_array_equal(fenced(0.1), fenced(UNIT_FRONT))
    # By hand: of 40 in, those above 1 m are lit: 58 - 39.37 = 18.63 in.
    assert fenced(0.1)[FRONT] == pytest.approx((UNIT_TOP - 1.0) / (40 * INCH))


def test_a_unit_without_its_wall_is_lit_from_behind() -> None:
    free = Shades(host_wall=False)
    assert np.all(at(1.0, False, free) == 1.0)


@given(
    slope=st.floats(1e-4, 1e4),
    before=st.booleans(),
    eave=st.floats(0.0, 2.0),
    deeper=st.floats(0.0, 1.0),
    above=st.floats(0.0, 3.0),
    lower=st.floats(0.0, 3.0),
    distance=st.floats(0.3, 5.0),
    fence=st.floats(0.0, 5.0),
    higher=st.floats(0.0, 3.0),
)
def test_more_shade_never_lights_more_of_a_face(
    slope: float,
    before: bool,
    eave: float,
    deeper: float,
    above: float,
    lower: float,
    distance: float,
    fence: float,
    higher: float,
) -> None:
    """A deeper or lower eave, a higher fence, one more fence."""
    edge = UNIT_TOP + max(above, lower)

    def shades(depth: float, height: float, *screens: tuple[float, float]) -> Floats:
        columns = np.array(screens).reshape(-1, 2).T[:, :, np.newaxis]
        return at(slope, before, Shades(depth, height, columns[0], columns[1]))

    plain = shades(eave, edge, (distance, fence))
    for more in (
        shades(eave + deeper, edge, (distance, fence)),
        shades(eave, edge, (distance, fence + higher)),
        shades(eave, edge, (distance, fence), (2.0, 2.0)),
    ):
        assert np.all(more <= plain + 1e-9)
    if before:
        lowered = shades(eave, UNIT_TOP + min(above, lower), (distance, fence))
        assert np.all(lowered <= plain + 1e-9)
    assert np.all((plain >= 0.0) & (plain <= 1.0))


def test_the_parts_of_many_walls_at_once_are_those_of_each_alone() -> None:
    draw = np.random.default_rng(3)
    zenith, azimuth = draw.uniform(0.1, 1.5, 50), draw.uniform(0.0, 6.28, 50)
    facing = draw.uniform(0.0, 6.28, (4, 1))
    depth, height = draw.uniform(0.0, 1.5, (4, 1)), UNIT_TOP + draw.uniform(0.0, 2.0, (4, 1))
    together = lit_parts(wall_sun(zenith, azimuth, facing), UNIT, Shades(depth, height))
    assert together.shape == (4, 4, 50)
    for wall in range(4):
        alone = lit_parts(
            wall_sun(zenith, azimuth, facing[wall, 0]),
            UNIT,
            Shades(depth[wall, 0], height[wall, 0]),
        )
        np.testing.assert_array_equal(together[:, wall], alone)
