"""Thousands of random walls, each place and each row of units tried one by one."""

from functools import cache
from random import Random

import pytest

from service.checks.clearance.arrange import arrange, largest_count
from service.checks.clearance.left_edges import left_edges
from service.checks.clearance.wall_lane import Unit, Wall
from tests.checks.clearance.enumeration import IN, in_metres, places, unit_in_metres
from tests.checks.clearance.random_walls import random_unit, random_wall

Row = tuple[tuple[int, ...], tuple[int, ...]]


def allowed_on_grid(wall: Wall, unit: Unit, step: float) -> set[int]:
    """Return the places on the grid that the kernel allows."""
    found: set[int] = set()
    for lo, hi in left_edges(in_metres(wall, step), unit_in_metres(unit, step)).allowed:
        first = int((lo - 1e-9) / step) if lo > 1e-9 else -1
        found |= {
            x
            for x in range(max(first, 0), int(hi / step) + 2)
            if lo - 1e-9 <= x * step <= hi + 1e-9
        }
    return found


@pytest.mark.parametrize("seed", range(8))
def test_one_unit_stands_where_no_box_says_no(seed: int) -> None:
    """400 walls a seed: the places are those found by trying every inch; exact on the grid."""
    rng = Random(seed)
    some = 0
    for _ in range(400):
        wall, unit = random_wall(rng, panels=2), random_unit(rng)
        expected = set[int]().union(*places(wall, unit))
        some += 0 < len(expected) < wall.length - unit.width
        assert allowed_on_grid(wall, unit, IN) == expected, (wall, unit)
    assert some > 100


@pytest.mark.parametrize("seed", range(4))
def test_curved_ends_on_a_fine_grid(seed: int) -> None:
    """60 walls a seed, on a grid of 0.05 in: the curves of openings, corners and vents."""
    rng = Random(100 + seed)
    some = 0
    for _ in range(60):
        wall = random_wall(rng, 20, panels=0)
        unit = random_unit(rng, 20, working_space=False)
        expected = set[int]().union(*places(wall, unit))
        some += 0 < len(expected) < wall.length - unit.width
        assert allowed_on_grid(wall, unit, IN / 20) == expected, (wall, unit)
    assert some > 15


def leftmost_row(
    free: list[set[int]], units: tuple[Unit, ...], counts: tuple[int, ...], length: int
) -> Row | None:
    """Return the places of the row furthest left, then its kinds, with all units standing."""

    @cache
    def rest(start: int, last: int, left: tuple[int, ...]) -> Row | None:
        if not any(left):
            return (), ()
        found: list[Row] = []
        for kind, count in enumerate(left):
            gap = max(units[last].gap, units[kind].gap) if last >= 0 else 0
            for x in range(int(start + gap), length + 1):
                if count and x in free[kind]:
                    fewer = left[:kind] + (count - 1,) + left[kind + 1 :]
                    row = rest(int(x + units[kind].width), kind, fewer)
                    if row is not None:
                        found.append(((x, *row[0]), (kind, *row[1])))
                        break
        return min(found, default=None)

    return rest(0, -1, counts)


def best_row(wall: Wall, units: tuple[Unit, ...], counts: tuple[int, ...]) -> Row:
    """Return the leftmost of the largest rows, over every working space of every panel."""
    by_kind = [places(wall, unit) for unit in units]
    smaller: set[tuple[int, ...]] = {counts}
    while smaller:
        rows = [
            row
            for free in zip(*by_kind, strict=True)
            for left in smaller
            if (row := leftmost_row(list(free), units, left, int(wall.length))) is not None
        ]
        if rows:
            return min(rows)
        smaller = {
            (*left[:kind], count - 1, *left[kind + 1 :])
            for left in smaller
            for kind, count in enumerate(left)
            if count
        }
    return (), ()


def same_row(wall: Wall, units: tuple[Unit, ...], counts: tuple[int, ...]) -> int:
    """Compare the kernel's row with the enumerated one and return its length."""
    found = arrange(in_metres(wall), tuple(map(unit_in_metres, units)), counts, None)
    expected = best_row(wall, units, counts)
    assert tuple(kind for kind, _ in found.positions) == expected[1], (wall, units)
    assert [x / IN for _, x in found.positions] == pytest.approx(expected[0], abs=1e-6)
    assert found.complete == (len(expected[0]) == sum(counts))
    return len(expected[0])


@pytest.mark.parametrize("seed", range(4))
def test_as_many_equal_units_as_fit_furthest_left(seed: int) -> None:
    """250 walls a seed, up to two panels: number and places of the row; exact on the grid."""
    rng = Random(200 + seed)
    lengths = []
    for _ in range(250):
        wall, unit = random_wall(rng, curved=False, panels=2), random_unit(rng)
        number = same_row(wall, (unit,), (6,))
        assert largest_count(in_metres(wall), unit_in_metres(unit), 6) == number
        lengths.append(number if wall.panels else 0)
    assert sum(number > 1 for number in lengths) > 20


@pytest.mark.parametrize("seed", range(4))
def test_two_kinds_of_units_in_the_best_order(seed: int) -> None:
    """100 walls a seed, up to two panels: the row of both kinds; exact on the grid."""
    rng = Random(300 + seed)
    mixed = 0
    for _ in range(100):
        wall = random_wall(rng, curved=False, panels=2)
        units = random_unit(rng), random_unit(rng)
        mixed += same_row(wall, units, (rng.randint(1, 2), rng.randint(1, 2))) > 1
    assert mixed > 20
