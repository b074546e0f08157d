"""Thousands of random requests: every place and every count against walls drawn as polygons."""

from collections.abc import Iterator
from itertools import product
from random import Random

import msgspec
import numpy as np
import pytest

from service.check import BRIEF
from service.checks.clearance import CHECK
from service.checks.clearance.answer import UnitPlaces
from service.checks.clearance.request import ClearanceRequest
from tests.checks.clearance.random_requests import Drawn, Facts
from tests.checks.clearance.shapely_walls import SAME, SPACING, Floats, Tried, Truths, tried

#: What forbids a place of a wall, each of it somewhere in the scenes of a seed.
RULES = {
    *("opening-distance", "opening-overlap", "door-swing", "gas-vent-distance", "pool-distance"),
    *("equipment-space", "walkway", "working-space", "under-eave", "maker-clearance"),
}
MOST = 24


def scenes(seed: int, count: int, *, straight: bool) -> Iterator[tuple[Facts, UnitPlaces]]:
    """Yield requests that are not refused, and the places of their unit."""
    rng = Random(seed)
    for _ in range(count):
        facts = Drawn(rng, straight=straight).request()
        request = msgspec.convert(facts, ClearanceRequest)
        if not CHECK.refusals(request):
            yield facts, CHECK.run(request, BRIEF).places[0].units[0]


@pytest.mark.parametrize("seed", range(8))
def test_a_unit_stands_where_no_polygon_is_in_its_way(seed: int) -> None:
    """280 requests a seed, every 1/4 in; exact, as the ends are rounded inward to 1/16 in."""
    partly, binding = 0, set[str]()
    for facts, unit in scenes(seed, 280, straight=False):
        wall = tried(facts)
        found = np.zeros(len(wall.lefts), dtype=bool)
        for place in unit.permitted:
            found |= (wall.lefts >= place.from_in - SAME) & (wall.lefts <= place.to_in + SAME)
        expected = wall.permitted()
        wrong = wall.lefts[found != expected]
        assert not wrong.size, (facts, wrong[[0, -1]])
        partly += bool(expected.any() and not expected.all())
        binding |= {one.rule for one in unit.forbidden}
    assert partly > 90
    assert binding >= RULES


def most_in(lefts: Floats, free: Truths, width: float, gap: float) -> int:
    """Return how many stand, each as far left as it may."""
    count, start = 0, 0.0
    for left in lefts[free]:
        if left >= start - SAME:
            count, start = count + 1, left + width + gap
    return min(count, MOST)


def most_of(wall: Tried, gap: float) -> int:
    """Return how many stand over every working space that panels may have."""
    found = 0
    for begins in product(*(space.begins for space in wall.spaces)):
        free = wall.free.copy()
        for begin, space in zip(begins, wall.spaces, strict=True):
            free &= (wall.lefts + wall.width <= begin + SAME) | (
                wall.lefts >= begin + space.width - SAME
            )
        found = max(found, most_in(wall.lefts, free, wall.width, gap))
    return found


@pytest.mark.parametrize("seed", range(4))
def test_as_many_stand_as_the_grid_takes(seed: int) -> None:
    """250 requests a seed in whole inches, curves and slopes apart, every inch; exact."""
    several = 0
    for facts, unit in scenes(100 + seed, 250, straight=True):
        wall, kind = tried(facts, 1.0), facts["units"][0]
        if np.prod([len(space.begins) for space in wall.spaces]) > 2000:
            continue
        clear = kind.get("clearances", {})
        sides = [clear.get("left", 0.0), clear.get("right", 0.0)]
        if kind.get("conduit_entry") in ("left", "right"):
            sides.append(kind["conduit_room"])
        gap = max(kind.get("listed_spacing", SPACING), *sides)
        assert unit.largest_by_room == most_of(wall, gap), facts
        several += unit.largest_by_room > 1
    assert several > 50
