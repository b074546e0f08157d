"""Fixes done by hand as their words say: they give what was claimed, and a sixteenth more not."""

import re
from copy import deepcopy

import pytest

from service.checks.clearance.answer import ClearanceAnswer, Fix
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import (
    Body,
    answer,
    answer_of,
    body,
    exactly,
    finding,
    garage,
    lefts,
    opening,
    request_of,
    rules,
    unit,
    wall,
    way,
)

STEP = 1 / 16
CLOSE = exactly(wall(way=way((0, 240, 48), opposite="block")))
BIB = {"kind": "equipment", "what": "hose_bib", "left": 30, "width": 3}
METER = {"kind": "equipment", "what": "gas_meter", "left": 30, "width": 10}
SHORT = exactly(wall(opening(20, 60, bottom=94, height=10), length=100))


def fix_of(found: ClearanceAnswer, kind: str) -> Fix:
    """Return the fix of a kind that is there once."""
    (one,) = [fix for fix in found.fixes if fix.id == kind]
    return one


#: Fix, request, its words, the field of the units that they speak of, its value [in].
SIZES: list[tuple[str, Body, str, str, float]] = [
    # 48 - 36 - 1
    ("less-depth", body(CLOSE, units=[unit(depth=14)]), "Choose units at most 11 in deep.",
     "depth", 11),
    # 60 - 36 = 24 on the left, 150 - 126 = 24 on the right
    ("less-width", body(exactly(wall(opening(60, 30), length=150))),
     "Choose units at most 24 in wide.", "width", 24),
    # 100 less three of 26 in two gaps
    ("less-spacing", body(exactly(wall(length=100)), units=[unit(count=3)]),
     "Choose units listed for a spacing of at most 11 in.", "listed_spacing", 11),
    # 99.9 less 78 in two gaps: 10.95
    ("less-spacing", body(exactly(wall(length=99.9)), units=[unit(count=3)]),
     "Choose units listed for a spacing of at most 10-15/16 in.", "listed_spacing", 10.9375),
    # 94 - 36 - 40
    ("hang-at", body(SHORT, units=[unit(bottom=30, handle=10)]),
     "Hang them with their lower edge 18 in above the ground.", "bottom", 18),
]  # fmt: skip


@pytest.mark.parametrize("kind, made, words, field, value", SIZES)
def test_another_unit_or_height_stands_as_claimed_and_a_sixteenth_more_not(
    kind: str, made: Body, words: str, field: str, value: float
) -> None:
    found = answer(made)
    fix = fix_of(found, kind)
    assert fix.statement == words
    done, more = deepcopy(made), deepcopy(made)
    done["units"][0][field], more["units"][0][field] = value, value + STEP
    then = answer(done).places[0]
    assert (then.verdict, then.placed) == (fix.verdict, fix.placed)
    assert then.placed > found.places[0].placed
    assert answer(more).places[0].placed < then.placed


#: Left edge as placed, words, where it then is; permitted are 0 to 38 and 172 to 214 [in].
MOVES = [
    (40.5, "Move the unit 2-1/2 in to the left.", 38, 38 + STEP),
    (170, "Move the unit 2 in to the right.", 172, 172 - STEP),
    (105, "Move the unit 67 in to the left.", 38, 38 + STEP),
]


@pytest.mark.parametrize("left, words, target, beyond", MOVES)
def test_a_unit_is_moved_to_the_nearest_place(
    left: float, words: str, target: float, beyond: float
) -> None:
    def placed_at(x: float) -> ClearanceAnswer:
        place = exactly(wall(opening(100, 36)))
        return answer(body(place | {"placed": [{"unit": "unit-a", "left": x}]}))

    # Where it is hung then is measured with a tape, as where it was.
    fix = fix_of(placed_at(left), "move-unit")
    assert (fix.statement, fix.verdict) == (words, "pass")
    assert placed_at(target).verdict == "conditional"
    assert placed_at(beyond).verdict == "undetermined"


