"""Air of a garage, and the unit's own heat, which a rated ambient already allows for."""

import numpy as np
import pytest

from service.checks.heat_exposure.garage_air import garage_air
from service.checks.heat_exposure.self_heating import compared_temperature, enclosure_rise
from service.published.enclosure_materials import enclosure_coefficients
from service.published.garage_offsets import garage_offsets

DAY = np.arange(24)


def test_an_afternoon_garage_is_three_to_eight_kelvin_hotter() -> None:
    """Common practice, no source: 3 to 8 K."""
    found = garage_air(np.full(24, 308.15), DAY, garage_offsets()["other_door"]) - 308.15
    assert found[:, 15].tolist() == pytest.approx([3.0, 5.5, 8.0])
    assert found[:, 4].tolist() == pytest.approx([0.0, 1.5, 3.0])


def test_a_door_that_faces_west_is_the_worst() -> None:
    west = garage_air(np.full(24, 300.0), DAY, garage_offsets()["west_door"])
    for offset in garage_offsets().values():
        other = garage_air(np.full(24, 300.0), DAY, offset)
        assert np.all(west >= other)
    assert west[1, 15] > garage_air(np.full(24, 300.0), DAY, garage_offsets()["other_door"])[1, 15]


def test_a_garage_is_never_cooler_than_the_air_outside_and_its_readings_rise() -> None:
    air = np.random.default_rng(1).uniform(270.0, 320.0, 8760)
    for offset in garage_offsets().values():
        low, typical, high = garage_air(air, np.arange(8760), offset)
        assert np.all(air <= low)
        assert np.all(low <= typical)
        assert np.all(typical <= high)


def test_the_printed_rise_of_an_enclosure_is_met() -> None:
    """300 W in 48 x 36 x 16 in: 30 degF on the chart's 42 ft2, which is 42.67 ft2 exactly."""
    # Source: a trade guide to the cooling of electrical enclosures (secondary).
    area = 2 * (48 * 36 + 48 * 16 + 36 * 16) / 144
    assert area == pytest.approx(42.67, abs=0.005)
    rise = enclosure_rise(300.0, area * 0.3048**2, enclosure_coefficients()["plain_chart"])
    assert float(rise) * 1.8 == pytest.approx(30.0, abs=0.5)


def test_a_rated_ambient_gets_no_heat_of_the_unit_a_second_time() -> None:
    """Only a limit on the air inside is held against the rise."""
    rise = float(enclosure_rise(100.0, 1.355, enclosure_coefficients()["painted_steel"]))
    # By hand: 100 / (5.5 x 1.355) = 13.4 K.
    assert rise == pytest.approx(13.42, abs=0.01)
    assert float(compared_temperature(315.0, rise)) == 315.0
    assert float(compared_temperature(315.0, rise, True)) == pytest.approx(315.0 + rise)
