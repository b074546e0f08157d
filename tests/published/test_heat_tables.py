"""Tables of heat hold the values of their sources and are in order."""

import pytest

from service.published.design_day_profile import range_parts
from service.published.enclosure_materials import enclosure_coefficients
from service.published.garage_offsets import garage_offsets
from service.published.heat_defaults import heat_defaults
from service.published.loader import load
from service.published.optical_depths import optical_depth_exponents
from service.published.source import Standing
from service.published.sunlit_faces import (
    absorptances,
    ground_reflectances,
    surface_coefficients,
)


def test_colours_take_in_more_the_darker_they_are() -> None:
    """White 0.3, light grey 0.45, medium 0.7, dark 0.9; each inside its own band."""
    values = [one.value for one in absorptances().values()]
    assert list(absorptances()) == ["white", "light_grey", "medium", "dark"]
    assert values == [0.3, 0.45, 0.7, 0.9]
    for ends in zip(*absorptances().values(), strict=True):
        assert list(ends) == sorted(ends)
    for one in absorptances().values():
        assert 0.0 < one.low < one.value < one.high < 1.0


def test_surface_coefficients_run_from_calm_to_windy() -> None:
    assert list(surface_coefficients().items()) == [
        ("calm", 10.0),
        ("sheltered", 12.0),
        ("windy", 17.0),
    ]
    # 3.0 Btu/(h ft2 degF) is 17.03 W/(m2 K).
    assert surface_coefficients()["windy"] == pytest.approx(3.0 * 5.678263, abs=0.05)
    assert load("surface_coefficients").cite("windy", "w_m2_k").standing is Standing.SECONDARY
    assert load("surface_coefficients").cite("calm", "w_m2_k").standing is Standing.COMMON_PRACTICE


def test_ordinary_ground_reflects_a_fifth() -> None:
    grounds = ground_reflectances()
    assert grounds["ordinary"] == 0.2
    assert min(grounds, key=lambda one: grounds[one]) == "asphalt"
    assert max(grounds, key=lambda one: grounds[one]) == "new_concrete"


def test_garages_are_three_to_eight_kelvin_hotter_in_the_afternoon() -> None:
    for offset in garage_offsets().values():
        assert (offset.low, offset.high) == (3.0, 8.0)
        assert offset.low < offset.typical <= offset.high
        assert 0.0 <= offset.from_hour < offset.to_hour <= 24.0
    assert load("garage_offsets").standing is Standing.COMMON_PRACTICE


def test_enclosures_pass_what_the_guides_print() -> None:
    assert dict(enclosure_coefficients()) == {
        "painted_steel": 5.5,
        "stainless_steel": 3.6,
        "aluminum": 6.5,
        "plain_chart": 4.5,
    }


def test_defaults_run_from_their_cool_to_their_hot_end() -> None:
    """Less lag, less heat stored, less loss to the sky and a wider gap are hotter."""
    found = heat_defaults()
    assert found["lag_h"] == (4.0, 3.0, 2.0)
    assert found["specific_heat_j_kg_k"] == (1100.0, 1000.0, 900.0)
    assert found["sky_loss_w_m2"] == (63.0, 63.0, 0.0)
    assert found["percentile_gap_k"] == (0.0, 2.0, 6.0)
    assert found["wall_air_k"] == (0.0, 1.0, 3.0)
    # 20 Btu/(h ft2) is 63.1 W/m2.
    assert found["sky_loss_w_m2"].value == pytest.approx(20.0 * 3.154591, abs=0.1)


def test_the_profile_of_a_day_has_24_parts_from_none_to_all_of_the_range() -> None:
    parts = range_parts()
    assert len(parts) == 24
    assert (min(parts), max(parts)) == (0.0, 1.0)
    assert parts.index(1.0) == 5
    assert parts[14:16] == (0.0, 0.0)


def test_exponents_carry_the_edition_and_the_sign() -> None:
    exponents = optical_depth_exponents()
    assert list(exponents) == ["ashrae_2009", "ashrae_2013"]
    assert exponents["ashrae_2013"].b_both == 0.021
    assert exponents["ashrae_2009"].d_both == -0.357
