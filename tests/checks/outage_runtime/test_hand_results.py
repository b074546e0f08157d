"""What an answer draws from the hours, by a pencil: tiers, load, units, power, a tenth more.

One case a line, its arithmetic beside it. Base: 10 kWh, lossless, full, 5 kW, 18:00, winter; 8 kWh
at the end of the warranty.
"""

import math
from typing import Any

import pytest

from tests.checks.outage_runtime.asking import (
    Body,
    answered,
    appliance,
    known,
    load,
    reading,
    window,
    without,
)

IDLE_40W = {"kind": "round_trip", "efficiency": 1, "idle_watts": 40}
LOSSES_90 = {"kind": "round_trip", "efficiency": 0.9, "idle_watts": 0}
ONE_WAY_96 = {"kind": "one_way", "charge_efficiency": 0.96, "discharge_efficiency": 0.96}
CURVE = {
    "kind": "part_load",
    "rated_kw": 5,
    "efficiency_at_10_percent": 0.92,
    "efficiency_at_rated": 0.94,
    "cell_efficiency": 1,
}


def kwh(number: float) -> Body:
    return {"kind": "usable", "kwh": number}


def unit(**more: Any) -> Body:
    return more


def control(comfort: float, normal: float, hysteresis: float = 10) -> Body:
    return {
        "comfort_shed_percent": comfort,
        "normal_shed_percent": normal,
        "hysteresis_percent": hysteresis,
    }


LIGHT, MID, HEAVY = load(400), load(800, tier="normal"), load(2000, tier="comfort")
A06 = unit(energy=kwh(20), losses=ONE_WAY_96 | {"idle_watts": 0})

TIERS: list[tuple[str, Body, tuple[float, float, float]]] = [
    # what, request, hours of comfort, of normal, to dark; typical use, new, from the start charge
    # A06: 3.2, 1.2, 0.4 kW at 50 and 25 %, 20 kWh, 0.96: 10/3.2 + 5/1.2 + 5/0.4 kWh/kW, x 0.96.
    ("A06", known([LIGHT, MID, HEAVY], A06, load_control=control(50, 25)), (3.0, 7.0, 19.0)),
    # Without load control nothing goes by itself: all three run until 20 x 0.96 / 3.2 h.
    ("none", known([LIGHT, MID, HEAVY], A06), (6.0, 6.0, 6.0)),
    # From 40 % comfort never runs: 3 kWh x 0.96 / 1.2 kW, then 5 kWh x 0.96 / 0.4 kW.
    (
        "from 40 %",
        known(
            [LIGHT, MID, HEAVY],
            A06 | {"reserve_percent": 40},
            load_control=control(50, 25),
        ),
        (0.0, 2.4, 14.4),
    ),
    # Just at the shed level a tier is not on.
    (
        "from 50 %",
        known([LIGHT, MID, HEAVY], A06 | {"reserve_percent": 50}, load_control=control(50, 25)),
        (0.0, 4.0, 16.0),
    ),
    # 3.2 kW on 2.5 kW: comfort goes at once for want of power; 15 kWh x 0.96 / 1.2, 5 x 0.96 / 0.4.
    (
        "too much power",
        known([LIGHT, MID, HEAVY], A06 | {"continuous_kw": 2.5}, load_control=control(50, 25)),
        (0.0, 12.0, 24.0),
    ),
    # A tier that is dropped for want of power is no trip: the trip comes with 7 kW at 20 h.
    (
        "tier dropped, then a trip",
        known(
            [
                load(1000),
                load(6000, hours_per_day=1, windows=window(20, 21)),
                load(5000, tier="normal", hours_per_day=1, windows=window(18, 19)),
            ],
            unit(energy=kwh(100)),
            load_control=control(0, 0),
        ),
        (math.nan, 0.0, 2.0),
    ),
]


@pytest.mark.parametrize("what, body, hours", TIERS, ids=[case[0] for case in TIERS])
def test_tiers(what: str, body: Body, hours: tuple[float, float, float]) -> None:
    found = reading(answered(body), "typical/now/start")
    comfort = math.nan if found.comfort_hours is None else found.comfort_hours
    actual = (comfort, found.normal_hours, found.hours_to_dark)
    assert actual == pytest.approx(hours, abs=1e-9, nan_ok=True), what


RESERVE_20 = unit(reserve_percent=20, losses=IDLE_40W)
FOR_16_H: Body = {"target_hours": 16}
#: Root of bend x^2 + x = spare, for the part-load curve: 8 kWh / 16 h = 0.5 kW = 0.1 of 5 kW.
P0 = (10 / 0.92 - 1 / 0.94 - 9) / 99
K = 1 / 0.94 - P0 - 1
CURVED = 5000 * (math.sqrt(1 + 4 * K * (0.1 - P0)) - 1) / (2 * K)

