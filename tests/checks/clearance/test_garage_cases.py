"""Invented garages worked out by hand: barriers and stored energy."""

from itertools import pairwise

import pytest

from service.checks.clearance.barriers import (
    bollard_count,
    bollards,
    parking_depth_left,
    wheel_barriers,
)
from service.checks.clearance.energy_limit import columns_allowed

IN = 0.0254
KWH = 3.6e6


@pytest.mark.parametrize("run, count", [(0, 2), (26, 2), (60, 2), (60.1, 3), (88, 3), (120, 3)])
def test_bollards_along_a_run(run: float, count: int) -> None:
    """At most 60 in apart, one at each end. 2022 CRC R328.8.3, from memory, not verified."""
    assert bollard_count(run * IN, 60 * IN) == count
    row = bollards(0.0, run * IN, 60 * IN)
    assert len(row) == count
    assert (row[0], row[-1]) == pytest.approx((0.0, run * IN), abs=1e-12)
    assert all(b - a <= 60 * IN + 1e-9 for a, b in pairwise(row))


@pytest.mark.parametrize(
    "run, starts",
    [
        (26, [-22]),  # one of 70, centred
        (70, [0]),
        (100, [-20, 50]),  # two end to end
        (176, [0, 106]),  # a gap of exactly 36
        (177, [-16.5, 53.5, 123.5]),
        (282, [0, 106, 212]),
    ],
)
def test_wheel_barriers_along_a_run(run: float, starts: list[float]) -> None:
    """Of 70 in, at most 36 in apart. 2022 CRC R328.8.3, from memory, not verified."""
    row = wheel_barriers(0.0, run * IN, 70 * IN, 36 * IN)
    assert row == pytest.approx([x * IN for x in starts], abs=1e-9)


@pytest.mark.parametrize(
    "distance, thickness, left",
    [(6, 3.5, 219.5), (54, 5, 170)],  # 240 - 11 - 6 - 3.5; 240 - 11 - 54 - 5
)
def test_depth_left_to_park(distance: float, thickness: float, left: float) -> None:
    """Behind bollards and behind wheel barriers; 1e-9 m, derived."""
    found = parking_depth_left(240 * IN, 11 * IN, distance * IN, thickness * IN)
    assert found == pytest.approx(left * IN, abs=1e-9)


@pytest.mark.parametrize(
    "limit, existing, column, unit, allowed",
    [
        (80, 0, 12, 12, 6),  # G1b: 84 is over 80
        (80, 0, 9, 9, 8),
        (80, 0, 22, 22, 0),  # one over 20
        (80, 0, 20, 20, 4),  # exactly 20, exactly 80
        (80, 56, 14, 14, 1),
        (80, 0, 28, 14, 2),  # columns of two
        (40, 41, 14, 14, 0),
        (0.3, 0, 0.1, 0.1, 3),  # not exact in binary
    ],
)
def test_units_that_the_energy_limit_allows(
    limit: float, existing: float, column: float, unit: float, allowed: int
) -> None:
    """In kWh; exact. IRC 2021 R328.5, secondary."""
    found = columns_allowed(limit * KWH, existing * KWH, column * KWH, unit * KWH, 20 * KWH)
    assert found == allowed
