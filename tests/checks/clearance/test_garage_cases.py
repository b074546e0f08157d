"""Invented garages worked out by hand: driving path, barriers and stored energy."""

from itertools import pairwise

import pytest

from service.checks.clearance.barriers import (
    bollard_count,
    bollards,
    parking_depth_left,
    wheel_barriers,
)
from service.checks.clearance.energy_limit import columns_allowed
from tests.checks.clearance.garage_path import (
    Footprint,
    Garage,
    Protection,
    vehicle_protection,
)

IN = 0.0254
KWH = 3.6e6
LIMITS = {
    "path_height": 48, "back_reach": 36, "side_back": 24, "side_reach": 36,
    "exempt_opening": 90, "exempt_bottom": 36,
}  # fmt: skip


def judged(
    opening: tuple[float, float, float],
    plan: tuple[float, float, float, float],
    bottom: float,
    wall: str,
    tolerance: float = 0.0,
) -> Protection:
    """Return what a garage of 240 by 240 in asks for; every length in inches."""
    garage = Garage(240 * IN, 240 * IN, *(value * IN for value in opening))
    unit = Footprint(*(value * IN for value in (*plan, bottom)))
    limits = {name: value * IN for name, value in LIMITS.items()}
    return vehicle_protection(garage, unit, wall, **limits, tolerance=tolerance * IN)


WIDE = (24, 216, 96)
NARROW = (60, 180, 96)
BACK = (100, 126, 229, 239)
#: Opening (from, to, height), plan of the unit (x1, x2, y1, y2), bottom, wall, protect [in].
CASES = [
    (WIDE, BACK, 18, "back", True),  # K1: in the path
    (WIDE, BACK, 48, "back", False),  # K2: at the top of the path
    (WIDE, BACK, 47, "back", True),
    ((24, 216, 84), BACK, 36, "back", False),  # K3: opening of 84 within 90, unit at 36
    ((24, 216, 84), BACK, 35, "back", True),  # K3: one inch lower
    ((24, 216, 90), BACK, 36, "back", False),
    ((24, 216, 90.5), BACK, 36, "back", True),
    (WIDE, (0, 26, 229, 239), 18, "back", True),  # K4: 24 to 26 in the path
    (NARROW, (34, 60, 229, 239), 18, "back", True),  # touches the path
    (NARROW, (0, 26, 229, 239), 18, "back", True),  # 34 from the path
    (NARROW, (0, 24, 229, 239), 18, "back", False),  # exactly 36 from it: not within
    (WIDE, (1, 11, 100, 126), 18, "side", False),  # K7: 13 from the path, 114 from the back
    (WIDE, (1, 11, 191, 217), 18, "side", True),  # 13 and 23
    (WIDE, (1, 11, 190, 216), 18, "side", False),  # exactly 24 from the back: not within
    (NARROW, (1, 11, 191, 217), 18, "side", False),  # 49 from the path
    ((11, 216, 96), (1, 11, 100, 126), 18, "side", False),  # touches the path, not in it
    ((6, 234, 96), (1, 11, 100, 126), 18, "side", True),  # K8: 6 to 11 in the path
    (WIDE, (30, 56, 1, 11), 18, "front", True),
    (WIDE, (0, 20, 200, 220), 18, "free", False),  # beside the path, on no wall
]


@pytest.mark.parametrize("opening, plan, bottom, wall, protect", CASES)
def test_a_garage_worked_out_by_hand(
    opening: tuple[float, float, float],
    plan: tuple[float, float, float, float],
    bottom: float,
    wall: str,
    protect: bool,
) -> None:
    """Whether protection is asked for; exact. 2022 CRC R328.8.1, from memory, not verified."""
    assert judged(opening, plan, bottom, wall).protect is protect


@pytest.mark.parametrize(
    "x2, tolerance, protect, near",
    [
        (24.00, 0, False, True),  # 36 exactly
        (24.01, 0, True, True),  # 35.99
        (24.01, 1 / 32, False, True),  # 35.99 is 36 within 1/32
        (24.04, 1 / 32, True, True),  # 35.96
        (24.49, 0, True, True),  # 35.51
        (24.50, 0, True, False),  # 35.50
        (23.50, 0, False, False),  # 36.50
        (23.51, 0, False, True),  # 36.49
    ],
)
def test_near_the_end_of_a_reach(x2: float, tolerance: float, protect: bool, near: bool) -> None:
    """On the back wall beside a path that begins at 60 in; exact, derived."""
    found = judged(NARROW, (0, x2, 229, 239), 18, "back", tolerance)
    assert (found.protect, found.near) == (protect, near)


@pytest.mark.parametrize(
    "y2, wide, near",
    [
        (216.2, True, True),  # 23.8 from the back, 13 from the path
        (216.2, False, False),  # 23.8 from the back, 49 from the path: nothing turns on it
        (210.0, True, False),  # 30 from the back
    ],
)
def test_only_a_length_that_could_turn_the_answer_is_near(
    y2: float, wide: bool, near: bool
) -> None:
    """On the side wall; exact, derived."""
    assert judged(WIDE if wide else NARROW, (1, 11, 180, y2), 18, "side").near is near


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
