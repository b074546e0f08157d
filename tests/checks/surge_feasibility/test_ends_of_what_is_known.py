"""Running amps that nobody stated, loads that contradict, starts that live by fold-back, wires."""

import random

import pytest

from service.findings import Verdict
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, Body, answer, body, only
from tests.checks.surge_feasibility.test_answers import MANUAL, MIDDLE, PUMP

FAIL, OPEN, IF, PASS = Verdict
UNREAD = {name: value for name, value in COMPRESSOR.items() if name != "rated_load_a"}


def running(amps: float, motor: Body) -> Verdict:
    strong = LARGE | {"continuous_a": amps, "surge": [{"seconds": 10, "amps": 200}]}
    found = answer(body(motor, inverter=strong, running=[]))
    return next(one.verdict for one in found.findings if one.rule == "running-amps")


def test_running_amps_that_nobody_stated_are_known_at_both_ends() -> None:
    """77 A of the start run on 77/6.5 to 77/4.5 A: 11.8 to 17.1; stated, 14 A are 14 A."""
    assert running(17.2, UNREAD) is PASS
    assert running(14.5, UNREAD) is OPEN
    assert running(11.7, UNREAD) is FAIL
    assert running(14.5, COMPRESSOR) is PASS
    assert running(13.9, COMPRESSOR) is FAIL


def test_running_amps_are_assumed_and_asked() -> None:
    strong = LARGE | {"continuous_a": 17}
    found = answer(body(UNREAD, inverter=strong, running=[]))
    (assumed,) = [one for one in found.assumptions if one.pointer == "/motors/0/rated_load_a"]
    assert assumed.range == pytest.approx([77 / 6.5, 77 / 4.5])
    assert "/motors/0/rated_load_a" in {q.pointer for q in found.questions if q.can_change_verdict}


def test_horsepower_out_of_a_table_fails_nothing_surely() -> None:
    """1 hp at 230 V is 8 A in NEC Table 430.248; a nameplate may well say 7 A."""
    motor = {"id": "well", "kind": "well_pump", "horsepower": 1}
    assert running(7.5, motor) is OPEN
    assert running(5.9, motor) is FAIL


def test_a_calculated_load_below_what_runs_is_not_believed() -> None:
    for connected, verdict in ((0, OPEN), (3000, OPEN), (4000, PASS)):
        behind = {"kind": "automatic", "connected_load_va": connected}
        found = answer(body(COMPRESSOR, transfer=behind))
        (one,) = [one for one in found.findings if one.rule == "backed-up-capacity"]
        assert one.verdict is verdict


def test_a_start_beyond_the_ratings_is_uncertain_also_where_the_inverter_folds_back() -> None:
    """50 A on a rating of 48 A; the reading that counts on the fold-back is shown."""
    short = MIDDLE | {"surge": [{"seconds": 10, "amps": 47}]}
    for beyond, verdict in (("folds_back", OPEN), (None, OPEN)):
        found = answer(body(PUMP, inverter=short | {"beyond_rating": beyond}, running=[]))
        assert found.motors[0].word == "uncertain"
        assert found.motors[0].verdict is verdict
        (other,) = [one for one in found.alternatives if one.id == "source-folds-back"]
        assert other.verdict is IF


def test_others_off_first_is_granted_in_an_order() -> None:
    """Each of two pumps starts alone; beside the other one only the first to start does."""
    twin = PUMP | {"id": "orchard"}
    ratings = MIDDLE | {"surge": [{"seconds": 10, "amps": 58}]}
    for motor in (PUMP, twin):
        assert only(body(motor, inverter=ratings, running=[], transfer=MANUAL)).verdict is PASS
    behind = MANUAL | {"connected_load_va": 7000}
    found = answer(body(PUMP, twin, inverter=ratings, running=[], transfer=behind))
    assert found.restart_order == ["well", "orchard"]
    first, second = found.motors
    assert (first.verdict, second.verdict) == (IF, OPEN)
    assert first.statement.startswith("With all other loads off well starts")
    assert {one.id: one.word for one in second.remedies}["others-off"] == "uncertain"


def sump(length: float, locked: float, rated: float) -> Body:
    return {
        "id": "sump",
        "kind": "sump_pump",
        "locked_rotor_a": locked,
        "rated_load_a": rated,
        "circuit": "leg_1",
        "wire": {"length": length},
    }


#: A wire may leave open what fails without it, and never lets start what does not.
ORDER = {FAIL: 0, OPEN: 0, IF: 1, PASS: 2}


@pytest.mark.parametrize("seed", range(24))
def test_a_longer_wire_never_helps(seed: int) -> None:
    """From no wire to 800 ft the verdict of a motor never rises."""
    rng = random.Random(seed)
    locked = rng.uniform(30, 110)
    inverter = LARGE | {
        "continuous_a": 25,
        "surge": [{"seconds": 0.5, "amps": rng.uniform(60, 130)}, {"seconds": 10, "amps": 50}],
        "beyond_rating": rng.choice(["trips", "folds_back"]),
    }
    made = rng.choice([sump(0, locked, locked / 4.5), COMPRESSOR | {"locked_rotor_a": locked}])
    load = [{"name": "kiln", "watts": rng.choice([0, 1200]), "circuit": "leg_1"}]
    ranks = [
        ORDER[
            only(body(made | {"wire": {"length": feet}}, inverter=inverter, running=load)).verdict
        ]
        for feet in range(0, 801, 50)
    ]
    assert ranks == sorted(ranks, reverse=True)
