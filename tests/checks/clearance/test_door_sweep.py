"""The leaf of a door, turned degree by degree."""

from math import cos, inf, radians, sin
from random import Random

import pytest

from service.checks.clearance.door_sweep import door_sweep

IN = 0.0254


@pytest.mark.parametrize(
    "hinge, leaf, angle, standoff, expected",
    [
        ("right", 36, 90, 0, (50, 86)),
        ("left", 36, 90, 0, (50, 86)),
        ("right", 36, 180, 0, (50, 122)),
        ("left", 36, 180, 0, (14, 86)),
        ("right", 35, 180, 21, (58, 114)),  # 28, 21, 35
        ("left", 35, 90, 21, (50, 78)),
        ("right", 36, 135, 0, (50, 86 + 36 * 0.5**0.5)),
        ("right", 35, 135, 28, (65, 107)),  # past the tip of the leaf: the arc, 21, 28, 35
    ],
)
def test_a_sweep_worked_out_by_hand(
    hinge: str, leaf: float, angle: float, standoff: float, expected: tuple[float, float]
) -> None:
    """An opening from 50 to 86 in; 1e-9 m, derived."""
    found = door_sweep(50 * IN, 86 * IN, hinge, leaf * IN, angle, standoff * IN)
    assert found == pytest.approx([x * IN for x in expected], abs=1e-9)


@pytest.mark.parametrize("standoff", [36, 40])
def test_a_leaf_that_does_not_reach_sweeps_nothing(standoff: float) -> None:
    assert door_sweep(0, 1, "left", 36 * IN, 180, standoff * IN) is None


def turned(
    leaf: float, angle: float, standoff: float, front: float, steps: int
) -> tuple[float, float]:
    """Return the least and the greatest reach of points of the leaf in the band, from the hinge."""
    low, high = inf, -inf
    for step in range(steps + 1):
        turn = radians(angle * step / steps)
        # Of a straight leaf the ends of its part in the band reach furthest.
        outward = sin(turn)
        near = standoff / outward if outward > 0 else (0 if standoff == 0 else inf)
        far = min(leaf, front / outward if outward > 0 else inf)
        if near <= far:
            reach = near * cos(turn), far * cos(turn)
            low, high = min(low, *reach), max(high, *reach)
    return low, high


def test_it_is_the_leaf_turned_step_by_step() -> None:
    """200 random doors with 4,000 steps of the leaf; 2 mm."""
    rng = Random(3)
    for _ in range(200):
        leaf, angle = rng.uniform(0.6, 1.1), rng.uniform(90, 180)
        standoff = rng.uniform(0, 0.5)
        front = rng.choice([inf, standoff + rng.uniform(0.05, 0.5)])
        low, high = turned(leaf, angle, standoff, front, 4000)
        left = door_sweep(0.0, 1.0, "left", leaf, angle, standoff, front)
        right = door_sweep(0.0, 1.0, "right", leaf, angle, standoff, front)
        assert left == pytest.approx((low, high), abs=2e-3)
        assert right == pytest.approx((1 - high, 1 - low), abs=2e-3)
