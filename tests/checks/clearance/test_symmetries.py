"""What a mirror, a shift, one more object, a deeper unit or other units of length do to places."""

from copy import deepcopy
from typing import Any

import pytest

from service.checks.clearance.answer import PlaceAnswer
from tests.checks.clearance.mirrored import mirrored, shifted
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    exactly,
    first,
    lefts,
    opening,
    permitted,
    wall,
)

SEEDS = range(60)
VENT = {"kind": "gas_vent", "left": 70, "out": 6, "height": 40}
POOL = {"kind": "pool", "left": 20, "width": 50, "out": 40}
#: Lengths of a request [in].
LENGTHS = {"width", "height", "depth", "standoff", "bottom", "length", "left", "clear", "eave",
           "out", "flood", "listed_spacing", "handle", "narrowest"}  # fmt: skip


def places(made: Body) -> list[PlaceAnswer]:
    return answer(made, "brief").places


def edges(place: PlaceAnswer) -> list[list[tuple[float, float]]]:
    """Return the permitted left edges of every kind [in]."""
    return [[(one.from_in, one.to_in) for one in kind.permitted] for kind in place.units]


def long_of(place: Body, at: PlaceAnswer) -> float:
    """Return the length of a wall of the answer [in]."""
    if place["kind"] != "garage":
        return float(place["length"])
    return float(place["width"] if at.id.endswith("back wall") else place["depth"])


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mirrored_wall_has_mirrored_places(seed: int) -> None:
    made = random_body(seed)
    sent = [place for place in made["places"] for _ in place.get("walls", [None])]
    pairs = zip(sent, places(made), places(mirrored(made)), strict=True)
    for place, one, other in pairs:
        long = long_of(place, one)
        for kind, box in enumerate(made["units"]):
            last = long - box["width"]
            turned = [(last - hi, last - lo) for lo, hi in edges(one)[kind][::-1]]
            assert edges(other)[kind] == turned
        assert other.placed == one.placed
        assert [kind.largest_by_room for kind in other.units] == [
            kind.largest_by_room for kind in one.units
        ]
        assert (other.way_before_in, other.barriers is None) == (
            one.way_before_in, one.barriers is None,
        )  # fmt: skip


def walls_of(seed: int) -> Body:
    """Return a request of walls alone, each with another wall at its left end."""
    made = random_body(seed)
    made["places"] = [place for place in made["places"] if place["kind"] == "wall"]
    for place in made["places"]:
        place["left_end"] = "wall"
        place["objects"] = [one for one in place["objects"] if one["kind"] != "corner_opening"]
    return made


WALLS = [seed for seed in SEEDS if walls_of(seed)["places"]]


@pytest.mark.parametrize("seed", WALLS)
def test_a_wall_that_begins_farther_left_has_its_places_shifted(seed: int) -> None:
    made = walls_of(seed)
    by = 37.0
    moved = made | {"places": [shifted(place, by) for place in made["places"]]}
    for one, other in zip(places(made), places(moved), strict=True):
        there = [[(lo + by, hi + by) for lo, hi in kind] for kind in edges(one)]
        assert edges(other) == there
        assert lefts(other) == [x + by for x in lefts(one)]


def inside(these: list[tuple[float, float]], those: list[tuple[float, float]]) -> bool:
    """Return whether every stretch of one list lies in one of the other."""
    return all(any(a <= lo and hi <= b for a, b in those) for lo, hi in these)


@pytest.mark.parametrize("seed", WALLS)
@pytest.mark.parametrize("thing", [VENT, POOL], ids=["vent", "pool"])
def test_one_more_object_adds_no_place(seed: int, thing: Body) -> None:
    made = walls_of(seed)
    more = deepcopy(made)
    for place in more["places"]:
        place["objects"].append(thing)
    for one, other in zip(places(made), places(more), strict=True):
        assert all(map(inside, edges(other), edges(one)))
        assert other.placed <= one.placed


#: What makes a unit harder to place.
HARDER: list[tuple[str, Any]] = [
    ("depth", lambda x: x + 3),
    ("width", lambda x: x + 5),
    ("height", lambda x: x + 7),
    ("volts_to_ground", lambda _: 700),
    ("worked_on_live", lambda _: True),
]


@pytest.mark.parametrize("seed", WALLS)
@pytest.mark.parametrize("field, harder", HARDER, ids=[case[0] for case in HARDER])
def test_a_larger_unit_never_fits_better(seed: int, field: str, harder: Any) -> None:
    made = walls_of(seed)
    more = deepcopy(made)
    for kind in more["units"]:
        kind[field] = harder(kind.get(field))
    for one, other in zip(places(made), places(more), strict=True):
        assert all(map(inside, edges(other), edges(one)))
        assert other.placed <= one.placed
        for kind, larger in zip(one.units, other.units, strict=True):
            assert larger.largest_by_room <= kind.largest_by_room


def in_metres(made: Any, name: str = "") -> Any:
    """Return a request with its lengths as texts in millimetres and metres."""
    if isinstance(made, dict):
        return {inner: in_metres(value, inner) for inner, value in made.items()}
    if isinstance(made, list):
        return [in_metres(value) for value in made]
    if name in LENGTHS and isinstance(made, int | float) and not isinstance(made, bool):
        return f"{made * 25.4:.6f} mm" if name == "left" else f"{made * 0.0254:.9f} m"
    return made


@pytest.mark.parametrize("seed", SEEDS)
def test_lengths_in_metres_are_answered_as_those_in_inches(seed: int) -> None:
    made = random_body(seed)
    one, other = answer(made, "brief"), answer(in_metres(made), "brief")
    assert other.verdict is one.verdict
    assert [held.statement for held in other.findings] == [held.statement for held in one.findings]
    for here, there in zip(one.places, other.places, strict=True):
        assert (edges(here), lefts(here)) == (edges(there), lefts(there))
        assert (here.verdict, here.way_left_in) == (there.verdict, there.way_left_in)


def test_914_mm_is_not_36_in() -> None:
    """A window 914 mm beside a place of 26 in leaves none; of 914.4 mm it leaves one."""
    for gap, edge in (("914 mm", []), ("914.4 mm", [(0, 0)])):
        beside = float(gap.split()[0]) / 25.4 + 26
        place = exactly(wall(opening(beside, 36), length=beside + 36))
        assert permitted(first(body(place))) == edge