def test_several_units_are_hung_at_the_places_of_the_arrangement() -> None:
    def placed_at(*xs: float) -> ClearanceAnswer:
        placed = [{"unit": "unit-a", "left": {"value": x, "within": 0}} for x in xs]
        place = exactly(wall(opening(100, 36))) | {"placed": placed}
        return answer(body(place, units=[unit(count=2)]))

    found = placed_at(50, 172)
    assert fix_of(found, "move-unit").verdict == placed_at(*lefts(found.places[0])).verdict


def test_what_is_in_the_way_is_relocated_by_whoever_may() -> None:
    """The hose bib by the owner: without it 34 in of left edges are free; no other thing helps."""
    place = exactly(wall(BIB, length=60))
    found = answer(body(place))
    fix = fix_of(found, "move-object")
    assert (fix.statement, fix.effort) == ("Relocate the hose bib.", 3)
    then = answer(body(place | {"objects": []}))
    assert (then.places[0].verdict, then.places[0].placed) == (fix.verdict, fix.placed)


def test_two_things_are_relocated_where_one_is_not_enough() -> None:
    place = exactly(wall(BIB | {"left": 33}, METER, length=70))
    fix = fix_of(answer(body(place)), "move-objects")
    assert (fix.statement, fix.effort) == ("Relocate the hose bib and the gas meter.", 5)
    for at in (0, 1):
        alone = body(place | {"objects": [place["objects"][at]]})
        assert answer(alone).places[0].placed == 0
    assert fix.verdict == answer(body(place | {"objects": []})).verdict


def test_a_unit_hung_above_the_way_of_vehicles_needs_no_barrier() -> None:
    made = body(garage(), units=[unit(handle=10)])
    fix = fix_of(answer(made), "hang-at")
    assert fix.statement == "Hang them with their lower edge 48 in above the ground."
    made["units"][0]["bottom"] = 48
    assert rules(answer(made))["vehicle-protection"] == "pass"
    assert answer(made).verdict == fix.verdict


def test_another_place_is_named_where_the_units_stand() -> None:
    places = [wall(id="short", length=20), wall(id="long")]
    made = body(*places, existing=[{"where": "exterior_wall", "energy": 70}])
    # Both fail by energy, so that the longer one stands for the answer by its units.
    assert answer(made).place == "long"
    assert not [fix for fix in answer(made).fixes if fix.id == "other-place"]


def _number(words: str) -> float:
    """Return the inches of a fix, such as 10-15/16."""
    found = re.search(r"(?:(\d+)-)?(\d+)(?:/(\d+))? in", words)
    assert found is not None
    whole, over, under = found.groups()
    return float(whole or 0) + float(over) / float(under or 1)


_FIELDS = {"less-depth": "depth", "less-width": "width", "hang-at": "bottom"}


#: Fixes after which no more need stand there than before.
_AS_MANY = ("fewer-units", "other-place", "stack", "hang-at", "move-unit", "add-bollards")


def test_fixes_of_any_request_hold_when_they_are_done() -> None:
    """Each is done as its words say: as many units stand then, and the place is as was claimed."""
    redone = 0
    for seed in range(120):
        made = random_body(seed)
        found = answer_of(request_of(made))
        chosen = next((one for one in found.places if one.id == found.place), None)
        for fix in found.fixes:
            assert chosen is not None
            if fix.id not in _AS_MANY:
                assert fix.placed > chosen.placed
            if fix.id not in _FIELDS:
                continue
            field, value = _FIELDS[fix.id], _number(fix.statement)
            done = deepcopy(made)
            for one in done["units"]:
                if field == "bottom":
                    one |= {"bottom": value} if one["mount"] == "wall" else {}
                else:
                    one[field] = min(one[field], value)
            then = next(p for p in answer(done).places if p.id == fix.place)
            assert (then.placed, then.verdict) == (fix.placed, fix.verdict), seed
            redone += 1
    assert redone > 20


def test_a_listed_spacing_is_a_condition_of_its_fix() -> None:
    made = body(exactly(wall(length=100)), units=[unit(count=3, listed_spacing=11)])
    found = answer(made)
    assert "the listing documents a spacing of 11 in" in found.conditions
    assert finding(found, "unit-spacing").limit == 11
