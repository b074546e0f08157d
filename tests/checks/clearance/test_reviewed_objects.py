"""What is on a wall or before it counts in full, and what is not known of it never helps."""

import pytest

from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    door,
    exactly,
    finding,
    first,
    garage,
    opening,
    permitted,
    room,
    unit,
    wall,
    way,
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


BIB: Body = {"kind": "equipment", "what": "hose_bib", "left": 100, "width": 4, "height": 4}
SPOUT: Body = {"kind": "equipment", "what": "downspout", "left": 100, "width": 4, "bottom": 0}


@pytest.mark.parametrize(
    "thing, expected",
    [
        # 100 - 12 - 26 = 62 and 104 + 12; the unit hangs from 18 to 58 in
        (BIB | {"bottom": 24}, [(0, 62), (116, 214)]),
        # sqrt(12^2 - 11^2) = 4.796 left of 11 in up: 69.204 and 108.796, by sixteenths inward
        (BIB | {"bottom": 69}, [(0, 69.1875), (108.8125, 214)]),
        (BIB | {"bottom": 70}, [(0, 214)]),
        (BIB | {"bottom": 2}, [(0, 214)]),
        (SPOUT, [(0, 62), (116, 214)]),
        # sqrt(12^2 - 1^2 - 1^2) = 11.916 left of 1 in up and 1 in out: 62.084 and 115.916
        (SPOUT | {"depth": 0, "height": 17}, [(0, 62.0625), (115.9375, 214)]),
    ],
)
def test_water_keeps_its_distance_every_way(
    thing: Body, expected: list[tuple[float, float]]
) -> None:
    """12 in from a hose bib and a downspout, common practice, no source; derived by hand."""
    assert places(thing, units=[unit()]) == expected


CONDENSER: Body = {"kind": "condenser", "left": 150, "width": 32, "out": 12, "depth": 32}
PANEL: Body = {"kind": "equipment", "what": "panel", "left": 200, "width": 16}
METER: Body = {"kind": "equipment", "what": "gas_meter", "left": 200, "width": 20, "bottom": 6}


@pytest.mark.parametrize(
    "thing, clear, before",
    [
        (CONDENSER, 72, 28),  # 72 - 12 - 32, wider than 12 behind it
        (CONDENSER, 50, 12),  # 50 - 44 is narrower than 12 behind it
        (CONDENSER, 40, 12),  # the way ends before its far face
        (CONDENSER, 10, 10),  # and before its near one
        (CONDENSER | {"out": 40}, 80, 40),  # 80 - 72 is narrower than 40 behind it
        (PANEL, 60, 56),  # 60 - 4
        (METER, 60, 48),  # 60 - 12
        (METER | {"depth": 20}, 60, 40),  # 60 - 20
        (LIGHT | {"bottom": 79}, 60, 52),  # 60 - 8
        (LIGHT | {"bottom": 80}, 60, 60),  # over the heads: 80 in, IBC 2021, 1003.3.1
    ],
)
def test_the_way_is_narrower_past_what_stands_there(
    thing: Body, clear: float, before: float
) -> None:
    """Inches, exact; derived by hand."""
    where = exactly(wall(thing, way=way((0, 240, clear))))
    assert first(body(where)).way_before_in == pytest.approx(before, abs=1e-6)


def test_a_way_that_a_condenser_narrows_already_is_not_blamed_on_the_unit() -> None:
    """28 in stay past it with the unit and without; the unit itself leaves 72 - 11 in."""
    found = answer(body(exactly(wall(CONDENSER, way=way((0, 240, 72))))))
    place, held = found.places[0], finding(found, "walkway")
    assert (place.way_before_in, place.way_left_in) == (28, 28)
    assert (str(held.verdict), str(finding(found, "clear-positions").verdict)) == (
        "conditional",
        "pass",
    )
    assert "too narrow already" in held.statement


def test_the_way_is_measured_past_a_thing_only_where_it_stands() -> None:
    """150 to 182 in lie in the wide part, which 60 - 44 = 16 in stay of; derived by hand."""
    parts = way((0, 140, 50), (140, 240, 60))
    assert first(body(exactly(wall(CONDENSER, way=parts)))).way_before_in == 16


ESCAPE = opening(160, 30, escape=True)


@pytest.mark.parametrize(
    "thing, more, edges",
    [
        # an escape way of 36 in: 46 - 11 is less before the right half
        (ESCAPE, {"route": False, "escape_way": None}, [(0, 94)]),
        (ESCAPE, {"route": False, "escape_way": True}, [(0, 94)]),
        (ESCAPE, {"route": None, "escape_way": None}, [(0, 94)]),
        (ESCAPE, {"route": True, "escape_way": None}, [(0, 94)]),
        # 160 - 36 - 26
        (opening(160, 30), {"route": False, "escape_way": None}, [(0, 98)]),
    ],
)
def test_an_escape_opening_keeps_an_escape_way_before_its_wall(
    thing: Body, more: Body, edges: list[tuple[float, float]]
) -> None:
    """R310.1: 36 in; the unit reaches 11 in out, and nobody else need pass; derived by hand."""
    parts = way((0, 120, 60), (120, 240, 46))
    made = body(exactly(wall(thing, way=parts, **more)), units=[unit(worked_on_live=False)])
    assert permitted(first(made)) == edges


def test_an_escape_way_that_an_opening_tells_is_neither_assumed_nor_asked() -> None:
    """Without the opening it is both, where the way is too narrow for an escape way."""
    for thing, absent in ((ESCAPE, False), (opening(160, 30), True)):
        where = wall(thing, way=way((0, 240, 46)), route=False, escape_way=None)
        found = answer(body(where, units=[unit(worked_on_live=False)]))
        for told in (found.assumptions, found.questions):
            assert ("/places/0/escape_way" in [one.pointer for one in told]) is absent


#: A door that leads elsewhere, in the middle of 140 in; its leaf covers the wall on either side.
DOOR = door(40, 60, leads_to="other", swing=None)
GYPSUM = way((0, 140, 60), opposite="drywall")


@pytest.mark.parametrize(
    "place, at, reason",
    [
        (wall(DOOR, length=140), "", "into the dwelling"),
        (garage(DOOR, width=140, vehicle_opening=None), "/walls/0", "into it"),
        (room(objects=[DOOR], length=140, way=GYPSUM), "", "into the room is tried"),
    ],
)
def test_how_a_door_opens_is_told_by_whoever_faces_the_wall(
    place: Body, at: str, reason: str
) -> None:
    """The leaf takes the only 40 in on either side, so the answer decides wherever the wall is."""
    found, pointer = answer(body(place)), f"/places/0{at}/objects/0/swing"
    assumed = next(one for one in found.assumptions if one.pointer == pointer)
    assert (assumed.value, reason in assumed.reason) == ("in", True)
    asked = next(one for one in found.questions if one.pointer == pointer)
    assert asked.can_change_verdict
    assert "whoever faces the wall" in asked.question
