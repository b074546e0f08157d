"""What else draws power while a motor starts, and what else gives it."""

import pytest

from service.findings import Verdict
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, SMALL, Body, answer, body

FAIL, OPEN, IF, PASS = Verdict
SUMP: Body = {
    "id": "sump",
    "kind": "sump_pump",
    "locked_rotor_a": 40,
    "rated_load_a": 8,
    "circuit": "leg_1",
    "volts": 115,
    "wire": {"length": 20},
}
BEHIND = {"kind": "automatic", "connected_load_va": 9000}


@pytest.mark.parametrize("circuit", ["leg_1", "leg_2", "both_legs", "one_leg"])
def test_the_batteries_feed_both_legs(circuit: str) -> None:
    """3.4 kW of a start and 4.4 kW beside it are 7.8 kW, whichever leg the load is on."""
    load = {"name": "kiln", "watts": 4400, "power_factor": 1, "circuit": circuit}
    inverter = LARGE | {"battery_kw": 6, "battery_surge_kw": 6}
    found = answer(body(SUMP, inverter=inverter, running=[load], transfer=BEHIND))
    (one,) = [one for one in found.findings if one.rule == "battery-power-in-start"]
    assert one.verdict is FAIL
    assert one.actual == pytest.approx(7.8, abs=0.2)


def finding(made: Body, rule: str) -> Verdict:
    return next(one.verdict for one in answer(made).findings if one.rule == rule)


def test_a_generator_beside_the_inverter_carries_and_starts_nothing() -> None:
    """31 A run on 25 A of the inverter and 58 A of the generator; a start has the inverter's."""
    ratings = SMALL | {"surge": [{"seconds": 0.4, "amps": 130}, {"seconds": 10, "amps": 37.5}]}
    joined = {"rated_kw": 14, "connection": "parallel"}
    load = {"name": "oven", "watts": 4000, "power_factor": 1, "circuit": "both_legs"}
    behind = {"kind": "automatic", "connected_load_va": 16000}
    made = body(COMPRESSOR, inverter=ratings, generator=joined, running=[load], transfer=behind)
    assert finding(made, "running-amps") is PASS
    assert finding(made, "motor-starts") is PASS
    weak = ratings | {"surge": [{"seconds": 10, "amps": 37.5}], "beyond_rating": "trips"}
    small = made | {"inverter": made["inverter"] | weak}
    # Nobody says what the generator gives to a start: no pass, and no sure fail.
    assert answer(small).motors[0].verdict in (OPEN, IF)
    assert answer(small | {"generator": None}).motors[0].verdict is FAIL


def test_no_soft_starter_is_put_on_top_of_a_start_kit() -> None:
    weak = SMALL | {"surge": [{"seconds": 0.4, "amps": 50}, {"seconds": 10, "amps": 37.5}]}
    found = answer(body(COMPRESSOR | {"start_capacitor_kit": True}, inverter=weak)).motors[0]
    assert not any(one.id.startswith("soft") for one in found.remedies)
    assert found.verdict in (OPEN, FAIL)


def test_nobody_switches_life_support_off_for_a_start() -> None:
    """3 kW that may be off lets the compressor start; as life support they stay on."""
    ratings = LARGE | {"surge": [{"seconds": 0.4, "amps": 95}, {"seconds": 10, "amps": 58}]}
    by_hand = {"kind": "manual", "connected_load_va": 9500}
    load = {"name": "oxygen", "watts": 3000, "circuit": "both_legs", "nature": "constant_power"}
    may = body(COMPRESSOR, inverter=ratings, transfer=by_hand, running=[load])
    assert answer(may).motors[0].verdict is IF
    must = may | {"running": [load | {"life_support": True}]}
    found = answer(must).motors[0]
    assert found.verdict in (OPEN, FAIL)
    assert found.largest_load_beside_w is None
    (off,) = [one.statement for one in found.remedies if one.id == "others-off"]
    assert off.startswith("With all other loads but oxygen off")


def test_where_nothing_is_on_120_v_nothing_is_spread() -> None:
    """The running amps of another pump are known at both ends in every way that is tried."""
    pumps = [
        {"id": "well", "kind": "well_pump", "locked_rotor_a": 60, "wire": {"length": 60}},
        {"id": "pool", "kind": "pool_pump", "locked_rotor_a": 90},
    ]
    for watts in range(500, 6000, 500):
        load = {"name": "range", "watts": watts, "circuit": "both_legs", "power_factor": 1}
        for motor in answer(body(*pumps, running=[load], transfer=BEHIND)).motors:
            assert "spread" not in motor.statement
