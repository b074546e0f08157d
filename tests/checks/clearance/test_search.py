"""The short ways of the search find what the long ways find."""

from random import Random

import pytest

from service.checks.clearance.left_edges import allowed_edges, joined, kept_spans, left_edges
from service.checks.clearance.other_units import largest_size
from service.checks.clearance.panel_space import panel_rooms
from tests.checks.clearance.enumeration import in_metres, unit_in_metres
from tests.checks.clearance.random_walls import random_unit, random_wall

#: Sizes [in] up to which something holds; the searched range is 8 to 40 in.
EDGES = (8.0, 8.0625, 17.53, 22.9999, 39.9375, 40.0, 60.0)


@pytest.mark.parametrize("seed", range(4))
def test_joined_spans_leave_the_places_that_the_single_ones_leave(seed: int) -> None:
    """400 walls a seed, a unit twice as wide on the same spans too; to the last bit."""
    rng = Random(900 + seed)
    fewer = some = 0
    for _ in range(400):
        wall = in_metres(random_wall(rng, panels=2))
        unit = unit_in_metres(random_unit(rng))
        spans, rooms = kept_spans(wall, unit), panel_rooms(wall)
        together = joined(spans)
        fewer += len(together) < len(spans)
        for width in (unit.width, 2.0 * unit.width):
            wide = unit._replace(width=width)
            expected = left_edges(wall, wide).allowed
            assert allowed_edges(wall, wide, rooms, together) == expected
            some += len(expected) > 1
    assert fewer > 40
    assert some > 40


@pytest.mark.parametrize("edge", EDGES)
@pytest.mark.parametrize("near", [0.0, 7.0, 8.0, 17.5, 17.5625, 22.9, 39.9375, 40.0, 90.0])
def test_the_first_guess_moves_no_largest_size(edge: float, near: float) -> None:
    """The largest sixteenth not above the edge, nor above 40 in; by hand."""
    expected = min(int(edge * 16.0) / 16.0, 40.0)
    assert largest_size(8.0, 40.0, lambda size: size <= edge, near) == expected


def test_a_near_guess_takes_two_trials() -> None:
    tried: list[float] = []

    def holds(size: float) -> bool:
        tried.append(size)
        return size <= 17.53

    assert largest_size(8.0, 40.0, holds, 17.53) == 17.5
    assert tried == [17.5, 17.5625]


def test_where_the_least_size_does_not_hold_there_is_none() -> None:
    assert largest_size(8.0, 40.0, lambda size: size <= 7.9, 20.0) is None
    assert largest_size(8.0, 8.0, lambda _size: True) is None
