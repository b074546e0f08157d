"""Verdicts of many requests at once are those of each alone and of whole answers."""

import json
import random

from service.checks.surge_feasibility import CHECK
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.verdicts import verdicts
from tests.checks.surge_feasibility.requests import _ANSWERING
from tests.checks.surge_feasibility.test_hostile_requests import extreme


def requests() -> list[SurgeFeasibilityRequest]:
    found = []
    for seed in range(24):
        rng, made = random.Random(seed), extreme(seed)
        if rng.random() < 0.5:
            joins = rng.choice([None, "inverter_input", "transfer_switch", "parallel"])
            made["generator"] = {"rated_kw": rng.choice([0.5, 12, 200]), "connection": joins}
        if rng.random() < 0.3:
            heat = {"ambient": 120, "above": 104, "percent_per_kelvin": 2}
            made["inverter"]["derating"] = heat
        request, _ = _ANSWERING.take(json.dumps(made).encode())
        assert isinstance(request, SurgeFeasibilityRequest)
        found.append(request)
    return found


def test_verdicts_of_a_batch() -> None:
    asked = requests()
    together = verdicts(asked)
    assert together == [verdicts([request])[0] for request in asked]
    assert together == [CHECK.run(request, frozenset()).verdict for request in asked]
    assert len(set(together)) > 1
