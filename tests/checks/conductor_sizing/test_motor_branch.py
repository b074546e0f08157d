"""Branch circuits of motors, by hand."""

import numpy as np
import pytest

from service.checks.conductor_sizing.motor_protection import largest_device, largest_standard
from tests.checks.conductor_sizing.requests import Body, answer, body, rules
from tests.checks.conductor_sizing.table_arrays import RATINGS

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}
WARM: Body = NEAR | {"ambient": 104, "other_conductors": 4}
MOTOR: Body = {"kind": "motor_branch", "neutral": "none", "most_breaker_a": None}

# Circuit, part, copper, ground, breaker [A], rule of the breaker. Source: NEC 2023 (NFPA 70)
# 430.22, 125 % of the amps, and Table 430.52(C)(1), 250 % for an inverse-time breaker, secondary;
# that 240.4(D) does not hold, 240.4(G), from memory, not verified.
CASES: list[tuple[Body, Body, str, str, float, str]] = [
    # 30 A: 10 AWG has 35 A, whatever the breaker.
    ({"amps": 24, "breaker_a": 60, "most_breaker_a": 60}, NEAR, "10", "10", 60, "pass"),
    ({"amps": 24, "most_breaker_a": 40}, NEAR, "10", "10", 40, "pass"),
    # 250 % are 60 A.
    ({"amps": 24}, NEAR, "10", "10", 60, "conditional"),
    ({"amps": 24, "breaker_a": 50}, NEAR, "10", "10", 50, "conditional"),
    ({"amps": 24, "breaker_a": 70}, NEAR, "10", "10", 70, "fail"),
    # 25 A: 12 AWG has 25 A at 75 degC, behind 50 A too; its ground is no larger.
    ({"amps": 20, "most_breaker_a": 50}, NEAR, "12", "12", 50, "pass"),
    # A nameplate of 55 A takes a breaker of 50 A.
    ({"amps": 20, "most_breaker_a": 55}, NEAR, "12", "12", 50, "pass"),
    # 40 A x 0.91 x 0.8 = 29.1 A are less than 30 A: 8 AWG has 55 A x 0.728 = 40 A.
    ({"amps": 24, "most_breaker_a": 40}, WARM, "8", "10", 40, "pass"),
    # A nameplate that allows less than 125 % is not that of this motor.
    ({"amps": 24, "most_breaker_a": 25}, NEAR, "10", "10", 30, "fail"),
]


@pytest.mark.parametrize("circuit, part, phase, ground, breaker, verdict", CASES)
def test_a_motor_branch(
    circuit: Body, part: Body, phase: str, ground: str, breaker: float, verdict: str
) -> None:
    copper = answer(body(MOTOR | circuit, part)).materials[0]
    assert (copper.phase, copper.ground, copper.breaker_a) == (phase, ground, breaker)
    assert rules(copper)["overcurrent-device"] == verdict
    told = " ".join(f.statement for f in copper.findings)
    assert "overload device" in told
    assert "raised by a quarter" not in told


def test_the_largest_device_of_a_motor() -> None:
    assert largest_device([24.0, 24.1, 12.0], [0, 0, 5], RATINGS).tolist() == [60, 70, 35]
    assert largest_device(1e6, 0, RATINGS) == RATINGS[-1]
    assert largest_standard([60.0, 59.9, 5.0], RATINGS).tolist() == [60, 50, 0]
    assert largest_standard(np.nextafter(60.0, 0), RATINGS) == 60
