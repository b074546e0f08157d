"""What holds the verdict down whatever hours and power are, and the tier that a target is for.

Base: 10 kWh, lossless, full, 5 kW, 18:00, winter; 8 kWh at the end of the warranty. The caps are
our own choice: derived.
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

AT_240 = [load(500), load(100, name="Oven", volts=240)]
KILN = [load(500), load(9000, name="Kiln", tier="shed")]
PUMP = [load(100), appliance("well_pump")]
FOR_4_H: Body = {"target_hours": 4}


def unit(**more: Any) -> Body:
    return more


CAPS: list[tuple[str, Body, str, str | None, tuple[str, ...]]] = [
    # what, request, verdict, rule and verdict of the finding beside hours and power, conditions
    ("nothing", known([load(500)], **FOR_4_H), "pass", None, ()),
    (
        "a load left out",
        known(KILN, **FOR_4_H),
        "conditional",
        "left-out conditional",
        ("Kiln stays off the backed-up circuits",),
    ),
    (
        "240 V, unit not known",
        known(AT_240, **FOR_4_H),
        "conditional",
        "needs-240-volts conditional",
        ("the unit gives 240 V for Oven",),
    ),
    (
        "240 V, unit of 120 V",
        known(AT_240, unit(split_phase=False), **FOR_4_H),
        "fail",
        "needs-240-volts fail",
        (),
    ),
    ("240 V given", known(AT_240, unit(split_phase=True), **FOR_4_H), "pass", None, ()),
    (
        "120 V is enough",
        known([load(500, volts=120)], unit(split_phase=False), **FOR_4_H),
        "pass",
        None,
        (),
    ),
    (
        "240 V, but left out",
        known(
            [load(500), load(100, name="Oven", volts=240, tier="shed")],
            unit(split_phase=False),
            **FOR_4_H,
        ),
        "conditional",
        "left-out conditional",
        ("Oven stays off the backed-up circuits",),
    ),
    (
        "older than its warranty",
        known([load(500)], unit(age_years=10.5), **FOR_4_H),
        "undetermined",
        "beyond-warranty undetermined",
        (),
    ),
    ("as old", known([load(500)], unit(age_years=10), **FOR_4_H), "pass", None, ()),
    # 10 years are the default of the warranty.
    (
        "older than the usual warranty",
        without(known([load(500)], unit(age_years=10.5), **FOR_4_H), "warranty_years"),
        "undetermined",
        "beyond-warranty undetermined",
        (),
    ),
    (
        "no watts",
        known([load(0)], **FOR_4_H),
        "undetermined",
        "nothing-to-run undetermined",
        (),
    ),
    (
        "out of season",
        known([load(500, season="summer")], **FOR_4_H),
        "undetermined",
        "nothing-to-run undetermined",
        (),
    ),
    (
        "one season of two",
        without(known([load(500, season="summer")], **FOR_4_H), "season"),
        "undetermined",
        "nothing-to-run undetermined",
        (),
    ),
]


@pytest.mark.parametrize("what, body, verdict, rule, conditions", CAPS, ids=[c[0] for c in CAPS])
def test_what_caps_a_verdict(
    what: str, body: Body, verdict: str, rule: str | None, conditions: tuple[str, ...]
) -> None:
    answer = answered(body)
    assert answer.verdict == verdict, what
    beside = [
        f"{one.rule} {one.verdict}"
        for one in answer.findings
        if one.rule not in ("target-held", "continuous-power")
    ]
    assert beside == ([] if rule is None else [rule]), what
    assert tuple(answer.conditions) == conditions, what


@pytest.mark.parametrize(
    "what, body, asked",
    [
        ("not known", known(AT_240, **FOR_4_H), [True]),
        ("known", known(AT_240, unit(split_phase=True), **FOR_4_H), []),
        ("no 240 V load", known([load(500)], **FOR_4_H), []),
        # 12 kW on 5 kW fail at either voltage.
        ("fails anyhow", known([*AT_240, load(12_000)], **FOR_4_H), [False]),
    ],
)
def test_split_phase_is_asked_for_where_a_load_needs_240_volts(
    what: str, body: Body, asked: list[bool]
) -> None:
    """And claims to decide only where hours and power do not fail by themselves."""
    found = [
        one.can_change_verdict
        for one in answered(body).questions
        if one.pointer == "/battery/split_phase"
    ]
    assert found == asked, what


WELL_PUMPS: list[tuple[str, list[Body], Body, str, list[bool]]] = [
    # what, rows, unit, verdict, whether the question about /use/rows/1/volts decides
    ("not stated, unit of 120 V", PUMP, unit(split_phase=False), "fail", [True]),
    ("not stated, unit of 240 V", PUMP, unit(split_phase=True), "pass", [False]),
    ("not stated, unit not known", PUMP, {}, "conditional", [True]),
    ("120 V", [PUMP[0], PUMP[1] | {"volts": 120}], unit(split_phase=False), "pass", []),
    ("240 V", [PUMP[0], PUMP[1] | {"volts": 240}], unit(split_phase=False), "fail", []),
]


@pytest.mark.parametrize(
    "what, rows, battery, verdict, decides", WELL_PUMPS, ids=[case[0] for case in WELL_PUMPS]
)
def test_a_well_pump_is_taken_as_240_volts_and_asked_about(
    what: str, rows: list[Body], battery: Body, verdict: str, decides: list[bool]
) -> None:
    answer = answered(known(rows, battery, **FOR_4_H))
    pointer = "/use/rows/1/volts"
    assert answer.verdict == verdict, what
    asked = [one for one in answer.questions if one.pointer == pointer]
    assert [one.can_change_verdict for one in asked] == decides, what
    assumed = [(one.value, one.range) for one in answer.assumptions if one.pointer == pointer]
    assert assumed == [(240, [120, 240])] * len(decides), what


CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 25, "hysteresis_percent": 10}
RESPIRATOR = load(100, tier="comfort", life_support=True)
TIERS: list[tuple[str, Body, tuple[float, float, float]]] = [
    # what, request with load control at 50 and 25 %, hours low (8 kWh), typical, high (10 kWh)
    # Critical loads are held for 0.5 kW: comfort off at 50 %, 4 / 0.6 + 4 / 0.5 h aged.
    (
        "critical",
        known([load(500), load(100, tier="comfort")], load_control=CONTROL),
        (4 / 0.6 + 8, 5 / 0.6 + 10, 5 / 0.6 + 10),
    ),
    # No critical load: the target is for the normal ones, off at 25 %.
    (
        "normal is the highest",
        known([load(500, tier="normal")], load_control=CONTROL),
        (6 / 0.5, 7.5 / 0.5, 7.5 / 0.5),
    ),
    # Only comfort: off at 50 %.
    (
        "comfort is the highest",
        known([load(500, tier="comfort")], load_control=CONTROL),
        (4 / 0.5, 5 / 0.5, 5 / 0.5),
    ),
    # The comfort row is somebody's life: its tier counts.
    (
        "life support in comfort",
        known([load(500), RESPIRATOR], load_control=CONTROL),
        (4 / 0.6, 5 / 0.6, 5 / 0.6),
    ),
    # Left out it is not held: 0.5 kW alone.
    (
        "life support left out",
        known([load(500), RESPIRATOR | {"tier": "shed"}], load_control=CONTROL),
        (8 / 0.5, 10 / 0.5, 10 / 0.5),
    ),
    (
        "a lower tier is asked for",
        known([load(500), load(100, tier="comfort")], load_control=CONTROL, target_tier="comfort"),
        (4 / 0.6, 5 / 0.6, 5 / 0.6),
    ),
]


@pytest.mark.parametrize("what, body, hours", TIERS, ids=[case[0] for case in TIERS])
def test_hours_are_those_of_the_tier_that_the_target_is_for(
    what: str, body: Body, hours: tuple[float, float, float]
) -> None:
    """Of the highest tier that there is, and of every kept load of life support at least."""
    answer = answered(body)
    found = (answer.hours_low, answer.hours_typical, answer.hours_high)
    assert found == pytest.approx(hours, abs=1e-9), what
    # The target is read for the same tier: held at high use to the last minute, no longer.
    just = answered(body | {"target_hours": hours[0] - 1 / 60})
    longer = answered(body | {"target_hours": hours[2] + 1 / 60})
    (held,) = [one for one in just.findings if one.rule == "target-held"]
    assert held.verdict in ("pass", "conditional"), what
    assert longer.verdict == "fail", what


def test_high_hours_start_from_a_stated_charge() -> None:
    """5 of 10 kWh at 0.25 kW; from the reserve of 50 % it might be full: 10 / 0.25 h."""
    rows = [load(500, watts_low=250)]
    assert answered(known(rows, unit(start_charge_percent=50))).hours_high == pytest.approx(20)
    assert answered(known(rows, unit(reserve_percent=50))).hours_high == pytest.approx(40)


BILL = {"kind": "monthly_kwh", "monthly_kwh": 30}


def test_a_bill_holds_its_target_conditionally_at_best() -> None:
    """About 1 kWh a day out of 8 kWh: held at once by a day profile, by a bill never wholly."""
    verdicts = {}
    for use in (BILL, {"kind": "day_profile", "critical": [50] * 24}):
        answer = answered(known([], use=use, target_hours=1))
        (finding,) = [one for one in answer.findings if one.rule == "target-held"]
        verdicts[str(use["kind"])] = str(finding.verdict)
    assert verdicts == {"monthly_kwh": "conditional", "day_profile": "pass"}


EVENING_6_KW = load(6000, hours_per_day=1, windows=window(20, 21))
UNSERVED: list[tuple[str, list[Body], Body, float, float]] = [
    # what, rows on 5 kW served in proportion, changes, hours held, hours to dark
    ("critical at once", [load(8000)], {}, 0, 10 / 5),
    # 2 h of 1 kW, 1 h of 5 of 7 kW, 3 kWh left for 3 h of 1 kW.
    ("critical in the evening", [load(1000), EVENING_6_KW], {}, 2, 6),
    # Load control makes the normal tier the one that goes short; critical loads run to the end.
    (
        "a tier that can be dropped",
        [load(1000), EVENING_6_KW | {"tier": "normal"}],
        {"load_control": CONTROL},
        6,
        6,
    ),
    ("enough power", [load(5000)], {}, 2, 2),
]


@pytest.mark.parametrize(
    "what, rows, changes, held, dark", UNSERVED, ids=[case[0] for case in UNSERVED]
)
def test_a_critical_load_that_power_does_not_serve_is_not_held(
    what: str, rows: list[Body], changes: Body, held: float, dark: float
) -> None:
    """In proportion the bus stays up and goes dark later; what is asked for ended before."""
    body = known(rows, power_limit_rule="proportional", **changes)
    answer = answered(body)
    (typical,) = [
        one.hours_to_dark
        for one in answer.readings
        if (one.use, one.capacity, one.start) == ("typical", "now", "reserve")
    ]
    assert answer.hours_typical == pytest.approx(held, abs=1e-9), what
    assert typical == pytest.approx(dark, abs=1e-9), what


def test_without_load_control_every_tier_hangs_on_the_power() -> None:
    """A normal load that nothing drops is unserved like a critical one."""
    rows = [load(1000), EVENING_6_KW | {"tier": "normal"}]
    answer = answered(known(rows, power_limit_rule="proportional"))
    assert answer.hours_typical == pytest.approx(2, abs=1e-9)
