"""Factors of ambient temperature and of conductors together."""

import math
from itertools import pairwise

import numpy as np
import pytest

from service.published.conductors import TemperatureColumn, ampacities, index_of
from service.published.correction_factors import (
    ambient_factor,
    ambient_row,
    bundling_factor,
    bundling_row,
)
from service.published.loader import load
from service.published.source import Standing

# ambient [degC] | column | factor. Source: Table 310.15(B)(1)(1), public transcription of IRC 2021,
# Table E3705.2.
AMBIENT: tuple[tuple[float, TemperatureColumn, float], ...] = (
    (-20.0, 60, 1.29),
    (10.0, 75, 1.20),
    (30.0, 60, 1.00),
    (30.0, 90, 1.00),
    (35.0, 75, 0.94),
    (40.0, 60, 0.82),
    (40.0, 90, 0.91),
    (45.0, 90, 0.87),
    (55.0, 60, 0.41),
    (70.0, 75, 0.33),
    (85.0, 90, 0.29),
)

# conductors | factor. Source: Table 310.15(C)(1), public transcription of 2014 (there
# 310.15(B)(3)(a)); 1 to 3 derived: nothing is adjusted.
BUNDLING = ((1, 1.0), (3, 1.0), (4, 0.8), (7, 0.7), (10, 0.5), (20, 0.5), (21, 0.45), (41, 0.35))


@pytest.mark.parametrize("ambient, rating, factor", AMBIENT)
def test_each_temperature_has_its_factor(
    ambient: float, rating: TemperatureColumn, factor: float
) -> None:
    assert float(ambient_factor(ambient, rating)) == factor


@pytest.mark.parametrize("conductors, factor", BUNDLING)
def test_each_number_of_conductors_has_its_factor(conductors: int, factor: float) -> None:
    assert float(bundling_factor(conductors)) == factor


@pytest.mark.parametrize("key", load("ambient_correction").rows)
@pytest.mark.parametrize("rating", [60, 75, 90])
def test_factors_follow_the_heat_that_a_conductor_can_shed(
    key: str, rating: TemperatureColumn
) -> None:
    # Source: the correction equation of NEC 310.15(B), sqrt((Tc - Ta) / (Tc - 30)), at the top of
    # the band; no factor is printed where conductor and air are equally hot.
    table = load("ambient_correction")
    most = table.number(key, "most")
    printed = table.number_or_none(key, f"degc_{rating}")
    if most >= rating:
        assert printed is None
    else:
        assert printed == pytest.approx(math.sqrt((rating - most) / (rating - 30)), abs=0.006)


def test_a_gap_between_whole_degrees_belongs_to_the_warmer_band() -> None:
    # Source: derived; 65.6 degC is 150 degF, which the printed table has in its band to 158 degF.
    assert ambient_factor([65.0, 65.6, 70.0, 70.01], 75).tolist()[:3] == [0.47, 0.33, 0.33]
    assert ambient_row(65.6) == "to-70"


def test_rounding_of_units_is_no_step_into_the_next_band() -> None:
    fahrenheit = np.array([86.0, 95.0, 104.0, 113.0])
    kelvin = (fahrenheit + 459.67) * 5 / 9
    assert ambient_factor(kelvin - 273.15, 90).tolist() == [1.0, 0.96, 0.91, 0.87]
    assert float(ambient_factor(40.0 + 1e-12, 90)) == 0.91


def test_what_is_too_hot_or_unknown_has_no_factor() -> None:
    assert np.isnan(ambient_factor([56.0, 90.0, math.nan], 60)).all()
    assert np.isnan(bundling_factor(math.nan))
    assert (ambient_row(86.0), ambient_row(math.nan), bundling_row(math.nan)) == (None, None, None)
    assert (ambient_row(40.0), bundling_row(6)) == ("to-40", "from-4")


# size | ambient | conductors | amps. Source: public worked examples: 8 AWG copper at 75 degC, air
# 150 degF over a roof; six 4/0 at 90 degC; 12 AWG at 90 degC in 55 degC.
@pytest.mark.parametrize(
    "size, rating, ambient, conductors, amps",
    [("8", 75, 65.6, 3, 16.5), ("4/0", 90, 30.0, 6, 208.0), ("12", 90, 55.0, 3, 22.8)],
)
def test_ampacities_of_worked_examples(
    size: str, rating: TemperatureColumn, ambient: float, conductors: int, amps: float
) -> None:
    bare = ampacities("copper", rating)[index_of(size)]
    left = bare * ambient_factor(ambient, rating) * bundling_factor(conductors)
    assert float(left) == pytest.approx(amps, rel=1e-9)


def test_bands_follow_one_another() -> None:
    rows = load("bundling_adjustment")
    keys = list(rows.rows)
    for below, above in pairwise(keys):
        assert rows.number(above, "least") == rows.number(below, "most") + 1
        assert rows.number(above, "factor") < rows.number(below, "factor")
    assert rows.cite("from-4", "factor").standing is Standing.SECONDARY
