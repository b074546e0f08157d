"""Requests at the ends of every bound: each a defined answer in finite numbers."""

import random
from typing import Any

import msgspec
import pytest

from tests.checks.surge_feasibility.requests import Body, answer, refused

KINDS = ["compressor_scroll", "compressor_reciprocating", "well_pump", "refrigerator", "other"]


def extreme(seed: int) -> Body:
    """Return a request whose numbers lie at their bounds, or are away."""
    rng = random.Random(seed)

    def some(**choices: list[Any]) -> Body:
        picked = {name: rng.choice([None, *values]) for name, values in choices.items()}
        return {name: value for name, value in picked.items() if value is not None}

    def motor(index: int) -> Body:
        rated = rng.choice([0.2, 200])
        found: Body = {"id": f"m{index}", "kind": rng.choice(KINDS)}
        found |= some(
            rated_load_a=[rated],
            locked_rotor_a=[max(1, 2 * rated), 1000],
            tons=[1, 5],
            start_capacitor_kit=[True],
            soft_starter=[{"current_percent": 25}, {"current_percent": 100}],
            delay=[True, False],
            wire=[{"length": 0, "size": "1/0"}, {"length": 5280, "size": "14"}],
        )
        if not found["kind"].startswith("compressor"):
            found.pop("soft_starter", None)
        found |= rng.choice([{}, {"volts": 300}, {"circuit": "leg_1", "volts": 100}])
        if rng.random() < 0.4:
            found |= {"horsepower": rng.choice([0.05, 10])}
            found |= some(code_letter=["A", "U"])
        return found

    def load() -> Body:
        found: Body = {"name": "x", "watts": rng.choice([0, 50, 50_000])}
        return found | some(nature=["constant_impedance", "constant_power"], power_factor=[0.1, 1])

    amps = rng.choice([0.5, 30, 1000])
    surge = [{"seconds": 0.02, "amps": 2 * amps}, {"seconds": 3600, "amps": 1.5 * amps}]
    inverter = {"continuous_a": amps, "count": rng.choice([1, 20])} | some(
        surge=[surge],
        surge_sharing_percent=[0, 100],
        beyond_rating=["folds_back", "trips"],
        resistance_ohm=[0, 5],
        reactance_ohm=[0, 5],
        trip_percent=[10, 90],
        trip_seconds=[0.01, 10],
        battery_kw=[0.1, 500],
    )
    transfer = {"kind": rng.choice(["automatic", "manual"])} | some(
        connected_load_va=[0, 500_000], managed_load_va=[0, 500_000], sheds_for_starts=[True]
    )
    return {
        "inverter": inverter,
        "motors": [motor(i) for i in range(rng.randint(0, 3))],
    } | some(running=[[], [load(), load()]], transfer=[transfer])


@pytest.mark.parametrize("seed", range(60))
def test_every_answer_is_finite(seed: int) -> None:
    made = extreme(seed)
    assert refused(made) == []
    text = msgspec.json.encode(answer(made)).decode()
    # The encoder writes what is no number as null, which these fields never are.
    assert '"steady":null' not in text
    for motor in answer(made).motors:
        numbers = [value for value in msgspec.structs.astuple(motor) if isinstance(value, float)]
        assert all(abs(number) < 1e9 for number in numbers)
