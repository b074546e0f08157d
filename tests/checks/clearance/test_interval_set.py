"""Open intervals forbid, what they leave is closed, and a single point is a place too."""

import pytest

from service.checks.clearance.interval_set import Interval, complement, merged
from service.checks.clearance.walkway_left import least_clear
from service.checks.clearance.wall_lane import Strip


@pytest.mark.parametrize(
    "forbidden, end, allowed",
    [
        ([], 5.0, [(0, 5)]),
        ([], 0.0, [(0, 0)]),
        ([], -1e-10, [(0, 0)]),  # equal within 1e-9 m
        ([], -1e-6, []),
        ([(1, 2), (3, 4)], 5.0, [(0, 1), (2, 3), (4, 5)]),
        ([(3, 4), (1, 3)], 5.0, [(0, 1), (3, 3), (4, 5)]),  # they only touch
        ([(1, 3 + 5e-10), (3, 4)], 5.0, [(0, 1), (3 + 5e-10, 3 + 5e-10), (4, 5)]),
        ([(1, 3 + 1e-6), (3, 4)], 5.0, [(0, 1), (4, 5)]),
        ([(1, 4), (2, 3)], 5.0, [(0, 1), (4, 5)]),
        ([(-1, 5)], 5.0, [(5, 5)]),
        ([(0, 6)], 5.0, [(0, 0)]),
        ([(-1, 6)], 5.0, []),
        ([(-2, -1), (6, 7)], 5.0, [(0, 5)]),
        ([(2, 2)], 5.0, [(0, 5)]),  # empty
    ],
)
def test_what_is_left(forbidden: list[Interval], end: float, allowed: list[Interval]) -> None:
    """Exact, derived."""
    assert list(complement(forbidden, end)) == allowed


def test_the_union_keeps_points_between_intervals_that_touch() -> None:
    assert merged([(3, 5), (0, 2), (1, 3), (6, 8), (7, 7.5)]) == ((0, 3), (3, 5), (6, 8))


@pytest.mark.parametrize(
    "x1, x2, clear", [(0, 10, 2.0), (4, 6, 2.8), (8, 20, 3.6), (10, 12, float("inf"))]
)
def test_least_depth_of_a_slope(x1: float, x2: float, clear: float) -> None:
    """From 2 m at 0 to 4 m at 10 m, by hand; 1e-12 m."""
    assert least_clear(Strip(0, 10, 2, 4, 1), x1, x2) == pytest.approx(clear, abs=1e-12)
