"""How far the units of a row slide, and which units stand where not all fit."""

from itertools import pairwise
from random import Random

import pytest

from service.checks.clearance.arrange import arrange
from service.checks.clearance.lane_steps import lane_of
from service.checks.clearance.slides import slides
from tests.checks.clearance.enumeration import IN, in_metres, places, unit_in_metres
from tests.checks.clearance.random_walls import random_unit, random_wall
from tests.checks.clearance.walls import keep_out, panel, solid, unit, wall

A = unit()
SMALL = unit(width=10, working_width=0, gap=6)


def reached(free: list[set[int]], widths: list[int], gaps: list[int]) -> list[set[int]]:
    """Return the places of each unit of a row that leave room for those before it."""
    found = [free[0]]
    for step in range(1, len(free)):
        first = min(found[-1], default=10**6) + widths[step - 1] + gaps[step - 1]
        found.append({x for x in free[step] if x >= first})
    return found


@pytest.mark.parametrize("seed", range(4))
def test_each_unit_slides_between_its_first_and_its_last_place(seed: int) -> None:
    """150 walls a seed, two kinds, up to two panels: every row of that order tried."""
    rng = Random(400 + seed)
    moved = 0
    for _ in range(150):
        lane = random_wall(rng, curved=False, panels=2)
        units = random_unit(rng), random_unit(rng)
        row = arrange(in_metres(lane), tuple(map(unit_in_metres, units)), (2, 1), None)
        if not row.positions:
            continue
        order = [units[kind] for kind, _ in row.positions]
        widths = [int(one.width) for one in order]
        gaps = [int(max(a.gap, b.gap)) for a, b in pairwise(order)]
        spots: list[set[int]] = [set() for _ in order]
        for free in zip(*(places(lane, one) for one in order), strict=True):
            ahead = reached(list(free), widths, gaps)
            turned = [{-x - w for x in f} for f, w in zip(free, widths, strict=True)]
            behind = reached(turned[::-1], widths[::-1], gaps[::-1])[::-1]
            for spot, a, b, w in zip(spots, ahead, behind, widths, strict=True):
                spot |= a & {-x - w for x in b}
        slid = slides(lane_of(in_metres(lane), list(map(unit_in_metres, units))), row.positions)
        for (lo, hi), spot in zip(slid, spots, strict=True):
            assert (lo / IN, hi / IN) == pytest.approx((min(spot), max(spot)), abs=1e-6)
            moved += hi > lo
    assert moved > 50


def test_four_in_a_row_slide_by_what_is_left() -> None:
    """240 - 212 leave 28 in to each; 1e-9 m, derived by hand."""
    found = arrange(wall(240), (A,), (4,), None)
    assert found.complete
    expected = [(x, x + 28) for x in (0, 62, 124, 186)]
    slid = slides(lane_of(wall(240), (A,)), found.positions)
    for (lo, hi), ends in zip(slid, expected, strict=True):
        assert (lo, hi) == pytest.approx([end * IN for end in ends], abs=1e-9)


def test_as_many_as_fit_of_one_kind_once_the_other_stands() -> None:
    """26 + 36 + 10 + 6 + 10 + 6 + 10 = 104 of 110 in: three small ones beside a large one."""
    found = arrange(wall(110), (A, SMALL), (1, 9), 1)
    assert found.complete
    # The small ones first lie furthest to the left: 0, 16, 32, and 32 + 10 + 36 = 78.
    assert [kind for kind, _ in found.positions] == [1, 1, 1, 0]
    assert [round(x / IN, 6) for _, x in found.positions] == [0, 16, 32, 78]


def test_where_the_others_do_not_stand_nothing_is_complete() -> None:
    """Two large ones need 88 of 80 in: one of them stands, and one small one, 26 + 36 + 10 = 72."""
    found = arrange(wall(80), (A, SMALL), (2, 9), 1)
    assert not found.complete
    assert sorted(kind for kind, _ in found.positions) == [0, 1]


def test_nothing_asked_for_is_complete() -> None:
    assert arrange(wall(80), (A,), (0,), None) == ((), True)


def test_narrow_units_leave_a_panel_its_working_space() -> None:
    """A panel at 40 to 54: the second ends at 26, so its space is 26 to 56; derived by hand."""
    found = arrange(wall(120, panel(40, 54)), (SMALL,), (9,), None)
    assert [round(x / IN, 6) for _, x in found.positions] == [0, 16, 56, 72, 88, 104]


def test_an_obstacle_bounds_the_working_space_of_a_panel() -> None:
    """A box to 38 in left of a panel at 40 to 54: the space is 38 to 68 at the least."""
    found = arrange(wall(120, panel(40, 54), solid(30, 38, 0, 40, reason=2)), (A,), (3,), None)
    assert [round(x / IN, 6) for _, x in found.positions] == [0, 68]


def test_a_unit_slides_over_no_place_that_leaves_too_little_for_the_next() -> None:
    """By hand: 30 would do for the second, before a panel of 60 in, were it not for the third.

    Places are 0 to 6, 30, 60 to 75 and 90 to 95; after 30 + 10 the third begins at 100, too late.
    """
    wide = panel(40, 54, 1)._replace(working_width=60 * IN)
    slim = panel(85, 90, 2)._replace(working_width=10 * IN)
    lane = wall(105, wide, slim, keep_out(16, 30, 0, 40))
    found = arrange(lane, (SMALL,), (3,), None)
    assert found.complete
    assert [round(x / IN, 6) for _, x in found.positions] == [0, 70, 90]
    slid = slides(lane_of(lane, (SMALL,)), found.positions)
    for (lo, hi), ends in zip(slid, [(0, 5), (70, 75), (90, 95)], strict=True):
        assert (lo, hi) == pytest.approx([end * IN for end in ends], abs=1e-9)
