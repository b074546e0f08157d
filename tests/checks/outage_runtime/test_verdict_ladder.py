"""Which verdict a case has and what it hangs on: one case a line.

Base: 10 kWh, lossless, full, 5 kW, 18:00, winter; 8 kWh at the end of the warranty. The ladder of
readings is our own choice: pass at high use, at the end of the warranty, from the start charge,
over the whole range of every default.
"""

from typing import Any

import pytest

from tests.checks.outage_runtime.asking import (
    Body,
    answered,
    appliance,
    known,
    load,
    window,
    without,
)

#: 500 W, 1,000 W at high use: 16 h aged, 8 h aged at high use, 20 h new, 10 h new at high use.
WIDE = load(500, watts_high=1000)
#: 500 W, 550 W at high use: 16 h aged, 14.5 h aged at high use, 18.2 h new at high use.
NARROW = load(500, watts_high=550)
CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 25, "hysteresis_percent": 10}
NOMINAL = {"kind": "nominal", "kwh": 10}


def unit(**more: Any) -> Body:
    return more


#: What is held at typical use, now, from full: numbers of the base, 24 h of 0.5 kW a day.
AGEING = "the battery still holds the 10.0 kWh of today"
TYPICAL = "the loads take no more than the typical 12 kWh a day"
FULL = "the battery is full when the outage starts"

CASES: list[tuple[str, Body, str, tuple[str, ...]]] = [
    # what, request, verdict, words that the conditions must hold
    ("high use, aged", known([WIDE], target_hours=8), "pass", ()),
    ("only new", known([NARROW], target_hours=17), "conditional", (AGEING,)),
    ("only at typical use", known([WIDE], target_hours=15), "conditional", (TYPICAL,)),
    ("typical and new", known([WIDE], target_hours=19), "conditional", (TYPICAL, AGEING)),
    ("not at all", known([WIDE], target_hours=21), "fail", ()),
    ("exactly", known([load(500)], target_hours=16), "pass", ()),
    (
        "only from full",
        known([load(500)], unit(reserve_percent=50), target_hours=16),
        "conditional",
        (FULL,),
    ),
    # A stated charge is what there is: 5 kWh at most 10 h.
    (
        "from full does not help",
        known([load(500)], unit(start_charge_percent=50), target_hours=16),
        "fail",
        (),
    ),
    # Aged 9.5 x 0.8 / 0.5 = 15.2 h as assumed, 9 x 0.8 / 0.5 = 14.4 h at the low end; new 18 h.
    (
        "a default decides the pass",
        known([load(500)], unit(energy=NOMINAL), target_hours=15),
        "conditional",
        ("the battery still holds the 9.5 kWh of today",),
    ),
    # New 19 h as assumed, 18 h at the low end.
    (
        "a default decides all",
        known([load(500)], unit(energy=NOMINAL), target_hours=18.5),
        "undetermined",
        (),
    ),
    (
        "reserve unknown",
        without(known([load(50)], target_hours=4), "reserve_percent"),
        "conditional",
        (FULL,),
    ),
    (
        "reserve unknown, charge stated",
        without(
            known([load(50)], unit(start_charge_percent=80), target_hours=4), "reserve_percent"
        ),
        "pass",
        (),
    ),
    ("no target", known([load(50)]), "undetermined", ()),
    (
        "power unknown",
        without(known([load(50)], target_hours=4), "continuous_kw"),
        "undetermined",
        (),
    ),
    (
        "two at once are too much",
        known(
            [
                load(3000, name="Oven", hours_per_day=0.1),
                load(2500, name="Kettle", hours_per_day=0.1),
            ],
            target_hours=4,
        ),
        "conditional",
        ("only one of the loads that are not on all day runs at a time",),
    ),
    ("one is too much", known([load(6000, hours_per_day=0.1)], target_hours=4), "fail", ()),
    (
        "life support",
        known([load(50, life_support=True)], target_hours=4),
        "conditional",
        ("second plan",),
    ),
    (
        "life support, both plans",
        known(
            [load(50, life_support=True)],
            target_hours=4,
            medical_plan={"utility_programme": True, "second_plan": True},
        ),
        "conditional",
        ("second plan",),
    ),
    (
        "life support by the catalogue",
        known([appliance("medical_cpap")], target_hours=4),
        "conditional",
        ("second plan",),
    ),
    (
        "day profile",
        known([], target_hours=4, use={"kind": "day_profile", "critical": [50] * 24}),
        "undetermined",
        (),
    ),
    (
        "bill",
        known([], target_hours=0.5, use={"kind": "monthly_kwh", "monthly_kwh": 30}),
        "undetermined",
        (),
    ),
    (
        "bill, too long",
        known([], target_hours=336, use={"kind": "monthly_kwh", "monthly_kwh": 900}),
        "fail",
        (),
    ),
    # 8 kWh at 2.5 kW last 3.2 h without load control; with it critical loads run on for hours.
    (
        "load control",
        known([load(500), load(2000, tier="comfort")], target_hours=6, load_control=CONTROL),
        "conditional",
        ("listed load control",),
    ),
    (
        "load control not needed",
        known([load(500), load(2000, tier="comfort")], target_hours=3, load_control=CONTROL),
        "pass",
        (),
    ),
    (
        "nothing to shed",
        known([load(500)], target_hours=6, load_control=CONTROL),
        "pass",
        (),
    ),
    (
        "no load control, lower tier asked",
        known([load(500), load(500, tier="comfort")], target_hours=8, target_tier="comfort"),
        "pass",
        (),
    ),
    (
        "lower tier is shed",
        known(
            [load(500), load(500, tier="comfort")],
            target_hours=8,
            target_tier="comfort",
            load_control=CONTROL | {"comfort_shed_percent": 100},
        ),
        "fail",
        (),
    ),
    (
        "worse season",
        without(
            known([load(50), load(2000, season="summer")], target_hours=48),
            "season",
        ),
        "fail",
        (),
    ),
    # 8 kWh run from 22 to 6 h, 12 h after the start.
    (
        "to the end of the window",
        known([load(1000, hours_per_day=8, windows=window(22, 6))], target_hours=12),
        "pass",
        (),
    ),
]


@pytest.mark.parametrize("what, body, verdict, words", CASES, ids=[case[0] for case in CASES])
def test_verdict_and_conditions(
    what: str, body: Body, verdict: str, words: tuple[str, ...]
) -> None:
    answer = answered(body)
    assert answer.verdict == verdict, what
    assert bool(answer.conditions) == (verdict == "conditional"), what
    hangs_on = "; ".join(answer.conditions)
    for said in words:
        assert said in hangs_on, what