LARGEST_LOAD: list[tuple[str, Body, float]] = [
    # what, request, watts: (start - floor) aged / target, less idle, x one way out
    ("lossless", known([load(1)], **FOR_16_H), 8000 / 16),
    ("idle", known([load(1)], unit(losses=IDLE_40W), **FOR_16_H), 8000 / 16 - 40),
    ("one way", known([load(1)], unit(losses=LOSSES_90), **FOR_16_H), 500 * math.sqrt(0.9)),
    ("from the reserve", known([load(1)], unit(reserve_percent=60), **FOR_16_H), 4800 / 16),
    ("floor", known([load(1)], unit(floor_percent=10), **FOR_16_H), 7200 / 16),
    ("two units", known([load(1)], unit(count=2), **FOR_16_H), 1000),
    ("part load", known([load(1)], unit(losses=CURVE), **FOR_16_H), CURVED),
    ("power", known([load(1)], unit(continuous_kw=2), target_hours=1), 2000),
    # 1.6 kWh idle away at 40 W in 40 h.
    ("idle takes it all", known([load(1)], RESERVE_20, target_hours=48), 0),
]


@pytest.mark.parametrize("what, body, watts", LARGEST_LOAD, ids=[case[0] for case in LARGEST_LOAD])
def test_largest_constant_load(what: str, body: Body, watts: float) -> None:
    assert answered(body).largest_constant_load_w == pytest.approx(watts, abs=1e-6), what


@pytest.mark.parametrize(
    "what, body", [(case[0], case[1]) for case in LARGEST_LOAD if case[0] != "idle takes it all"]
)
def test_the_largest_constant_load_is_held_and_no_more(what: str, body: Body) -> None:
    """That load itself lasts exactly to the target, and a thousandth more does not."""
    watts = answered(body).largest_constant_load_w
    assert watts is not None
    held = answered(body | {"use": {"kind": "loads", "rows": [load(watts * (1 - 1e-9))]}})
    more = answered(body | {"use": {"kind": "loads", "rows": [load(watts * 1.001)]}})
    assert held.hours_low >= body["target_hours"], what
    assert more.hours_low < body["target_hours"], what


FOR_A_DAY: Body = {"target_hours": 24}
UNITS: list[tuple[str, Body, int | None, str]] = [
    # what, request, units, what decides
    # 24 kWh at 8 kWh a unit.
    ("energy", known([load(1000)], **FOR_A_DAY), 3, "Energy"),
    ("just enough", known([load(1000)], target_hours=16), 2, "Energy"),
    # Each brings 8 kWh and idles 0.96 kWh away: 24 / 7.04 = 3.4.
    ("idle grows", known([load(1000)], unit(losses=IDLE_40W), **FOR_A_DAY), 4, "Energy"),
    ("what is there counts not", known([load(1000)], unit(count=5), **FOR_A_DAY), 3, "Energy"),
    # Two of 4 kW together on 5 kW a unit; their 0.8 kWh a day are nothing.
    (
        "power",
        known([load(4000, hours_per_day=0.1), load(4000, hours_per_day=0.1)], target_hours=4),
        2,
        "Power",
    ),
    # From 20 %: 1.6 kWh a unit, of which 0.96 kWh idle away: 24 / 0.64 = 37.5.
    ("beyond twenty", known([load(1000)], RESERVE_20, **FOR_A_DAY), None, "Not reachable"),
    # 1.6 kWh a unit idle away in 40 h: no number helps.
    ("idle alone", known([load(1)], RESERVE_20, target_hours=48), None, "more units do not help"),
    ("no target", known([load(1000)]), None, "No target"),
    ("power unknown", without(known([load(1000)], **FOR_A_DAY), "continuous_kw"), 3, "Energy"),
]


@pytest.mark.parametrize("what, body, count, why", UNITS, ids=[case[0] for case in UNITS])
def test_units_needed(what: str, body: Body, count: int | None, why: str) -> None:
    units = answered(body).units
    assert units.count == count, what
    assert why in units.why, what


FRIDGE, KETTLE, OVEN = (
    appliance("refrigerator", watts=150),
    load(1500, name="Kettle", hours_per_day=1),
    load(3000, name="Oven", hours_per_day=1, watts_high=4000),
)
PUMP = load(1000, name="Pump", starting_watts=5000)

