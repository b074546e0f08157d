"""The heavier leg where the conductors are hotter than the tables."""

import pytest

from tests.checks.conductor_sizing.requests import answer, body

# Unbalance [A], neutral. 30 A on a hot roof, so that phases of 4 AWG run at 82.7 degC. Source: NEC
# Chapter 9, Table 9.
ROOF_LEGS = [(0, "10"), (20, "8")]


@pytest.mark.parametrize("unbalance, size", ROOF_LEGS)
def test_the_heavier_leg_on_a_hot_roof_is_as_hot_as_the_whole(unbalance: float, size: str) -> None:
    """By hand: 0.31 ohm/kft of 4 AWG at 82.7 degC, and of its neutral at its own amps.

    Without unbalance a leg drops the same part of its volts as the whole; with 20 A the neutral is
    at 76.7 + 60 (20 / 55)^2 = 84.6 degC with 0.78 ohm/kft of 8 AWG.
    """
    circuit = {
        "kind": "inverter_output",
        "amps": 30,
        "most_breaker_a": 40,
        "neutral": "unbalance",
        "unbalance_a": unbalance,
    }
    roof = {"length": 100, "place": "rooftop", "ambient": 110, "roof_height": 0, "way": "emt"}
    found = answer(body(circuit, roof)).materials[0]
    assert (found.phase, found.neutral) == ("4", size)
    ohm = 0.031 * (1 + 0.00323 * (76.7 + 60 * (30 / 95) ** 2 - 75))
    third = 0.078 * (1 + 0.00323 * (76.7 + 60 * (20 / 55) ** 2 - 75))
    expected = (30 * ohm + unbalance * third) / 120
    assert found.leg_drop_percent == pytest.approx(100 * expected, rel=2e-3)
    if not unbalance:
        assert found.leg_drop_percent == pytest.approx(found.drop_percent, rel=2e-3)
