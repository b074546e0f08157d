"""Small conductors of both materials behind their breakers, by the answers."""

import pytest

from service.findings import Verdict
from tests.checks.conductor_sizing.requests import Body, body, both, rules

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}

# Amps, breaker [A], size that the rule of small conductors asks for, copper and aluminum. Source:
# NEC 2023 (NFPA 70) 240.4(D): copper 14, 12, 10 AWG at 15, 20, 30 A, aluminum 12 and 10 AWG at 15
# and 25 A; 14 AWG aluminum is no conductor of Table 310.16; by secondary sources.
CAPS = [
    (12, 15, "14 AWG", "12 AWG"),
    (16, 20, "12 AWG", "10 AWG"),
    (20, 25, "10 AWG", "10 AWG"),
    (24, 30, "10 AWG", "8 AWG"),
    (48, 60, "8 AWG", "8 AWG"),
]


@pytest.mark.parametrize("amps, breaker, copper, aluminum", CAPS)
def test_the_smallest_behind_a_breaker(
    amps: float, breaker: float, copper: str, aluminum: str
) -> None:
    made = body({"kind": "inverter_output", "amps": amps, "most_breaker_a": breaker}, NEAR)
    for row, size in zip(both(made), (copper, aluminum), strict=True):
        (told,) = (f.statement for f in row.findings if f.rule == "small-conductor")
        assert row.breaker_a == breaker
        assert f"takes {size} or larger" in told


def test_a_pigtail_is_no_smaller_than_the_rule_of_small_conductors() -> None:
    """Behind 30 A aluminum is of 8 AWG at least: a lug for 10 AWG takes no pigtail of it."""
    circuit = {
        "kind": "backup_feeder",
        "amps": 24,
        "most_breaker_a": 30,
        "neutral": "none",
        "far": {"marked": 75, "smallest": "14", "largest": "10"},
    }
    copper, aluminum = both(body(circuit, NEAR | {"length": 300}))
    assert rules(copper)["terminal-fit"] == "conditional"
    assert rules(aluminum)["terminal-fit"] == "fail"
    assert aluminum.verdict is Verdict.FAIL
