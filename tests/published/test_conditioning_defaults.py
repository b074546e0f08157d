"""The defaults of heating and cooling units are whole, in order of use and within reason."""

import pytest

from service.published.conditioning_defaults import conditioning_defaults
from service.published.loader import load
from service.published.source import Standing

# id | low, typical, high use | unit. Source: common practice, or as the row's standing says.
PINNED = (
    ("cooling_indoor_degf", 78, 76, 74, "degF"),
    ("heating_indoor_degf", 66, 68, 70, "degF"),
    ("cooling_gain_k", 5, 5, 5, "K"),
    ("heating_gain_k", 3, 3, 3, "K"),
    ("oversize", 1.25, 1.1, 1.0, "1"),
    ("cooling_eer", 14, 12, 10, "Btu/(W h)"),
    ("heat_pump_ratio", 10, 8.5, 6.8, "Btu/(W h)"),
    ("resistance_ratio", 3.412, 3.412, 3.412, "Btu/(W h)"),
    ("blower_watts_per_ton", 100, 150, 200, "W/ton"),
    ("cooling_power_slope", 0.011, 0.011, 0.011, "1/K"),
    ("cooling_least_power", 0.8, 0.8, 0.8, "1"),
)

#: Whether a larger value takes more energy, of every row with a range.
MORE_TAKES_MORE = {
    "cooling_indoor_degf": False,
    "heating_indoor_degf": True,
    "oversize": False,
    "cooling_eer": False,
    "heat_pump_ratio": False,
    "blower_watts_per_ton": True,
}


@pytest.mark.parametrize("name, low, typical, high, unit", PINNED)
def test_each_default_has_its_three_levels_and_its_unit(
    name: str, low: float, typical: float, high: float, unit: str
) -> None:
    assert conditioning_defaults()[name] == (low, typical, high)
    assert load("conditioning_defaults").row(name)["unit"] == unit


def test_no_default_stands_outside_the_pinned_list() -> None:
    assert list(conditioning_defaults()) == [name for name, *_ in PINNED]


def test_every_range_runs_from_low_to_high_use() -> None:
    ranged = {name: one for name, one in conditioning_defaults().items() if one.low != one.high}
    assert set(ranged) == set(MORE_TAKES_MORE)
    for name, (low, typical, high) in ranged.items():
        order = (low, typical, high) if MORE_TAKES_MORE[name] else (high, typical, low)
        assert order[0] < order[1] < order[2]


def test_oversize_runs_from_none_to_a_quarter() -> None:
    oversize = conditioning_defaults()["oversize"]
    assert (oversize.high, oversize.low) == (1.0, 1.25)


def test_electric_heat_gives_what_it_takes() -> None:
    """A watt hour is 3,600 J, a Btu of the International Table 1,055.055853 J."""
    assert conditioning_defaults()["resistance_ratio"].typical == pytest.approx(
        3600.0 / 1055.055853, abs=5e-4
    )


def test_a_heat_pump_gives_more_than_electric_heat_of_the_same_power() -> None:
    found = conditioning_defaults()
    assert found["heat_pump_ratio"].high > found["resistance_ratio"].high


@pytest.mark.parametrize("name", conditioning_defaults())
def test_each_default_has_a_standing_and_says_what_it_is_in_one_sentence(name: str) -> None:
    table = load("conditioning_defaults")
    reason = table.row(name)["reason"]
    assert reason.endswith(".")
    assert reason.count(". ") == 0
    # No row names a published table, so none may claim the standing of one.
    assert table.cite(name, "typical").standing in (Standing.COMMON_PRACTICE, Standing.DERIVED)
