"""What is on a wall or before it counts in full, and what is not known of it never helps."""

import pytest

from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    door,
    exactly,
    first,
    opening,
    permitted,
    unit,
    wall,
)

#: A unit that hangs from 100 to 140 in, over most of what is on a wall.
HIGH = [unit(bottom=100)]
LIGHT: Body = {"kind": "equipment", "what": "light", "left": 100, "width": 8, "height": 12}
CORNER: Body = {"kind": "corner_opening", "end": "left", "out": 6, "width": 30, "height": 40}
BOTTOM = "/places/0/objects/0/bottom"


def places(*things: Body, units: list[Body] = HIGH) -> list[tuple[float, float]]:
    """Return where a unit may go on a wall measured without error [in]."""
    return permitted(first(body(exactly(wall(*things)), units=units)))


@pytest.mark.parametrize(
    "thing, expected",
    [
        # 100 - 36 - 26 and 136 + 36
        (opening(100, 36, bottom=None), [(0, 38), (172, 214)]),
        (opening(100, 36, bottom=None, height=None), [(0, 38), (172, 214)]),
        # 100 - 26 and 100 + 8
        (LIGHT, [(0, 74), (108, 214)]),
        # 36 from the corner
        (CORNER, [(36, 214)]),
        # a door stands at the ground: 140 - 84 in and more above it
        (door(100, 36, bottom=None, height=60), [(0, 214)]),
        (opening(100, 36, bottom=0), [(0, 214)]),
        (LIGHT | {"bottom": 0}, [(0, 214)]),
        (CORNER | {"bottom": 0}, [(0, 214)]),
    ],
)
def test_every_height_counts_where_no_lower_edge_is_stated(
    thing: Body, expected: list[tuple[float, float]]
) -> None:
    """Derived by hand: the unit hangs over all that stands at the ground, save by 36 in."""
    assert places(thing) == expected


@pytest.mark.parametrize(
    "thing", [opening(24, 200, bottom=None), LIGHT | {"left": 6, "width": 230}]
)
def test_a_lower_edge_that_decides_is_asked_and_leaves_the_verdict_open(thing: Body) -> None:
    """All of the wall is taken at some height; from 96 in on nothing of it, the unit ends at 58."""
    found = answer(body(wall(thing)))
    assert (str(found.verdict), permitted(found.places[0])) == ("undetermined", [])
    asked = next(one for one in found.questions if one.pointer == BOTTOM)
    assert asked.can_change_verdict
    assert str(answer(body(wall(thing | {"bottom": 96}))).verdict) == "pass"


def test_a_lower_edge_that_decides_nothing_is_not_asked() -> None:
    """Half of the wall is free whatever the height."""
    found = answer(body(wall(opening(160, 36, bottom=None))))
    assert BOTTOM not in [one.pointer for one in found.questions]
