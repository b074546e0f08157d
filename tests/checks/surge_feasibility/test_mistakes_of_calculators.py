"""Mistakes that calculators of starts are known for, by the number other tests name them by."""

import msgspec
import pytest

from service.checks.surge_feasibility.evidence import motor_evidence
from service.facts.motor import Motor
from service.findings import Verdict
from service.published.motors import full_load_current, motor_kind
from tests.checks.surge_feasibility.one_start import one_start, solved, torque_at_standstill
from tests.checks.surge_feasibility.requests import (
    COMPRESSOR,
    LARGE,
    SMALL,
    Body,
    answer,
    body,
    only,
)

FAIL, OPEN, IF, PASS = Verdict
#: A well pump of 1 hp, 48 A of locked rotor. Invented.
PUMP: Body = {"id": "well", "kind": "well_pump", "locked_rotor_a": 48, "volts": 230}
#: Enough for the pump alone, 50 A at 240 V, and not beside what a compressor runs on.
TEN_SECONDS = LARGE | {"surge": [{"seconds": 10, "amps": 58}], "beyond_rating": "trips"}
WATTS_A_HORSEPOWER = 745.7


def test_mistake_6_the_nameplate_goes_before_the_table() -> None:
    """Full-load amps of the table stand in for a nameplate, and never over one."""
    pump = PUMP | {"horsepower": 1}
    for known, amps in (({}, full_load_current(1, 230)), ({"rated_load_a": 6.5}, 6.5)):
        found = motor_evidence(msgspec.convert(pump | known, Motor))
        assert found is not None
        assert found.rated == amps


@pytest.mark.parametrize("horsepower", [0.5, 1, 2, 5])
def test_mistake_6_horsepower_is_what_the_shaft_gives(horsepower: float) -> None:
    """A motor takes its amps times volts times power factor, a quarter above 746 W a horsepower."""
    motor = {"id": "well", "kind": "well_pump", "horsepower": horsepower, "volts": 230}
    strong = LARGE | {"continuous_a": 900, "surge": [{"seconds": 10, "amps": 1900}]}
    watts = 1000 * answer(body(motor, inverter=strong, watts=0)).steady.running_kw
    amps = full_load_current(horsepower, 230)
    assert amps is not None
    assert watts == pytest.approx(240 * amps * motor_kind("well_pump").running_power_factor)
    assert watts > 1.25 * WATTS_A_HORSEPOWER * horsepower


def test_mistake_6_rated_load_amps_are_the_most_that_runs() -> None:
    """Nobody is told that a compressor draws less than its rated-load amps once it runs."""
    found = answer(body(COMPRESSOR, watts=0)).steady
    assert found.leg_likely_a == pytest.approx(14)


def test_mistake_7_the_peak_is_no_energy() -> None:
    """18 kVA for 0.11 s are under 0.6 Wh, even if all of it were power all the while."""
    found = only(body(COMPRESSOR, watts=0))
    assert found.most_kva is not None
    assert found.start_seconds is not None
    # By hand: 230 V by 77 A at 0.66, 120 ft of 10 AWG at 1.2 + 0.063j ohm/kft, 0.02 + 0.05j ohm.
    at_panel = 230 / 77 * (0.66 + 0.7513j) + 0.12 * (1.2 + 0.063j)
    amps = 240 / abs(at_panel + 0.02 + 0.05j)
    assert found.most_kva == pytest.approx(amps**2 * abs(at_panel) / 1000, rel=1e-4)
    assert found.most_kva * 1000 * found.start_seconds / 3600 < 0.6


def test_mistake_7_batteries_are_held_against_what_runs() -> None:
    """7 kW of batteries sustain what runs, though a start is of 18 kVA; 3 kW do not."""
    for kilowatts, verdict in ((7.0, PASS), (3.0, FAIL)):
        found = answer(body(COMPRESSOR, inverter=LARGE | {"battery_kw": kilowatts}))
        (finding,) = [one for one in found.findings if one.rule == "battery-power"]
        assert (finding.verdict, finding.actual) == (verdict, found.steady.running_kw)
        assert found.motors[0].most_kva is not None
        assert found.motors[0].most_kva > 7


@pytest.mark.parametrize("part, square", [(0.9, 0.81), (0.7, 0.49), (0.5, 0.25)])
def test_mistake_8_torque_goes_with_the_square_of_the_volts(part: float, square: float) -> None:
    """70 % of the volts leave 49 % of the torque, not 70 %."""
    full, low = (torque_at_standstill(one_start(source_volts=240 * x)) for x in (1.0, part))
    assert low / full == pytest.approx(square, rel=1e-9)


def test_mistake_8_a_start_that_a_straight_line_would_promise() -> None:
    """At 55 % of the volts 0.35 of torque is 0.19 in a straight line and 0.11 in truth, below 0.12.

    At the 37.5 A of a small inverter it is the same: 47 % of the amps.
    """
    load = {"breakaway": 0.12, "constant": 0.1}
    for volts, moves in ((0.55, False), (0.60, True)):
        found = solved(one_start(source_volts=240 * volts, load=load))
        assert bool(found.last_speed[0] > 0) is moves
    small = only(body(COMPRESSOR, inverter=SMALL, watts=0))
    assert 0.35 * 37.5 / (77 * 240 / 230) > 0.12
    assert small.start_seconds is None
    assert small.pessimistic == "does_not_start"
    assert small.verdict is not PASS
    assert "never moves" in small.statement


def test_mistake_14_all_motors_call_at_once_after_an_interruption() -> None:
    """A pump that starts alone is judged beside a compressor that runs, and told the order."""
    assert only(body(PUMP, inverter=TEN_SECONDS)).verdict is PASS
    air = COMPRESSOR | {"locked_rotor_a": 110, "rated_load_a": 20}
    found = answer(body(PUMP, air, inverter=TEN_SECONDS))
    pump = found.motors[0]
    assert pump.word == "does_not_start"
    assert pump.verdict is FAIL
    # Nobody is told to turn all others off before each of the two: the larger one runs already.
    assert {one.id: one.word for one in pump.remedies}["others-off"] == "does_not_start"
    assert found.restart_order == ["condenser", "well"]


def test_mistake_14_what_runs_once_all_have_started_is_carried() -> None:
    """20 A that carry either of two motors do not carry both."""
    inverter = LARGE | {"continuous_a": 20, "surge": [{"seconds": 10, "amps": 200}]}
    alone = [answer(body(one, inverter=inverter, watts=0)) for one in (COMPRESSOR, PUMP)]
    both = answer(body(COMPRESSOR, PUMP, inverter=inverter, watts=0))
    amps = [found.steady.leg_most_a for found in alone]
    assert max(amps) < 20 < both.steady.leg_most_a <= sum(amps) * (1 + 1e-9)
    verdicts = [
        next(one.verdict for one in found.findings if one.rule == "running-amps")
        for found in (*alone, both)
    ]
    assert verdicts == [PASS, PASS, FAIL]


@pytest.mark.parametrize("delay, verdict, timers", [(True, PASS, 0), (None, IF, 1), (False, IF, 1)])
def test_mistake_14_a_lock_out_timer_is_not_taken_for_granted(
    delay: bool | None, verdict: Verdict, timers: int
) -> None:
    """Without one known, the start hangs on it; where nobody knows, it is asked for."""
    found = answer(body(COMPRESSOR | {"delay": delay}))
    assert found.motors[0].verdict is verdict
    assert sum("timer" in condition for condition in found.conditions) == timers
    asked = [question.pointer for question in found.questions]
    assert ("/motors/0/delay" in asked) is (delay is None)
