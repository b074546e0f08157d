"""What is carried, which rule carries, margins, and motors that start in the same moment."""

import pytest

from service.checks.surge_feasibility.answer import MotorStart
from service.findings import Finding, Verdict
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, SMALL, Body, answer, body

FAIL, OPEN, IF, PASS = Verdict
PUMP: Body = {"id": "well", "kind": "well_pump", "locked_rotor_a": 48, "rated_load_a": 9.8}
#: 40 A at 240 V are 9,600 VA.
BEHIND = {"kind": "automatic", "connected_load_va": 14_000}


def finding(made: Body, rule: str) -> Finding:
    return next(found for found in answer(made).findings if found.rule == rule)


# state, permit date, verdict where the source keeps the largest-load rule alone. California: the
# 2025 code from 1 January 2026, see table code_editions; the carrying rule is our reading.
CARRIES = [
    ("CA", "2026-01-01", FAIL),
    ("CA", "2028-12-31", FAIL),
    ("CA", None, FAIL),
    ("CA", "2025-12-31", OPEN),
    ("NV", "2026-06-01", OPEN),
    (None, "2026-06-01", OPEN),
]


@pytest.mark.parametrize("state, day, verdict", CARRIES)
def test_which_rule_carries(state: str | None, day: str | None, verdict: Verdict) -> None:
    made = body(COMPRESSOR, transfer=BEHIND, state=state, permit_date=day)
    assert finding(made, "backed-up-capacity").verdict is verdict
    other = next(a for a in answer(made).alternatives if a.id == "largest-load-rule")
    assert other.verdict is IF
    assert other.flips_verdict


def test_a_source_that_breaks_both_rules_fails_anywhere() -> None:
    load = [{"name": "furnace", "watts": 12_000, "circuit": "both_legs", "power_factor": 1}]
    made = body(transfer=BEHIND, running=load, state=None)
    assert finding(made, "backed-up-capacity").verdict is FAIL


def test_the_state_is_asked_where_it_decides() -> None:
    made = body(COMPRESSOR, transfer=BEHIND, state=None)
    asked = {question.pointer: question for question in answer(made).questions}
    assert asked["/state"].can_change_verdict
    assert "/state" not in {question.pointer for question in answer(body(COMPRESSOR)).questions}


def test_mistake_14_motors_that_restart_in_the_same_moment() -> None:
    """Each starts alone; together they take more than the highest rating."""
    free = COMPRESSOR | {"delay": False}
    more = LARGE | {"surge": [{"seconds": 0.4, "amps": 160}, {"seconds": 10, "amps": 58}]}
    together = finding(body(free, PUMP, inverter=more), "restart-together")
    assert together.verdict == PASS
    motors = answer(body(free, PUMP, inverter=more)).motors
    assert together.actual == pytest.approx(sum(_amps(motors)))
    less = LARGE | {"surge": [{"seconds": 0.4, "amps": 100}, {"seconds": 10, "amps": 58}]}
    behind = {"kind": "automatic", "connected_load_va": 8000}
    found = answer(body(free, PUMP, inverter=less, transfer=behind))
    assert next(f for f in found.findings if f.rule == "restart-together").verdict == IF
    assert any("same moment" in condition for condition in found.conditions)
    held = answer(body(COMPRESSOR, PUMP, inverter=less))
    assert "restart-together" not in {f.rule for f in held.findings}


def _amps(motors: list[MotorStart]) -> list[float]:
    return [motor.start_amps for motor in motors if motor.start_amps is not None]


def margins(made: Body) -> dict[str, float]:
    """Return the margins of the one motor, all of which are met."""
    (motor,) = answer(made).motors
    assert all(margin.met for margin in motor.margins)
    return {margin.limit: margin.value for margin in motor.margins}


def test_margins_by_hand() -> None:
    """Of a stiff source without anything beside: what there is by what is needed.

    77 A at 230 V are 80.3 A at 240 V, less what a wire of 60 ft and the source hold back.
    """
    stiff = LARGE | {"resistance_ohm": 0, "reactance_ohm": 0}
    found = margins(body(COMPRESSOR | {"wire": {"length": 0}}, inverter=stiff, running=[]))
    assert found["surge-amps"] == pytest.approx(130 / (77 * 240 / 230))
    # Torque at standstill 0.35 and breakaway 0.12 of the table, volts 240/230 squared.
    assert found["breakaway-torque"] == pytest.approx(0.35 / 0.12 * (240 / 230) ** 2)
    # At rated torque a motor takes near to its rated power: fewer amps at 240 V than at 230 V.
    assert found["running-amps"] == pytest.approx(40 / (14 * 230 / 240), rel=0.02)
    assert found["motor-volts"] == pytest.approx(240 / 230)


def test_a_thin_margin_is_said_and_changes_no_word() -> None:
    close = LARGE | {"surge": [{"seconds": 0.19, "amps": 130}, {"seconds": 10, "amps": 58}]}
    (motor,) = answer(body(COMPRESSOR, inverter=close, running=[])).motors
    wide = answer(body(COMPRESSOR, running=[])).motors[0]
    assert motor.word == wide.word == "starts"
    assert "Thin: it uses most of a rating's time." in motor.statement
    assert "Thin" not in wide.statement


def test_a_delay_timer_is_a_remedy_of_its_own() -> None:
    motor = answer(body(COMPRESSOR | {"delay": False})).motors[0]
    assert {remedy.id: remedy.word for remedy in motor.remedies}["delay-timer"] == "starts"
    waits = answer(body(COMPRESSOR, inverter=SMALL)).motors[0]
    assert "delay-timer" not in {remedy.id for remedy in waits.remedies}


def test_the_leg_of_a_load_is_asked_where_it_decides() -> None:
    """1,200 W beside 2,500 W are 30.8 A of 25 A; on the other leg they are nothing."""
    rows = [
        {"name": "heater", "watts": 2500, "power_factor": 1, "circuit": "leg_1"},
        {"name": "kettle", "watts": 1200, "power_factor": 1},
    ]
    asked = {question.pointer for question in answer(body(inverter=SMALL, running=rows)).questions}
    assert "/running/1/circuit" in asked
    assert "/running/0/circuit" not in asked
    easy = {question.pointer for question in answer(body(inverter=LARGE, running=rows)).questions}
    assert "/running/1/circuit" not in easy


def test_what_a_telephone_call_gives_is_a_hint_and_no_verdict() -> None:
    call = {"id": "ac", "kind": "compressor_scroll", "tons": 2, "hum": "steady", "age_years": 20}
    found = answer(body(call, inverter=LARGE))
    assert found.motors[0].verdict is OPEN
    reading = next(a for a in found.alternatives if a.id == "drive-fed-machine")
    assert reading.verdict is not FAIL
    photo = found.questions[0]
    assert photo.pointer == "/motors/0/locked_rotor_a"
    assert "drive" in photo.why
    assert "age" in photo.why
    quiet = answer(body(call | {"hum": "on_and_off"}, inverter=LARGE))
    assert "drive-fed-machine" not in {a.id for a in quiet.alternatives}
