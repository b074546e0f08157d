"""What a reviewer found unsafe: placed units, vehicles, spacing, gas meters, garages, handles."""

from typing import Any

import msgspec
import pytest

from service.checks.clearance.refusals import refusals
from service.checks.clearance.request import ClearanceRequest
from tests.checks.clearance.requests import (
    answer,
    body,
    exactly,
    finding,
    first,
    garage,
    opening,
    permitted,
    room,
    rules,
    unit,
    wall,
)

Body = dict[str, Any]
METER: Body = {"kind": "equipment", "what": "gas_meter", "left": 100, "width": 16, "bottom": 12,
               "height": 24}  # fmt: skip
PANEL: Body = {"kind": "equipment", "what": "panel", "left": 100, "width": 15, "bottom": 44,
               "height": 30, "depth": 4}  # fmt: skip


def by_hand(*xs: float) -> list[Body]:
    """Return units placed at exact left edges [in]."""
    return [{"unit": "unit-a", "left": {"value": x, "within": 0}} for x in xs]


@pytest.mark.parametrize(
    "left, protected",
    [(190, False), (191, True), (214, True)],  # 240 - 24 - 26: the last 24 in of a side wall
)
def test_a_unit_placed_near_the_back_corner_is_protected(left: float, protected: bool) -> None:
    """2022 CRC R328.8.1, from memory: within 24 in of the back wall and 36 in of the path."""
    place = exactly(garage(side="left", placed=by_hand(left)))
    found = answer(body(place))
    assert (found.places[0].barriers is not None) is protected
    assert rules(found)["vehicle-protection"] == ("conditional" if protected else "pass")


def test_bollards_stand_before_the_units_as_they_were_placed() -> None:
    """Two units at 100 and 162 in: from 100 to 188, 44 in apart."""
    found = first(body(exactly(garage(placed=by_hand(100, 162))), units=[unit(count=2)]))
    assert found.barriers is not None
    assert found.barriers.bollards_at_in == pytest.approx([100, 144, 188])


def test_only_what_no_approved_barrier_keeps_is_protected() -> None:
    """A barrier keeps 0 to 40 in; of units at 0 and 62 in the second needs one: 62 to 88."""
    kept = {"what": "bollards", "from_wall": 24, "left": 0, "width": 40, "approved": True}
    place = exactly(garage(placed=by_hand(0, 62), barriers=[kept]))
    found = first(body(place, units=[unit(count=2)]))
    assert found.barriers is not None
    assert found.barriers.bollards_at_in == pytest.approx([62, 88])


@pytest.mark.parametrize(
    "lefts, verdict",
    # The panel is 100 to 115 in: 30 in stay between 98 and 128, not between 98 and 117.
    [((72, 128), "pass"), ((72, 127), "fail"), ((72, 117), "fail")],
)
def test_two_placed_units_leave_the_working_space_between_them(
    lefts: tuple[float, float], verdict: str
) -> None:
    """NEC 110.26(A)(2): 30 in or as wide as the equipment."""
    place = exactly(wall(PANEL, placed=by_hand(*lefts)))
    found = answer(body(place, units=[unit(count=2, listed_spacing=6)]))
    assert rules(found)["placed-units"] == verdict


def test_units_that_were_not_placed_are_not_judged_silently() -> None:
    place = exactly(wall(placed=by_hand(0)))
    found = finding(answer(body(place, units=[unit(count=2)])), "placed-units")
    assert (str(found.verdict), found.statement.endswith("1 of 2.")) == ("conditional", True)


@pytest.mark.parametrize(
    "stack, said, verdict",
    [
        ({"levels": 2, "gap": 2}, "2 in", "conditional"),
        ({"levels": 2, "gap": 36}, "36 in", "pass"),
        ({"levels": 2}, "36 in", "pass"),
    ],
)
def test_a_stack_closer_than_the_code_needs_a_listing(stack: Body, said: str, verdict: str) -> None:
    """IRC R328.3.1: 3 ft unless a large-scale fire test documents less."""
    found = finding(answer(body(units=[unit(height=10, handle=5, stack=stack)])), "unit-spacing")
    assert (str(found.verdict), said in found.statement) == (verdict, True)


def test_units_keep_away_from_storage_that_is_there_already() -> None:
    there = [{"where": "exterior_wall", "energy": 13}]
    found = finding(answer(body(existing=there)), "unit-spacing")
    assert str(found.verdict) == "conditional"
    elsewhere = [{"where": "attached_garage", "energy": 13}]
    assert "unit-spacing" not in rules(answer(body(existing=elsewhere)))


def test_a_gas_meter_whose_vent_is_not_known_keeps_the_distance_of_a_vent() -> None:
    """A meter from 100 to 116 in, 12 to 36 in high: 36 in to both sides, in a straight line."""
    vent = {"kind": "gas_vent", "left": 900, "out": 4, "height": 40}
    assert permitted(first(body(exactly(wall(METER))))) == [(0, 38), (152, 214)]
    assert permitted(first(body(exactly(wall(METER, vent))))) == [(0, 68), (122, 214)]