POWER: list[tuple[str, list[Body], tuple[float, float, float, float | None]]] = [
    # what, rows, kW all day, with the largest, with the two largest (high use), at a start
    # The diversity rule is common practice, no source.
    ("all day alone", [FRIDGE], (0.15, 0.15, 0.15, 0.15 + 1.2 - 0.15)),
    ("one other", [FRIDGE, KETTLE], (0.15, 1.65, 1.65, 1.65 + 1.2 - 0.15)),
    ("two others", [FRIDGE, KETTLE, OVEN], (0.15, 3.15, 5.65, 3.15 + 1.2 - 0.15)),
    ("two of one kind", [KETTLE | {"quantity": 3}], (0.0, 1.5, 3.0, None)),
    ("all day, in pieces", [load(100, quantity=4)], (0.4, 0.4, 0.4, None)),
    ("start", [load(200), PUMP], (1.2, 1.2, 1.2, 1.2 + 4.0)),
    ("tier shed", [load(200), load(9000, tier="shed")], (0.2, 0.2, 0.2, None)),
    ("out of season", [load(200), load(9000, season="summer")], (0.2, 0.2, 0.2, None)),
    ("of any tier", [load(200), load(700, tier="normal")], (0.9, 0.9, 0.9, None)),
    ("from 20 h a day on", [load(200), load(700, hours_per_day=20)], (0.9, 0.9, 0.9, None)),
    ("below 20 h a day", [load(200), load(700, hours_per_day=19.9)], (0.2, 0.9, 0.9, None)),
]


@pytest.mark.parametrize("what, rows, expected", POWER, ids=[case[0] for case in POWER])
def test_running_power(
    what: str, rows: list[Body], expected: tuple[float, float, float, float | None]
) -> None:
    power = answered(known(rows)).power
    assert power is not None
    found = (power.all_day_kw, power.with_largest_kw, power.with_two_largest_kw)
    assert found == pytest.approx(expected[:3], abs=1e-9), what
    assert power.largest_start_kw == pytest.approx(expected[3], abs=1e-9), what
    assert power.continuous_kw == pytest.approx(5)


MARGINAL: list[tuple[str, Body, float, float, str]] = [
    # what, request, hours by a tenth more energy, by a tenth more power, limited by
    ("energy", known([load(1000)]), 1.0, 0.0, "energy"),
    # 5.2 kW on 5 kW trips at once; 5.5 kW carry it for 10 / 5.2 h.
    ("power", known([load(5200)]), 0.0, 10 / 5.2, "power"),
    # In proportion the fuller inverter empties the cells sooner: 10 / 5.5 h instead of 10 / 5 h.
    (
        "proportional",
        known([load(8000)], power_limit_rule="proportional"),
        0.2,
        10 / 5.5 - 2,
        "energy",
    ),
    ("neither", known([load(1)]), 0.0, 0.0, "nothing"),
]


@pytest.mark.parametrize(
    "what, body, energy, power, limited", MARGINAL, ids=[case[0] for case in MARGINAL]
)
def test_what_a_tenth_more_buys(
    what: str, body: Body, energy: float, power: float, limited: str
) -> None:
    marginal = answered(body).marginal
    assert marginal.more_energy_hours == pytest.approx(energy, abs=1e-9), what
    assert marginal.more_power_hours == pytest.approx(power, abs=1e-9), what
    assert marginal.limited_by == limited, what


def test_the_three_headline_hours_are_their_readings() -> None:
    """Low: high use, aged, from the start charge; typical; high: low use, now, from full."""
    body = known([load(500, watts_low=250, watts_high=1000)], unit(reserve_percent=50))
    answer = answered(body)
    assert answer.hours_low == pytest.approx(10 * 0.8 * 0.5 / 1.0, abs=1e-9)
    assert answer.hours_typical == pytest.approx(10 * 0.5 / 0.5, abs=1e-9)
    assert answer.hours_high == pytest.approx(10 / 0.25, abs=1e-9)


def test_events_stand_in_their_order_with_their_hours() -> None:
    """A06 once more: the grid goes, comfort, normal, dark; hours of day count from the start."""
    body = known([LIGHT, MID, HEAVY], A06, load_control=control(50, 25))
    events = [(e.event, e.hours, e.hour_of_day) for e in answered(body).events]
    names, hours, of_day = zip(*events, strict=True)
    assert names == ("start", "comfort_off", "normal_off", "dark")
    assert hours == pytest.approx((0, 3, 7, 19), abs=1e-9)
    assert of_day == pytest.approx((18, 21, 1, 13), abs=1e-9)
