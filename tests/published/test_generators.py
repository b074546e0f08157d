"""Performance classes, limits and fuel use of generators."""

from itertools import pairwise

import pytest

from service.published.generators import fuel_use, generator_limit, quality_class
from service.published.loader import load
from service.published.source import Standing

# id | droop | band | voltage | no load [Hz] | standing. Source: ISO 8528-5, operating limit values;
# G2 as a public specification quotes it, G1 and G3 from memory, not verified.
CLASSES = (
    ("g1", 0.08, 0.025, 0.05, 64.8, Standing.FROM_MEMORY),
    ("g2", 0.05, 0.015, 0.025, 63.0, Standing.SECONDARY),
    ("g3", 0.03, 0.005, 0.01, 61.8, Standing.FROM_MEMORY),
)

# id | value | unit | standing. Source: common practice; the frequency from memory, not verified.
LIMITS = (
    ("distortion_check", 5.0, "percent", Standing.COMMON_PRACTICE),
    ("distortion_stop", 10.0, "percent", Standing.COMMON_PRACTICE),
    ("over_frequency", 62.0, "Hz", Standing.FROM_MEMORY),
    ("solar_ratio_check", 1.0, "1", Standing.COMMON_PRACTICE),
    ("solar_ratio_stop", 1.5, "1", Standing.COMMON_PRACTICE),
)

# fuel | heat [Wh a gallon, natural gas a cubic foot]. Source: from memory, not verified: higher
# heating values of about 120,000, 137,000, 91,000 and 1,037 Btu.
HEAT = (
    ("gasoline", 35_200.0),
    ("diesel", 40_200.0),
    ("propane", 26_700.0),
    ("natural_gas", 304.0),
)


@pytest.mark.parametrize("name, droop, band, voltage, hertz, standing", CLASSES)
def test_each_class_has_its_limits(
    name: str, droop: float, band: float, voltage: float, hertz: float, standing: Standing
) -> None:
    one = quality_class(name)
    found = (one.frequency_droop, one.frequency_band, one.voltage_deviation)
    assert found == (droop, band, voltage)
    assert one.no_load_frequency == pytest.approx(hertz, abs=1e-9)
    assert one.no_load_frequency == pytest.approx(60.0 * (1.0 + droop), abs=1e-9)
    assert load("generator_quality").cite(name, "frequency_droop").standing is standing


def test_no_class_stands_outside_the_pinned_list() -> None:
    assert list(load("generator_quality").rows) == [name for name, *_ in CLASSES]


def test_each_class_is_stricter_than_the_one_before() -> None:
    for loose, strict in pairwise(quality_class(name) for name, *_ in CLASSES):
        assert loose.frequency_droop > strict.frequency_droop
        assert loose.frequency_band > strict.frequency_band
        assert loose.voltage_deviation > strict.voltage_deviation


def test_the_strictest_class_alone_stays_below_over_frequency() -> None:
    most = generator_limit("over_frequency")
    below = [name for name, *_ in CLASSES if quality_class(name).no_load_frequency <= most]
    assert below == ["g3"]


def test_a_class_that_does_not_exist_is_no_class() -> None:
    with pytest.raises(KeyError):
        quality_class("g5")


@pytest.mark.parametrize("name, value, unit, standing", LIMITS)
def test_each_limit_has_its_value_unit_and_standing(
    name: str, value: float, unit: str, standing: Standing
) -> None:
    table = load("generator_limits")
    assert generator_limit(name) == value
    assert table.row(name)["unit"] == unit
    assert table.cite(name, "value").standing is standing
    assert table.row(name)["reason"].endswith(".")


def test_no_limit_stands_outside_the_pinned_list() -> None:
    assert list(load("generator_limits").rows) == [name for name, *_ in LIMITS]


@pytest.mark.parametrize("what", ["distortion", "solar_ratio"])
def test_a_stop_lies_above_its_check(what: str) -> None:
    assert generator_limit(f"{what}_check") < generator_limit(f"{what}_stop")


@pytest.mark.parametrize("fuel, heat", HEAT)
def test_fuel_use_is_that_of_a_small_engine(fuel: str, heat: float) -> None:
    """From a tenth to a third of the heat becomes power, and less of it at half load."""
    full, half = fuel_use(fuel, 1.0)
    at_full, at_half = 1000.0 / (full * heat), 500.0 / (half * heat)
    assert 0.10 < at_half < at_full < 0.33
    # A running engine without load burns some fuel too, less than a half of the full use.
    assert 0.0 < half - 0.5 * full < 0.25 * full


def test_diesel_makes_the_most_of_its_heat() -> None:
    part = {fuel: 1000.0 / (fuel_use(fuel, 1.0)[0] * heat) for fuel, heat in HEAT}
    assert max(part, key=part.__getitem__) == "diesel"


@pytest.mark.parametrize("fuel, _", HEAT)
def test_fuel_use_is_in_proportion_to_the_rated_power(fuel: str, _: float) -> None:
    assert fuel_use(fuel, 7.5) == pytest.approx(tuple(7.5 * use for use in fuel_use(fuel, 1.0)))


def test_no_fuel_stands_outside_the_pinned_list() -> None:
    rows = load("generator_fuels").rows
    assert list(rows) == [fuel for fuel, _ in HEAT]
    units = [row["unit"] for row in rows.values()]
    assert units == ["gal/h a kW"] * 3 + ["ft3/h a kW"]


def test_no_fuel_use_claims_a_published_source() -> None:
    table = load("generator_fuels")
    standings = [table.cite(fuel, "full_load", "half_load").standing for fuel in table.rows]
    weak = (Standing.COMMON_PRACTICE, Standing.FROM_MEMORY)
    assert standings == [weak[0], weak[1], weak[0], weak[0]]
