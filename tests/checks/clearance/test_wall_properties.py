"""What holds for every wall: mirrored, shifted, scaled, fuller, and with larger units."""

from collections.abc import Iterator
from math import inf
from random import Random

import pytest

from service.checks.clearance.arrange import arrange, largest_count
from service.checks.clearance.interval_set import Interval
from service.checks.clearance.lane_steps import lane_of
from service.checks.clearance.left_edges import left_edges
from service.checks.clearance.panel_space import panel_rooms
from service.checks.clearance.slides import slides
from service.checks.clearance.wall_lane import KeepOut, Strip, Unit, Wall
from tests.checks.clearance.enumeration import IN, in_metres, unit_in_metres
from tests.checks.clearance.random_walls import random_thing, random_unit, random_wall

PAD = 17.3 * IN


def drawn(seed: int, count: int = 300, panels: int = 2) -> Iterator[tuple[Random, Wall, Unit]]:
    """Yield random walls and units, in metres."""
    rng = Random(seed)
    for _ in range(count):
        wall, unit = random_wall(rng, panels=panels), random_unit(rng)
        yield rng, in_metres(wall), unit_in_metres(unit)


def allowed(wall: Wall, unit: Unit) -> tuple[Interval, ...]:
    return left_edges(wall, unit).allowed


def length(spans: tuple[Interval, ...]) -> float:
    return sum(hi - lo for lo, hi in spans)


def within(inner: tuple[Interval, ...], outer: tuple[Interval, ...]) -> bool:
    """Return whether each span lies in one of others."""
    return all(any(a <= lo + 1e-8 and hi <= b + 1e-8 for a, b in outer) for lo, hi in inner)


def mirrored(wall: Wall) -> Wall:
    """Return a wall seen in a mirror."""
    end = wall.length
    return wall._replace(
        left_open=wall.right_open,
        right_open=wall.left_open,
        keep_outs=tuple(k._replace(x1=end - k.x2, x2=end - k.x1) for k in wall.keep_outs),
        strips=tuple(
            s._replace(x1=end - s.x2, x2=end - s.x1, clear1=s.clear2, clear2=s.clear1)
            for s in wall.strips
        ),
        panels=tuple(p._replace(x1=end - p.x2, x2=end - p.x1) for p in wall.panels),
    )


def shifted(wall: Wall, by: float) -> Wall:
    """Return a wall with a piece added on the left, which another wall takes whole."""
    return wall._replace(
        length=wall.length + by,
        keep_outs=(
            KeepOut(0.0, by, 0.0, inf, 0.0, inf, 0.0, False, True, -8),
            *(k._replace(x1=k.x1 + by, x2=k.x2 + by) for k in wall.keep_outs),
        ),
        strips=(
            Strip(0.0, by, 0.0, 0.0, 0.0),
            *(s._replace(x1=s.x1 + by, x2=s.x2 + by) for s in wall.strips),
        ),
        panels=tuple(p._replace(x1=p.x1 + by, x2=p.x2 + by) for p in wall.panels),
    )


def test_a_mirror_turns_the_places_round() -> None:
    """300 walls; 1e-9 m: places, number, and how far the units of a row slide."""
    for _, wall, unit in drawn(1):
        turned = mirrored(wall), unit._replace(left=unit.right, right=unit.left)
        end = wall.length - unit.width
        there = [(end - hi, end - lo) for lo, hi in reversed(allowed(*turned))]
        for one, other in zip(allowed(wall, unit), there, strict=True):
            assert one == pytest.approx(other, abs=1e-8)
        row = arrange(wall, (unit,), (4,), None)
        back = arrange(turned[0], (turned[1],), (4,), None)
        assert len(row.positions) == len(back.positions)
        slid = slides(lane_of(wall, (unit,)), row.positions)
        slid_back = slides(lane_of(turned[0], (turned[1],)), back.positions)
        ends = [(end - hi, end - lo) for lo, hi in reversed(slid_back)]
        for one, other in zip(slid, ends, strict=True):
            assert one == pytest.approx(other, abs=1e-8)


