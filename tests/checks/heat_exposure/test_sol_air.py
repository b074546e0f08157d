"""Sol-air temperatures of faces are those of the printed formula and of worked tables."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.checks.heat_exposure.exposure import Finish, face_temperatures
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light, sol_air
from service.checks.heat_exposure.unit_faces import FRONT, LEFT, RIGHT, TOP, face_areas
from tests.checks.heat_exposure.design_days import AREAS, INCH

#: W/(m2 K) of one Btu/(h ft2 degF), and W/m2 of one Btu/(h ft2). Exact by definition of the units.
COEFFICIENT, FLUX = 5.678263341113488, 3.154590745063049


def fahrenheit(kelvin: float) -> float:
    return (kelvin - 273.15) * 1.8 + 32.0


def kelvin(degf: float) -> float:
    return (degf - 32.0) / 1.8 + 273.15


# air [degF] | absorptance over coefficient [h ft2 degF/Btu] | light [Btu/(h ft2)] | sol-air [degF].
# Source: hand arithmetic; the last two are the west wall at four of the table for 21 July at 40 deg
# north, which prints 131 and 168 degF (ASHRAE Handbook Fundamentals, from memory, not verified).
CUSTOMARY = [
    (95.0, 0.30, 200.0, 155.0),
    (94.0, 0.15, 216.0 * 1.15, 131.26),
    (94.0, 0.30, 216.0 * 1.15, 168.52),
]


@pytest.mark.parametrize("air, over, light, expected", CUSTOMARY)
def test_vectors_in_customary_units(air: float, over: float, light: float, expected: float) -> None:
    """The printed parameter is absorptance over coefficient: 0.45 and 0.9 at 3.0."""
    found = sol_air(kelvin(air), light * FLUX, over * 3.0, 3.0 * COEFFICIENT)
    assert fahrenheit(float(found)) == pytest.approx(expected, abs=0.01)


# air [degC] | absorptance | light [W/m2] | sky loss [W/m2] | sol-air [degC] at 17 W/(m2 K).
# Source: hand arithmetic: 35 + 0.45 x 700 / 17; 35 + 0.9 x 900 / 17 - 63 / 17.
METRIC = [
    (35.0, 0.45, 700.0, 0.0, 53.53),
    (35.0, 0.90, 700.0, 0.0, 72.06),
    (35.0, 0.90, 900.0, 63.0, 78.94),
]


@pytest.mark.parametrize("air, absorptance, light, loss, expected", METRIC)
def test_vectors_in_metric_units(
    air: float, absorptance: float, light: float, loss: float, expected: float
) -> None:
    found = sol_air(air + 273.15, light, absorptance, 17.0, loss) - 273.15
    assert float(found) == pytest.approx(expected, abs=0.005)


def test_only_the_top_loses_heat_to_the_sky() -> None:
    """Upright faces see ground and houses as much as sky: none is taken off them."""
    finish = Finish(0.45, 17.0, 63.0, 0.0)
    night = face_temperatures(np.full(1, 300.0), np.zeros((4, 1)), finish)[:, 0]
    assert night[[FRONT, LEFT, RIGHT]].tolist() == [300.0, 300.0, 300.0]
    assert night[TOP] == pytest.approx(300.0 - 63.0 / 17.0)


def test_the_reference_unit_has_the_areas_worked_by_hand() -> None:
    """26 x 40 x 10 in: 0.6710, twice 0.2581 and 0.1677 m2."""
    assert face_areas(26 * INCH, 40 * INCH, 10 * INCH) == pytest.approx(
        [0.6710, 0.2581, 0.2581, 0.1677], abs=5e-5
    )


@given(
    light=st.lists(st.floats(0.0, 1200.0), min_size=4, max_size=4),
    absorptance=st.floats(0.1, 0.95),
    coefficient=st.floats(8.0, 20.0),
    loss=st.floats(0.0, 100.0),
)
def test_the_equivalent_ambient_is_the_mean_of_the_faces_by_area(
    light: list[float], absorptance: float, coefficient: float, loss: float
) -> None:
    """The short way over the mean light and the long way over each face agree."""
    finish = Finish(absorptance, coefficient, loss, 0.0)
    each = np.array(light)[:, np.newaxis]
    faces = face_temperatures(np.full(1, 310.0), each, finish)
    short = equivalent_ambient(
        np.full(1, 310.0), mean_light(each, AREAS), AREAS, absorptance, coefficient, loss
    )
    assert short[0] == pytest.approx(float(AREAS @ faces[:, 0] / AREAS.sum()), abs=1e-9)
