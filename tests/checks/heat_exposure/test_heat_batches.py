"""Many cases in one call are as each alone: places, walls, units, shades and readings apart."""

from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.derating import power_factor
from service.checks.heat_exposure.exposure import Finish, face_temperatures
from service.checks.heat_exposure.face_light import Sky, weather_light
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.unit_faces import face_areas
from service.checks.heat_exposure.walls import on_walls
from service.physics.irradiance_on_plane import extraterrestrial_normal
from service.physics.sun_position import sun_position
from service.quantities.comparison import TOLERANCE

Floats = NDArray[np.float64]

CASES = 40


def case_of(values: Iterable[Any], case: int) -> list[Floats]:
    """Return one case of arrays whose last axis but one holds the cases."""
    return [np.asarray(part)[..., case : case + 1, :] for part in values]


def test_forty_cases_at_once_are_as_each_alone() -> None:
    """Within 1e-9, with one or two screens each: a height of 0 stands for none."""
    draw = np.random.default_rng(8)

    def column(low: float, high: float) -> Floats:
        return draw.uniform(low, high, (CASES, 1))

    day = draw.integers(0, 365, (CASES, 1))
    hour = day * 24.0 + np.arange(24.0) + 0.5
    zenith, azimuth = sun_position(hour, 0.6, -2.05, -8 * 3600.0)
    up = np.maximum(np.cos(zenith), 0.0)
    sky = Sky(900.0 * up, 850.0 * (up > 0.0), 120.0 * up, zenith, azimuth,
              extraterrestrial_normal(day + 1))  # fmt: skip
    air = 300.0 + column(-5.0, 15.0) + 6.0 * np.sin(np.arange(24.0) / 3.8)
    facing, albedo = column(0.0, 6.28), column(0.1, 0.4)
    unit = Mounting(column(0.0, 0.1), column(0.1, 0.4), column(0.1, 1.0), column(0.4, 1.5))
    screens = np.where(draw.random((2, CASES, 1)) < 0.5, 0.0, draw.uniform(0, 4, (2, CASES, 1)))
    shades = Shades(column(0, 1), column(2.6, 4.0), draw.uniform(1, 5, (2, CASES, 1)), screens)
    areas = face_areas(column(0.3, 1.2), unit.height, unit.depth)
    finish = Finish(
        column(0.2, 0.95), column(8.0, 20.0), column(0.0, 63.0), column(0.0, 6.0) * 3600.0
    )
    light = weather_light(sky, facing, albedo)
    through = column(0.0, 1.0)
    together = on_walls(air, light, zenith, azimuth, facing, unit, shades, areas, finish, through)
    faces = face_temperatures(air, together.light, finish)
    assert together.exposure.followed.shape == (CASES, 24)
    for case in range(CASES):
        air_one, zenith_one, azimuth_one, facing_one, albedo_one, areas_one, through_one = case_of(
            (air, zenith, azimuth, facing, albedo, areas, through), case
        )
        finish_one = Finish(*case_of(finish, case))
        alone = on_walls(
            air_one,
            weather_light(Sky(*case_of(sky, case)), facing_one, albedo_one),
            zenith_one,
            azimuth_one,
            facing_one,
            Mounting(*case_of(unit, case)),
            Shades(*case_of(shades[:4], case)),
            areas_one,
            finish_one,
            through_one,
        )
        ours = (alone.exposure.followed[0], alone.light[:, 0])
        theirs = (together.exposure.followed[case], together.light[:, case])
        for one, every in zip(ours, theirs, strict=True):
            np.testing.assert_allclose(one, every, rtol=0.0, atol=1e-9)
        lone_faces = face_temperatures(air_one, alone.light, finish_one)[:, 0]
        np.testing.assert_allclose(lone_faces, faces[:, case], rtol=0.0, atol=1e-9)


def test_a_last_bit_does_not_switch_a_unit_off() -> None:
    """A temperature that misses a limit by less than the tolerance is at the limit."""
    at = np.array([313.15, 323.15])
    hair = 323.15 + 0.5 * TOLERANCE["temperature"]
    assert float(power_factor(hair, at, np.array([1.0, 0.5]))) == 0.5