def test_the_origin_of_a_wall_is_anywhere() -> None:
    """300 walls closed on the left; 1e-8 m."""
    for _, wall, unit in drawn(2):
        wall = wall._replace(left_open=False)
        moved = [(lo - PAD, hi - PAD) for lo, hi in allowed(shifted(wall, PAD), unit)]
        here = allowed(wall, unit)
        assert len(here) == len(moved)
        for one, other in zip(here, moved, strict=True):
            assert one == pytest.approx(other, abs=1e-8)


@pytest.mark.parametrize("factor", [25.4, 1 / 12, 3.7])
def test_a_wall_in_another_unit_of_length(factor: float) -> None:
    """200 walls without panels, whose 6 ft 6 in do not scale; 1e-8 of the length."""
    rng = Random(3)
    for _ in range(200):
        wall, unit = random_wall(rng, panels=0), random_unit(rng)
        one = allowed(in_metres(wall), unit_in_metres(unit))
        other = allowed(in_metres(wall, factor * IN), unit_in_metres(unit, factor * IN))
        assert len(one) == len(other)
        for a, b in zip(one, other, strict=True):
            assert [factor * x for x in a] == pytest.approx(b, abs=1e-7)


def test_one_more_object_never_frees_a_place() -> None:
    """300 walls, save where the object leaves a panel no working space at all."""
    fuller = 0
    for rng, wall, unit in drawn(4):
        thing = in_metres(Wall(0, False, False, 0, (random_thing(rng, 70, 1, True),), (), ()))
        more = wall._replace(keep_outs=wall.keep_outs + thing.keep_outs)
        if [r.short for r in panel_rooms(more)] != [r.short for r in panel_rooms(wall)]:
            continue
        assert within(allowed(more, unit), allowed(wall, unit))
        assert largest_count(more, unit, 5) <= largest_count(wall, unit, 5)
        fuller += length(allowed(more, unit)) < length(allowed(wall, unit))
    assert fuller > 50


@pytest.mark.parametrize(
    "name", ["width", "depth", "height", "front", "left", "right", "top", "gap", "working_width"]
)
def test_a_larger_unit_never_fits_better(name: str) -> None:
    """300 walls for each length, one box high: in a column taller boxes may pass an object by."""
    fewer = 0
    for rng, wall, unit in drawn(5):
        unit = unit._replace(levels=1, working_width=max(unit.width, unit.working_width))
        larger = unit._replace(**{name: getattr(unit, name) + rng.uniform(0.02, 0.3)})
        larger = larger._replace(working_width=max(larger.width, larger.working_width))
        assert within(allowed(wall, larger), allowed(wall, unit))
        less = largest_count(wall, unit, 8) - largest_count(wall, larger, 8)
        assert less >= 0
        fewer += less > 0 or length(allowed(wall, larger)) < length(allowed(wall, unit)) - 1e-6
    assert fewer > 0


def test_the_distance_along_the_wall_allows_no_more_than_the_true_one() -> None:
    """300 walls: read along the wall, whatever the height, against measured from box to box."""
    smaller = 0
    for _, wall, unit in drawn(6):
        euclid = wall._replace(
            keep_outs=tuple(k._replace(any_height=False) for k in wall.keep_outs)
        )
        band = wall._replace(keep_outs=tuple(k._replace(any_height=True) for k in wall.keep_outs))
        assert within(allowed(band, unit), allowed(euclid, unit))
        smaller += length(allowed(band, unit)) < length(allowed(euclid, unit)) - 1e-6
    assert smaller > 50


def test_what_is_forbidden_and_what_is_allowed_fill_the_wall() -> None:
    """300 walls: no place is both, every place is one; 1e-8 m."""
    for rng, wall, unit in drawn(7):
        found = left_edges(wall, unit)
        if wall.length <= unit.width + 1e-6:
            continue
        for _ in range(20):
            x = rng.uniform(0.0, wall.length - unit.width)
            free = any(lo - 1e-8 <= x <= hi + 1e-8 for lo, hi in found.allowed)
            banned = any(lo + 1e-8 < x < hi - 1e-8 for lo, hi, _ in found.forbidden)
            assert free != banned