@pytest.mark.parametrize("width, fits", [(47, True), (46.5, False)])  # 11 + 36 in to the far wall
def test_a_narrow_garage_has_no_working_space(width: float, fits: bool) -> None:
    """NEC 110.26(A)(1): 36 in before a unit whose front is 11 in from the wall."""
    narrow = garage(side="left", width=width, vehicle_opening={"left": 5, "width": 30})
    assert bool(permitted(first(body(exactly(narrow))))) is fits


def test_the_worse_handle_decides() -> None:
    """Of 82 in, known, and a top of 84 in, whose handle is not: the known one fails."""
    kinds = [
        unit(id="low", height=72, handle=70, bottom=12),
        unit(id="tall", height=84, bottom=0, handle=None),
    ]
    found = finding(answer(body(units=kinds)), "handle-height")
    assert (str(found.verdict), found.actual) == ("fail", 82)


def test_a_kitchen_that_opens_into_a_bedroom_is_none() -> None:
    listed = [unit(listed_for_rooms=True)]
    assert rules(answer(body(room("kitchen"), units=listed)))["room-use"] == "conditional"
    there = room("kitchen", opens_into_bedroom=True)
    assert rules(answer(body(there, units=listed)))["room-use"] == "fail"


@pytest.mark.parametrize("bottom, told", [(5, True), (6, False)])
def test_a_unit_near_the_ground_outdoors_is_told(bottom: float, told: bool) -> None:
    """6 in above the ground; common practice, no source."""
    found = rules(answer(body(units=[unit(bottom=bottom)])))
    assert ("ground-height" in found) is told


@pytest.mark.parametrize("line, verdict", [(10.5, "fail"), (11, "conditional")])
def test_no_unit_reaches_beyond_the_property_line(line: float, verdict: str) -> None:
    place = exactly(wall(property_line={"value": line, "within": 0}))
    assert rules(answer(body(place)))["property-line"] == verdict


def test_both_kinds_of_fixing_are_told_where_units_hang_and_stand() -> None:
    kinds = [unit(id="hung"), unit(id="stood", mount="floor", bottom=0)]
    found = rules(answer(body(units=kinds)))
    assert {"wall-fixing", "ground-fixing"} <= set(found)


def test_more_units_placed_than_wanted_are_refused() -> None:
    made = body(wall(opening(100, 36), placed=by_hand(0, 172)))
    found = refusals(msgspec.convert(made, ClearanceRequest))
    assert [one.pointer for one in found] == ["/places/0/placed"]
    assert refusals(msgspec.convert(made | {"units": [unit(count=2)]}, ClearanceRequest)) == []


def test_as_many_units_as_the_energy_leaves_are_a_fix() -> None:
    """50 kWh are there, 80 are allowed: two of 15 kWh, not three."""
    there = [{"where": "exterior_wall", "energy": 50}]
    found = answer(body(units=[unit(count=3, energy=15)], existing=there))
    fix = next(one for one in found.fixes if one.id == "fewer-units")
    assert (fix.placed, str(fix.verdict)) == (2, "conditional")


def test_the_headline_names_the_units_as_they_were_placed() -> None:
    found = answer(body(exactly(wall(placed=by_hand(100)))))
    assert "left edge at 8 ft 4 in" in found.headline


def test_the_floor_of_a_garage_is_no_way_for_people() -> None:
    found = answer(body(exactly(garage(side="left"))))
    assert (found.places[0].way_before_in, found.places[0].way_left_in) == (None, None)
    assert "of way" not in found.headline


@pytest.mark.parametrize(
    "narrowest, pounds, verdict",
    # 10 in deep and 4 in for hands; from 100 lb on it comes on a truck 20 in wide.
    [(14, 90, "pass"), (13.5, 90, "conditional"), (20, 110, "pass"), (19.5, 110, "conditional")],
)
def test_a_gate_is_as_wide_as_a_piece_or_the_truck_it_comes_on(
    narrowest: float, pounds: float, verdict: str
) -> None:
    """Common practice, no source, for hands, truck and what is carried by hand."""
    gate = {"narrowest": {"value": narrowest, "within": 0}, "steps": 0, "people": 6}
    place = exactly(wall()) | {"way_in": gate}
    found = answer(body(place, units=[unit(mass=pounds)]))
    assert rules(found)["gate-width"] == verdict


def test_what_holds_less_than_a_kilowatt_hour_needs_no_listing() -> None:
    """IRC R328.2: 3.6 megajoules, published in a state's print of the model text."""
    for energy, verdict in ((0.9, "pass"), (1, "fail")):
        found = answer(body(units=[unit(energy=energy, listed=False)]))
        assert rules(found)["unit-listing"] == verdict
