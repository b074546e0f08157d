"""Breakers that are there already, and raceways in which conductors jam, by whole answers."""

import pytest

from tests.checks.conductor_sizing.requests import WALL, Body, answer, body, both, rules

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}

# Breaker that is there [A], that of the answer [A], rule. 48 A raised are 60 A; 55 A is no standard
# rating of 240.6(A), which lists 50 and 60.
BREAKERS = [
    (50, 60, "conditional"),
    (55, 60, "conditional"),
    (60, 60, None),
    (70, 70, None),
    (75, 80, "conditional"),
]


@pytest.mark.parametrize("there, breaker, verdict", BREAKERS)
def test_a_breaker_that_cannot_stay_is_replaced(
    there: float, breaker: float, verdict: str | None
) -> None:
    found = answer(body({"breaker_a": there, "most_breaker_a": 100}, NEAR))
    assert found.materials[0].breaker_a == breaker
    assert rules(found.materials[0]).get("existing-breaker") == verdict
    if verdict is not None:
        assert found.verdict == "conditional"
        assert f"the breaker of {there} A is replaced by one of {breaker} A" in found.conditions


# Circuit, length [ft], trade size, that in which they jam. Source: Chapter 9, Table 1, note 2,
# secondary: 2.8 to 3.2 times. 4 AWG THWN-2 is 0.324 in across, 1 in PVC 40 1.029 in inside: 3.18.
JAMS: list[tuple[Body, float, str, str | None]] = [
    # 24 A over 300 ft: three of 4 AWG, the ground grown as large as its phases.
    ({"kind": "backup_feeder", "amps": 24, "neutral": "none"}, 300, "1-1/4", "1"),
    # Phases and neutral of 4 AWG, a ground of 6 AWG.
    ({"neutral": "unbalance_and_source", "unbalance_a": 22}, 150, "1-1/4", "1"),
    # Phases of 4 AWG and a neutral of 10 AWG: no three are equal.
    ({"unbalance_a": 24}, 150, "1", None),
    ({"kind": "inverter_output", "neutral": "none"}, 40, "3/4", None),
]


@pytest.mark.parametrize("circuit, feet, trade_size, jams_in", JAMS)
def test_where_three_equal_conductors_jam_the_next_trade_size_is_taken(
    circuit: Body, feet: float, trade_size: str, jams_in: str | None
) -> None:
    copper, _ = both(body(circuit, WALL | {"length": feet}))
    (part,) = copper.raceways
    assert (part.trade_size, part.jams_in, part.may_jam) == (trade_size, jams_in, False)
    assert rules(copper).get("jam-ratio") == (None if jams_in is None else "pass")
    assert part.next_percent is not None
    assert part.filled_percent is not None
    assert part.next_percent < part.filled_percent < (part.allowed_percent or 0)
