"""The defaults of the outage estimate are whole and lie in their ranges."""

import pytest

from service.published.loader import load
from service.published.outage_defaults import Default, Worse, outage_defaults

# id | value | low | high | worse. Source: common practice, or as the row's standing says.
PINNED = (
    ("reserve_percent", 20, 0, 100, "low"),
    ("end_of_warranty_retention", 0.70, 0.60, 0.80, "low"),
    ("round_trip_efficiency", 0.85, 0.80, 0.92, "low"),
    ("idle_w", 40, 20, 60, "high"),
    ("depth_of_discharge", 0.95, 0.90, 1.0, "low"),
    ("start_hour", 18, 18, 18, "either"),
    ("ambient_degf", 77, 50, 104, "low"),
    ("warranty_years", 10, 10, 15, "low"),
    ("floor_percent", 0, 0, 10, "high"),
    ("normal_shed_percent", 25, 10, 40, "low"),
    ("comfort_shed_percent", 50, 30, 70, "low"),
    ("hysteresis_percent", 10, 5, 20, "low"),
    ("black_start_delay_s", 300, 0, 600, "high"),
    ("monthly_energy_low_factor", 0.6, 0.6, 0.6, "high"),
    ("monthly_energy_high_factor", 1.6, 1.6, 1.6, "high"),
    ("system_losses_percent", 14, 10, 20, "high"),
    ("shading_percent", 10, 0, 30, "high"),
    ("temperature_coefficient", 0.45, 0.45, 0.45, "high"),
    ("dc_over_ac", 1.3, 1.3, 1.3, "high"),
    ("solar_inverter_efficiency", 0.96, 0.96, 0.96, "low"),
    ("dc_charge_efficiency", 0.97, 0.97, 0.97, "low"),
    ("sun_reconnect_s", 300, 300, 300, "high"),
    ("generator_start_percent", 25, 25, 25, "either"),
    ("generator_stop_percent", 85, 85, 85, "either"),
    ("generator_usable_part", 0.8, 0.8, 0.8, "low"),
    ("typical_year_low", 0.97, 0.97, 0.97, "low"),
    ("typical_year_high", 1.12, 1.12, 1.12, "high"),
    ("charge_over_continuous", 0.5, 0.5, 0.5, "low"),
    ("charge_over_energy", 0.25, 0.25, 0.25, "low"),
)


@pytest.mark.parametrize("name, value, low, high, worse", PINNED)
def test_each_default_has_its_value_range_and_worse_end(
    name: str, value: float, low: float, high: float, worse: str
) -> None:
    one = outage_defaults()[name]
    assert (one.value, one.low, one.high, one.worse) == (value, low, high, Worse(worse))


def test_no_default_stands_outside_the_pinned_list() -> None:
    assert list(outage_defaults()) == [name for name, *_ in PINNED]


@pytest.mark.parametrize("one", outage_defaults().values(), ids=list(outage_defaults()))
def test_each_default_says_why_in_one_sentence(one: Default) -> None:
    assert one.unit
    assert one.reason.endswith(".")
    assert one.reason.count(". ") == 0
    assert load("outage_defaults").cite(one.id, "value").standing is one.standing


def test_shedding_leaves_room_for_its_hysteresis() -> None:
    found = outage_defaults()
    comfort, normal = found["comfort_shed_percent"], found["normal_shed_percent"]
    assert comfort.value > normal.value
    assert comfort.high + found["hysteresis_percent"].high <= 100
    assert found["hysteresis_percent"].low > 0


@pytest.mark.parametrize(
    "name, column, ends",
    [
        ("temperature_capacity", "factor_low", ((-10, 0.70), (25, 1))),
        ("temperature_capacity", "factor_typ", ((-10, 0.75), (25, 1))),
        ("temperature_power", "factor", ((45, 1), (55, 0.5))),
    ],
)
def test_temperature_factors_rise_in_temperature_order_and_move_one_way(
    name: str, column: str, ends: tuple[tuple[float, float], tuple[float, float]]
) -> None:
    table = load(name)
    points = [
        (table.number(key, "temperature_degc"), table.number(key, column)) for key in table.rows
    ]
    assert (points[0], points[-1]) == ends
    assert [t for t, _ in points] == sorted({t for t, _ in points})
    factors = [factor for _, factor in points]
    assert factors in (sorted(factors), sorted(factors, reverse=True))
    assert all(0 < factor <= 1 for factor in factors)


def test_the_low_capacity_factor_never_exceeds_the_typical_one() -> None:
    table = load("temperature_capacity")
    for key in table.rows:
        assert table.number(key, "factor_low") <= table.number(key, "factor_typ")
