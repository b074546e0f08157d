"""What must hold on every wall, day and unit."""

from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.face_light import clear_sky_light
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.unit_faces import face_areas
from service.checks.heat_exposure.walls import on_walls
from tests.checks.heat_exposure.design_days import PLACES, Floats, air, tabled_day

SCENES = st.fixed_dictionaries(
    {
        "site": st.sampled_from(sorted(PLACES)),
        "facing": st.floats(0.0, 6.28),
        "width": st.floats(0.3, 1.5),
        "height": st.floats(0.3, 1.5),
        "depth": st.floats(0.1, 0.5),
        "absorptance": st.floats(0.2, 0.95),
        "coefficient": st.floats(8.0, 20.0),
        "lag": st.floats(0.0, 8.0),
        "eave": st.floats(0.0, 1.0),
        "above": st.floats(0.0, 2.0),
        "fence": st.floats(0.0, 3.0),
        "through": st.floats(0.0, 1.0),
        "albedo": st.floats(0.1, 0.4),
        "warmer": st.just(0.0),
        "host_wall": st.booleans(),
    }
)


def followed(scene: dict[str, Any]) -> Floats:
    """Return the lagged temperature of one scene, shape (24,) [K]."""
    day, facing = tabled_day(scene["site"]), np.array([[scene["facing"]]])
    unit = Mounting(0.02, scene["depth"], 0.5, scene["height"])
    shades = Shades(
        scene["eave"],
        0.5 + scene["height"] + scene["above"],
        np.array([[[1.5]]]),
        np.array([[[scene["fence"]]]]),
        scene["host_wall"],
    )
    found = on_walls(
        air(scene["site"]) + scene["warmer"],
        clear_sky_light(*day, facing, scene["albedo"]),
        day.zenith,
        day.azimuth,
        facing,
        unit,
        shades,
        face_areas(scene["width"], scene["height"], scene["depth"]),
        Finish(scene["absorptance"], scene["coefficient"], 63.0, scene["lag"] * 3600.0),
        scene["through"],
    )
    return np.asarray(found.exposure.followed[0])


@given(scene=SCENES, deeper=st.floats(0.0, 1.0), higher=st.floats(0.0, 2.0))
@settings(max_examples=60)
def test_more_shade_is_never_hotter_at_any_hour(
    scene: dict[str, Any], deeper: float, higher: float
) -> None:
    """A deeper eave, a higher fence, a denser tree, the wall the unit hangs on."""
    plain = followed(scene) + 1e-9
    assert np.all(followed(scene | {"fence": scene["fence"] + higher}) <= plain)
    assert np.all(followed(scene | {"through": 0.5 * scene["through"]}) <= plain)
    assert np.all(followed(scene | {"host_wall": True}) <= plain)
    assert np.all(followed(scene | {"eave": scene["eave"] + deeper}) <= plain)


@given(scene=SCENES, lighter=st.floats(0.1, 1.0))
@settings(max_examples=60)
def test_a_lighter_colour_is_never_hotter_at_any_hour(
    scene: dict[str, Any], lighter: float
) -> None:
    paler = scene | {"absorptance": lighter * scene["absorptance"]}
    assert np.all(followed(paler) <= followed(scene) + 1e-9)


@given(scene=SCENES, more=st.floats(0.0, 10.0))
@settings(max_examples=60)
def test_a_longer_lag_never_raises_the_peak(scene: dict[str, Any], more: float) -> None:
    longer = scene | {"lag": scene["lag"] + more}
    assert followed(longer).max() <= followed(scene).max() + 1e-9


@given(scene=SCENES, kelvin=st.floats(0.0, 15.0))
@settings(max_examples=60)
def test_hotter_air_heats_every_hour_by_as_much(scene: dict[str, Any], kelvin: float) -> None:
    np.testing.assert_allclose(
        followed(scene | {"warmer": kelvin}), followed(scene) + kelvin, atol=1e-9
    )


@given(scene=SCENES, more=st.floats(0.0, 0.3))
@settings(max_examples=40)
def test_brighter_ground_is_never_cooler(scene: dict[str, Any], more: float) -> None:
    brighter = scene | {"albedo": scene["albedo"] + more}
    assert np.all(followed(brighter) >= followed(scene) - 1e-9)


@given(scene=SCENES)
@settings(max_examples=40)
def test_walls_that_mirror_each_other_at_a_mirrored_sun_are_alike(scene: dict[str, Any]) -> None:
    """Sun and wall mirrored at the meridian: left and right change places."""
    day, facing = tabled_day(scene["site"]), scene["facing"]
    here = clear_sky_light(*day, facing, 0.2)
    there = clear_sky_light(*day._replace(azimuth=-day.azimuth), -facing, 0.2)
    np.testing.assert_allclose(there.directed[[0, 2, 1, 3]], here.directed, atol=1e-9)
    np.testing.assert_allclose(there.scattered[[0, 2, 1, 3]], here.scattered, atol=1e-9)
