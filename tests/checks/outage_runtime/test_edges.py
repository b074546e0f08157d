"""Requests at the edge of the contract: a defined answer, finite numbers, no exception."""

import json
import math
from collections.abc import Iterator
from typing import Any

import pytest

from service.published.appliances import APPLIANCE_IDS
from tests.checks.outage_runtime.asking import (
    Body,
    answered,
    appliance,
    known,
    load,
    reading,
    sent,
    window,
    without,
)

CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 25, "hysteresis_percent": 10}
TIGHT = {"comfort_shed_percent": 100, "normal_shed_percent": 100, "hysteresis_percent": 50}
LOOSE = {"comfort_shed_percent": 0, "normal_shed_percent": 0, "hysteresis_percent": 1}
IDLE_2_KW = {"kind": "round_trip", "efficiency": 0.3, "idle_watts": 2000}
POOR = {"kind": "one_way", "charge_efficiency": 0.3, "discharge_efficiency": 0.3}
CURVE = {"kind": "part_load", "rated_kw": 100, "cell_efficiency": 0.5}
CURVE |= {"efficiency_at_10_percent": 0.85, "efficiency_at_rated": 0.85}
PLAN = {"utility_programme": True, "second_plan": True}
MIXED = [load(300), load(800, tier="normal"), load(2000, tier="comfort")]
BARE: Body = {
    "use": {"kind": "loads", "rows": [{"kind": "own", "name": "x", "watts": 1}]},
    "battery": {"energy": {"kind": "usable", "kwh": 0.1}},
}
BILL = {"kind": "monthly_kwh", "monthly_kwh": 20_000}
WRAPS = [load(1000, hours_per_day=2, windows=window(23.75, 0.25) + window(12, 13.5))]

EDGES: list[tuple[str, Body]] = [
    ("nothing but what is required", BARE),
    ("empty at the start", known([load(500)], {"start_charge_percent": 0}, target_hours=1)),
    ("reserve of nothing", known([load(500)], {"reserve_percent": 0}, target_hours=1)),
    (
        "floor above the start",
        known([load(500)], {"reserve_percent": 10, "floor_percent": 50}, target_hours=1),
    ),
    ("zero watts", known([load(0)], target_hours=24)),
    ("zero hours", known([load(500, hours_per_day=0)], target_hours=24)),
    ("zero duty", known([load(500, duty=0)], target_hours=24)),
    ("zero watts, idle", known([load(0)], {"losses": IDLE_2_KW}, target_hours=24)),
    ("a hundred pieces", known([load(50_000, quantity=100)], target_hours=1)),
    ("sixty rows", known([load(10 * row) for row in range(60)], target_hours=336)),
    (
        "sixty rows of four windows",
        known(
            [
                load(
                    10,
                    hours_per_day=1,
                    windows=[
                        {"start_hour": (row + 6.1 * k) % 23, "end_hour": (row + 6.1 * k) % 23 + 0.9}
                        for k in range(4)
                    ],
                )
                for row in range(60)
            ],
            target_hours=336,
        ),
    ),
    ("the whole catalogue", known([appliance(name) for name in APPLIANCE_IDS], target_hours=24)),
    ("two weeks", known([load(20)], target_hours=336)),
    ("the shortest target", known([load(20)], target_hours=0.25)),
    ("a huge battery", known([load(1)], {"energy": {"kind": "usable", "kwh": 1000}, "count": 20})),
    ("a tiny battery", known([load(50_000)], {"energy": {"kind": "usable", "kwh": 0.1}})),
    ("summer load in winter", known([load(500, season="summer")], target_hours=24)),
    (
        "seasonal load, season open",
        without(known([load(500, season="summer")], target_hours=24), "season"),
    ),
    ("windows past midnight", known(WRAPS, target_hours=24)),
    ("start just before midnight", known(WRAPS, start_hour=23.75, target_hours=24)),
    ("start at midnight", known(WRAPS, start_hour=0, target_hours=24)),
    ("start off the quarter hours", known(WRAPS, start_hour=7.3331, target_hours=24)),
    ("nothing but tier shed", known([load(500, tier="shed")], target_hours=24)),
    ("proportional overload", known([load(50_000)], power_limit_rule="proportional")),
    ("overload", known([load(50_000)], target_hours=1)),
    ("dark a moment before midnight", known([load(10_000 / 5.997)], target_hours=1)),
    ("the weakest inverter", known([load(500)], {"continuous_kw": 0.05}, target_hours=1)),
    ("medical plan without device", known([load(500)], medical_plan=PLAN)),
    ("medical plan", known([appliance("medical_o2")], medical_plan=PLAN, target_hours=24)),
    ("all tiers shed from the start", known(MIXED, load_control=TIGHT, target_hours=24)),
    ("no tier ever shed", known(MIXED, load_control=LOOSE, target_hours=24)),
    (
        "control and proportional",
        known(MIXED, load_control=CONTROL, power_limit_rule="proportional"),
    ),
    ("no critical load", known(MIXED[1:], load_control=CONTROL, target_hours=24)),
    ("poor efficiency", known([load(500)], {"losses": POOR}, target_hours=1)),
    ("oversized inverter", known([load(1)], {"losses": CURVE, "count": 20}, target_hours=1)),
    ("frost", known([load(500)], {"ambient": 14}, target_hours=1)),
    ("heat", known([load(500)], {"ambient": 131}, target_hours=1)),
    ("old", known([load(500)], {"age_years": 30, "warranty_years": 1}, target_hours=1)),
    ("the largest bill", known([], use=BILL, target_hours=24)),
    ("the smallest bill", known([], use=BILL | {"monthly_kwh": 1, "share_percent": 1})),
    ("twelve months", known([], use=BILL | {"monthly_kwh": [1.0] * 11 + [20_000.0]})),
    ("no power at all", known([], use={"kind": "day_profile", "critical": [0] * 24})),
    ("tier asked that is not there", known([load(500)], target_tier="comfort", target_hours=1)),
]


