"""Sums of watts that others print for sizing, and what the starts ask for instead."""

import math

import pytest

from service.published.motors import motor_kind
from tests.checks.surge_feasibility.requests import DEFAULTS, Body, answer, body


def leg_1(name: str, watts: float, **more: object) -> Body:
    return {"name": name, "watts": watts, "power_factor": 1, "circuit": "leg_1"} | more


def kind_at_115(name: str, watts: float, kind: str) -> Body:
    """Return a motor whose start takes so many watts at 115 V."""
    locked = watts / 115 / motor_kind(kind).locked_rotor_power_factor
    return {"id": name, "kind": kind, "circuit": "leg_1", "volts": 115, "locked_rotor_a": locked}


STIFF = DEFAULTS | {
    "continuous_a": 900,
    "surge": [{"seconds": 10, "amps": 1900}],
    "volts": 120,
    "resistance_ohm": 0,
    "reactance_ohm": 0,
}


def near(motor: Body) -> Body:
    return motor | {"wire": {"length": 0, "size": "10"}}


def test_watts_of_starts_are_no_measure_of_amps() -> None:
    """100 + 200 + 2,900 + 750 = 3,950 W is what a list says; its amps are those of 5.1 kVA.

    Source: an electric co-operative's page on generators, the 2,900 W a refrigerator that starts.
    Standing: published. The start is at power factor 0.72, and at 120 of its 115 V.
    """
    running = [leg_1("lamp", 100), leg_1("cooker", 200), leg_1("television", 750)]
    for load in running:
        load["nature"] = "constant_impedance"
    fridge = near(kind_at_115("fridge", 2900, "refrigerator"))
    (found,) = answer(body(fridge, inverter=STIFF, running=running)).motors
    locked = (120 / 115) ** 2 * 2900 * complex(1, math.tan(math.acos(0.72)))
    assert found.start_amps is not None
    assert found.start_amps == pytest.approx(abs(1050 + locked) / 120, rel=1e-6)
    assert found.start_amps * 120 > 1.25 * 3950


def test_one_start_at_a_time_asks_for_less_than_all_starts_together() -> None:
    """75 + 1,600 + 700 + 1,800 + 2,100 = 6,275 W takes the greater of start and run of every item.

    Source: a generator owner's manual, page on sizing. Standing: published. The 75 W are a lamp;
    that the rest are motors is our reading, and that each draws a sixth of its locked-rotor amps.
    """
    watts = {"a": 1600, "b": 700, "c": 1800, "d": 2100}
    kinds = [near(kind_at_115(name, w, "furnace_blower")) for name, w in watts.items()]
    lamp = leg_1("lamp", 75, nature="constant_impedance")
    found = answer(body(*kinds, inverter=STIFF, running=[lamp])).motors
    most = max(one.start_amps or math.inf for one in found)
    all_together = 75 / 120 + sum(one["locked_rotor_a"] for one in kinds) * 120 / 115
    # The largest start, and a sixth of the others beside it.
    assert most < 0.55 * all_together
    assert most > kinds[-1]["locked_rotor_a"] * 120 / 115 + 75 / 120
