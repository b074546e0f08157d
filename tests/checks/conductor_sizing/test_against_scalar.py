"""Drawn circuits, all in one call, against plain loops over sizes."""

import random
from typing import Any

import numpy as np

from tests.checks.conductor_sizing.circuits import sized
from tests.checks.conductor_sizing.scalar_sizing import drop, lanes_of, scalar_size


def drawn(rng: random.Random) -> dict[str, Any]:
    run = [
        (
            rng.choice([rng.uniform(1, 12), rng.uniform(10, 200)]),
            rng.choice([20.0, 30.0, 40.0, 41.0, 55.0, 60.0]),
            rng.choice([2, 3, 4, 6, 7, 9, 20]),
            rng.choice([1, 2, 2, 2]),
        )
        for _ in range(rng.randint(1, 4))
    ]
    return {
        "amps": rng.choice([8.0, 16.0, 24.0, 32.0, 48.0, 80.0, 160.0, rng.uniform(1, 700)]),
        "parts": run,
        "material": rng.randint(0, 1),
        "wall": rng.randint(0, 2),
        "power_factor": rng.choice([1.0, rng.uniform(0.3, 1)]),
        "limit": rng.choice([2.4, 4.8, 7.2, 12.0, 24.0]),
        "volts_at_load": rng.random() < 0.5,
        "next_size": rng.random() < 0.5,
        "sets": rng.choice([1, 1, 1, 2, 3]),
        "marking": [rng.choice([-1, 0, 1]), rng.choice([-1, 1])],
    }


def test_sizes_and_drops_are_those_of_plain_loops() -> None:
    rng = random.Random(48)
    draws = [drawn(rng) for _ in range(3000)]
    found = sized(len(draws), **lanes_of(draws))
    expected = [scalar_size(one) for one in draws]
    np.testing.assert_array_equal(found.size, expected)
    # Of every kind there are some: none, small, large, and a lifted short part.
    assert {-1, 2, 5, 10, 20} <= set(expected)
    assert set(found.governing) >= {0, 1, 2, 3, 4, 6}
    assert set(found.conditions.code) >= {0, 1}
    for lane, one in enumerate(draws[:300]):
        if expected[lane] >= 0:
            np.testing.assert_allclose(found.drop[lane, 0], drop(one, expected[lane]), rtol=1e-9)