def floats(value: Any) -> Iterator[float]:
    if isinstance(value, float):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from floats(item)
    elif isinstance(value, list):
        for item in value:
            yield from floats(item)


@pytest.mark.parametrize("what, body", EDGES, ids=[case[0] for case in EDGES])
def test_an_edge_has_a_defined_answer(what: str, body: Body) -> None:
    """Verdict, words and finite numbers, all within what they can be."""
    tree = json.loads(sent(body, "working", "series", "energy_balance"))
    assert all(math.isfinite(number) for number in floats(tree)), what
    assert tree["verdict"] in ("pass", "conditional", "undetermined", "fail")
    assert bool(tree["conditions"]) == (tree["verdict"] == "conditional")
    horizon = max(168, body.get("target_hours", 0))
    assert len(tree["readings"]) == 12
    for one in tree["readings"]:
        assert 0 <= one["hours_to_dark"] <= horizon
        assert one["at_least"] == (one["ended_by"] == "nothing") == (one["dark_at_hour"] is None)
        assert one["dark_at_hour"] is None or 0 <= one["dark_at_hour"] < 24
        for tier in ("normal_hours", "comfort_hours"):
            assert one[tier] is None or 0 <= one[tier] <= one["hours_to_dark"]
    assert all(0 <= event["hour_of_day"] < 24 for event in tree["events"])


NOW = "typical/now/start"
HOURS: list[tuple[str, float, bool]] = [
    # edge above, hours to dark at typical use, now, from the start charge; whether that is a floor
    ("empty at the start", 0, False),
    ("floor above the start", 0, False),
    ("overload", 0, False),
    ("a tiny battery", 0, False),
    ("zero watts, idle", 10 / 2, False),
    ("nothing but tier shed", 168, True),
    ("summer load in winter", 168, True),
    ("zero watts", 168, True),
    ("two weeks", 336, True),
    ("a huge battery", 168, True),
    ("proportional overload", 10 / 5, False),
    ("poor efficiency", 10 / (0.5 / 0.3 + 0.04), False),
    ("frost", 7 / 0.5, False),
    ("all tiers shed from the start", 10 / 0.3, False),
]


@pytest.mark.parametrize("what, hours, floor", HOURS, ids=[case[0] for case in HOURS])
def test_hours_of_an_edge(what: str, hours: float, floor: bool) -> None:
    found = reading(answered(dict(EDGES)[what]), NOW)
    assert found.hours_to_dark == pytest.approx(hours, abs=1e-9)
    assert found.at_least is floor


def test_two_weeks_are_followed_to_their_end() -> None:
    """20 W of 10 kWh last 500 h when new and 400 h aged: both beyond the target of 336 h."""
    answer = answered(dict(EDGES)["two weeks"])
    assert answer.verdict == "pass"
    assert answer.hours_low == 336


def test_the_season_answered_for_is_the_stated_one_or_the_worse() -> None:
    body = known([load(100), load(500, season="summer")], target_hours=24)
    assert answered(body).season == "winter"
    assert answered(body | {"season": "summer"}).season == "summer"
    assert answered(without(body, "season")).season == "summer"
    winter = known([load(100), load(500, season="winter")], target_hours=24)
    assert answered(without(winter, "season")).season == "winter"


def test_tiers_that_no_row_has_have_no_hours() -> None:
    one = reading(answered(known([load(500), load(10, tier="normal")])), NOW)
    assert one.normal_hours == pytest.approx(one.hours_to_dark)
    assert one.comfort_hours is None


def test_the_reference_comes_back_and_changes_nothing_else() -> None:
    body = known([load(500)], target_hours=12)
    plain, named = json.loads(sent(body)), json.loads(sent(body | {"reference": "lead-0042"}))
    assert named.pop("reference") == "lead-0042"
    assert plain.pop("reference") is None
    assert plain == named


def test_the_same_request_gives_the_same_bytes() -> None:
    body = dict(EDGES)["the whole catalogue"]
    assert sent(body, "working", "series", "energy_balance") == sent(
        body, "working", "series", "energy_balance"
    )
