"""A motor on both legs is held against the leg that carries more, and loads hang where they are."""

import pytest

from service.checks.surge_feasibility.beside_motor import beside_motor, legs
from service.findings import Verdict
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, Body, answer, body, only

FAIL, OPEN, IF, PASS = Verdict
HUNDRED_TWENTY = LARGE | {
    "continuous_a": 60,
    "surge": [{"seconds": 10, "amps": 120}],
    "beyond_rating": "trips",
}
BEHIND = {"kind": "automatic", "connected_load_va": 9000}


def beside(circuit: str, watts: float = 5000) -> Body:
    kiln = {"name": "kiln", "watts": watts, "power_factor": 1, "nature": "constant_impedance"}
    return body(
        COMPRESSOR | {"locked_rotor_a": 90},
        inverter=HUNDRED_TWENTY,
        transfer=BEHIND,
        running=[kiln | {"circuit": circuit}],
    )


def test_a_start_that_one_leg_does_not_carry_is_none() -> None:
    """5 kW on one leg are 41.7 A there, and 20.8 A of each leg where they are on both.

    By hand, 90 A at 230 V and 0.66 behind 60 ft of 10 AWG: 90.5 A, with 41.7 A at 1.0 some 122 A.
    """
    both, one = only(beside("both_legs")), only(beside("leg_1"))
    assert both.verdict is PASS
    assert one.verdict is not PASS
    assert both.start_amps is not None
    assert both.start_amps < 112
    assert one.start_amps is not None
    assert 119 < one.start_amps < 125


def test_loads_of_unknown_leg_may_all_be_on_one() -> None:
    """Spread over both legs it starts, which an electrician sees to; on one leg it would not."""
    one = only(beside("one_leg", 4000))
    assert one.verdict is IF
    assert one.pessimistic == "does_not_start"
    assert one.statement.startswith("With the 120 V circuits spread over both legs condenser start")
    assert only(beside("both_legs", 4000)).verdict is PASS


def test_one_machine_of_unknown_leg_is_not_spread() -> None:
    """16 A on one leg or the other are 16 A: no electrician spreads them over both."""
    pump: Body = {
        "id": "sump",
        "kind": "sump_pump",
        "locked_rotor_a": 60,
        "rated_load_a": 16,
        "circuit": "one_leg",
        "wire": {"length": 10},
    }
    ratings = {"continuous_a": 12, "surge": [{"seconds": 10, "amps": 120}]}
    found = answer(body(pump, inverter=ratings, running=[]))
    (one,) = [one for one in found.findings if one.rule == "running-amps"]
    assert one.verdict is FAIL
    assert not any("spread" in condition for condition in found.conditions)


#: Circuit of the motor, and what each of 100 W on both legs, 10 W on leg 1, 1 W on leg 2 and 0.1 W
#: on an unknown leg count: usually, at most, at least. Source: Kirchhoff's current law by hand.
COUNTED = [
    ("both_legs", 120.12, 120.2, 111.1),
    ("leg_1", 60.06, 60.1, 60.0),
    ("leg_2", 51.06, 51.1, 51.0),
    ("one_leg", 60.06, 60.1, 51.0),
]


@pytest.mark.parametrize("circuit, usual, most, least", COUNTED)
def test_what_a_bus_counts(circuit: str, usual: float, most: float, least: float) -> None:
    loads = legs([(100, "both_legs"), (10, "leg_1"), (1, "leg_2"), (0.1, "one_leg")])
    found = beside_motor(circuit, legs([]), loads, one_leg_only=False)
    assert found[1].real == pytest.approx([usual, most, least])
    assert beside_motor(circuit, loads, legs([]), one_leg_only=True)[0].real == pytest.approx(111.1)


def test_the_amps_of_one_leg_hold_a_motor_on_both() -> None:
    """20 A of a leg do not carry a motor of 21 A, whatever both legs carry."""
    motor = COMPRESSOR | {"locked_rotor_a": 77, "rated_load_a": 21}
    assert only(body(motor, inverter=LARGE, running=[])).verdict is PASS
    one = only(body(motor, inverter=LARGE | {"leg_a": 20}, running=[]))
    assert one.word == "starts_but_not_carried"
    assert one.verdict is FAIL


def test_what_is_not_carried_fails_whatever_is_known_of_its_start() -> None:
    """A 120 V motor of 10 A beside 2 kW on a leg of 20 A: no surge of a leg has to be known."""
    pump: Body = {
        "id": "sump",
        "kind": "sump_pump",
        "locked_rotor_a": 70,
        "rated_load_a": 10,
        "circuit": "leg_1",
        "wire": {"length": 10},
    }
    load = {"name": "kiln", "watts": 2000, "power_factor": 1, "circuit": "leg_1"}
    for amps in (30, 120):
        ratings = LARGE | {"surge": [{"seconds": 10, "amps": amps + 40}], "leg_a": 20}
        found = only(body(pump, inverter=ratings | {"beyond_rating": "trips"}, running=[load]))
        assert (found.word, found.verdict) == ("starts_but_not_carried", FAIL)
        assert found.statement.startswith("sump cannot be carried once it runs.")


def test_surge_of_one_leg_is_not_taken_for_that_of_both() -> None:
    """A 120 V motor gets of a rating what its leg has of the continuous amps, and never fails so.

    120 A of surge with 20 of 40 A on one leg: 60 A, too few for a start of 70 A, but no maker says.
    """
    pump: Body = {
        "id": "sump",
        "kind": "sump_pump",
        "locked_rotor_a": 70,
        "rated_load_a": 10,
        "circuit": "leg_1",
        "wire": {"length": 10},
    }
    trips = LARGE | {"surge": [{"seconds": 10, "amps": 120}], "beyond_rating": "trips"}
    assert only(body(pump, inverter=trips, running=[])).verdict is PASS
    assert only(body(pump, inverter=trips | {"leg_a": 20}, running=[])).verdict is OPEN
