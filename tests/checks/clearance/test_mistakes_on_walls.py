"""Typical mistakes about walls, openings and working space, and what the answer says instead."""

import pytest

from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    door,
    exactly,
    finding,
    first,
    lefts,
    opening,
    permitted,
    rules,
    unit,
    wall,
    way,
)

WHOLE = [(0.0, 214.0)]
KEPT = [(0.0, 38.0), (172.0, 214.0)]
#: Beside the opening itself: 100 - 26 and 136.
BESIDE = [(0.0, 74.0), (136.0, 214.0)]

OPENINGS: list[tuple[str, Body, list[tuple[float, float]]]] = [
    # 100 - 36 - 26 = 38, 136 + 36 = 172
    ("a fixed window counts as much", opening(100, 36, operable=False), KEPT),
    ("a window above by exactly 36 in is no obstacle", opening(100, 36, bottom=94), WHOLE),
    # sqrt(36^2 - 35^2) = 8.4261: to 65.5739 and from 144.4261
    ("a window above by 35 in still is", opening(100, 36, bottom=93),
     [(0, 65.5625), (144.4375, 214)]),
    ("a window of a garage keeps no distance", opening(100, 36, leads_to="garage"), BESIDE),
    ("a window of another room keeps none", opening(100, 36, leads_to="other"), BESIDE),
    ("what is behind is not known: the dwelling", opening(100, 36, leads_to=None), KEPT),
    ("a sliding door sweeps nothing", door(100, 36, leads_to="garage", swing="slides"),
     BESIDE),
    # a leaf of 36 hinged left opens 180 deg: it reaches sqrt(36^2 - 1) = 35.986 to the left
    ("an outward door sweeps the wall beside it",
     door(100, 36, leads_to="garage", swing="out", hinge="left"), [(0, 38), (136, 214)]),
    ("hinges not known sweep both sides", door(100, 36, leads_to="garage", swing="out"), KEPT),
]  # fmt: skip


@pytest.mark.parametrize("what, thing, edges", OPENINGS, ids=[case[0] for case in OPENINGS])
def test_openings(what: str, thing: Body, edges: list[tuple[float, float]]) -> None:
    assert permitted(first(body(wall(thing)))) == edges, what


def test_at_any_height_a_window_far_above_keeps_its_distance() -> None:
    """Both readings stand beside each other where they differ."""
    high = wall(opening(100, 36, bottom=94))
    strict = {"opening_distance": "any_height"}
    assert permitted(first(body(high, readings=strict))) == KEPT
    found = answer(body(high, units=[unit(count=4)]))
    (other,) = [one for one in found.alternatives if one.id == "opening-distance-reading"]
    assert other.statement == "2 of 4 stand at wall; it fails by clear-positions."
    assert (found.verdict, other.verdict) == ("pass", "fail")


#: Edition, smaller distance that the listing permits [in], permitted left edges.
LISTED = [
    ("ca-2025", None, KEPT),
    ("ca-2025", 12, [(0, 62), (148, 214)]),
    ("model-2024", 12, [(0, 62), (148, 214)]),
    ("ca-2022", 12, KEPT),
    ("model-2021", 12, KEPT),
]


@pytest.mark.parametrize("edition, listed, edges", LISTED)
def test_a_listing_shortens_the_distance_to_openings_from_the_2024_text_on(
    edition: str, listed: float | None, edges: list[tuple[float, float]]
) -> None:
    box = unit(listed_opening_distance=listed)
    found = answer(body(wall(opening(100, 36)), units=[box], edition=edition))
    assert permitted(found.places[0]) == edges
    assert finding(found, "opening-distance").limit == (36 if edges == KEPT else 12)


#: What ends the way, highest voltage to ground, what must be clear before a front at 11 in [in].
#: NEC 2023, Table 110.26(A)(1): 36 up to 150 V; 36, 42, 48 up to 600 V.
DEPTHS = [
    ("block", 120, 47),
    ("block", 400, 53),
    ("brick", 400, 53),
    ("wood_fence", 400, 47),
    ("live_equipment", 400, 59),
    ("live_equipment", 120, 47),
    (None, 400, 53),
    ("block", 700, 59),
]


@pytest.mark.parametrize("opposite, volts, need", DEPTHS)
def test_working_space_is_as_deep_as_its_voltage_and_the_far_side_ask(
    opposite: str | None, volts: float, need: float
) -> None:
    box = unit(volts_to_ground=volts)
    for clear, stands in ((need, True), (need - 0.0625, False)):
        strip = way((0, 240, clear), opposite=opposite)
        place = exactly(wall(way=strip, route=False))
        found = answer(body(place, units=[box]))
        assert bool(found.places[0].placed) is stands
        assert finding(found, "working-space").limit == need - 11


def test_a_sealed_unit_keeps_no_working_space_and_the_other_reading_is_shown() -> None:
    strip = exactly(wall(way=way((0, 240, 40), opposite="block"), route=False))
    found = answer(body(strip, units=[unit(worked_on_live=False)]))
    (other,) = [one for one in found.alternatives if one.id == "working-space-reading"]
    assert (found.verdict, other.verdict) == ("pass", "fail")
    assert not answer(body(strip)).places[0].placed


#: Eave, height of the wall, clearance above the unit, whether a unit with its top at 58 stands.
TOPS = [(58, None, 0, True), (57, None, 0, False), (69, None, 12, False), (70, None, 12, True),
        (None, 57, 0, False), (None, 58, 0, True), (57, 90, 0, False)]  # fmt: skip


@pytest.mark.parametrize("eave, height, above, stands", TOPS)
def test_a_unit_stays_below_eave_and_wall_with_what_it_asks_above(
    eave: float | None, height: float | None, above: float, stands: bool
) -> None:
    lengths = {"eave": eave, "height": height}
    told = {name: {"value": v, "within": 0} for name, v in lengths.items() if v is not None}
    found = answer(body(wall(**told), units=[unit(clearances={"top": above})]))
    assert bool(found.places[0].placed) is stands
    assert ("under-eave" in {one.rule for one in found.places[0].units[0].forbidden}) is not stands


def test_the_upper_box_of_a_stack_has_the_highest_handle() -> None:
    """Bottoms at 18 and 58, handle 30 above each: 88 in is beyond 79; 20 above: 78 is within."""
    stack = {"levels": 2, "gap": 0, "one_cabinet": False}
    for handle, verdict in ((30, "fail"), (20, "pass"), (21, "pass"), (21.0625, "fail")):
        found = answer(body(units=[unit(stack=stack, handle=handle, energy=6)]))
        assert rules(found)["handle-height"] == verdict
        assert finding(found, "handle-height").actual == 58 + handle


def test_an_escape_way_keeps_its_width_though_nobody_walks_there() -> None:
    """11 + 36 = 47: of 46 in there is too little for an escape, enough where nobody passes."""
    sealed = [unit(worked_on_live=False)]
    for escape, stands in ((True, False), (False, True)):
        place = wall(way=way((0, 240, 46)), route=False, escape_way=escape)
        assert bool(first(body(place, units=sealed)).placed) is stands
    unknown = answer(body(wall(way=way((0, 240, 46)), route=False, escape_way=None), units=sealed))
    assert rules(unknown)["clear-positions"] == "undetermined"
    asked = {one.pointer for one in unknown.questions if one.can_change_verdict}
    assert "/places/0/escape_way" in asked


def test_a_way_that_is_too_narrow_before_any_unit_is_no_fault_of_the_units() -> None:
    """30 in at one end stay 30; the unit stands where it is wide, and the answer says so."""
    strip = way((0, 60, 30), (60, 240, 60))
    found = answer(body(wall(way=strip)))
    assert lefts(found.places[0]) == [60]
    assert (found.places[0].way_before_in, found.places[0].way_left_in) == (30, 30)
    assert rules(found)["walkway"] == "conditional"
    assert "the authority accepts the way that is too narrow already" in found.conditions


def test_a_working_space_of_the_panel_may_slide_but_not_shrink() -> None:
    """On 70 in a panel of 14 in leaves one place of 26 in beside 30 in, on 55 in none."""
    panel = {"kind": "equipment", "what": "panel", "left": 40, "width": 14}
    # 70 - 30 = 40 >= 26 on the left alone: left edge to 14.
    assert permitted(first(body(exactly(wall(panel, length=70))))) == [(0, 14)]
    assert permitted(first(body(exactly(wall(panel, length=55))))) == []


def test_a_panel_that_is_blocked_already_is_told_and_no_unit_is_blamed() -> None:
    """Between the wall's end and a box 20 in away there are no 30 in; only overlap is kept."""
    panel = {"kind": "equipment", "what": "panel", "left": 2, "width": 14}
    box = {"kind": "equipment", "what": "other", "left": 20, "width": 10}
    found = answer(body(exactly(wall(panel, box))))
    assert permitted(found.places[0]) == [(30, 214)]
    assert rules(found)["equipment-space"] == "conditional"
    assert "too small already" in found.conditions[0]
    assert rules(answer(body(exactly(wall(panel)))))["equipment-space"] == "pass"


def test_what_stands_opposite_is_asked_where_a_depth_hangs_on_it() -> None:
    """At 400 V masonry asks 53 in from the wall, wood 47: of 50 in it decides; at 120 V not."""
    place = exactly(wall(way=way((0, 240, 50), opposite=None)))
    found = answer(body(place, units=[unit(volts_to_ground=400)]))
    assert rules(found)["clear-positions"] == "undetermined"
    (asked,) = [one for one in found.questions if one.pointer.endswith("/opposite")]
    assert asked.can_change_verdict
    assert [one.pointer for one in found.assumptions] == ["/places/0/way/0/opposite"]
    assert answer(body(place)).assumptions == []


def test_different_kinds_keep_the_larger_spacing_between_them() -> None:
    kinds = [unit(listed_spacing=6, count=2), unit(id="unit-b", width=30, energy=6)]
    found = answer(body(exactly(wall()), units=kinds))
    # 0, 26 + 6 = 32, 58 + 36 = 94; 94 + 30 <= 240
    assert lefts(found.places[0]) == [0, 32, 94]
    assert rules(found)["unit-spacing"] == "conditional"


def test_a_unit_wider_than_the_wall_has_no_place() -> None:
    found = first(body(units=[unit(width=240, clearances={})]))
    assert lefts(found) == [0]
    assert not first(body(exactly(wall(length=239)), units=[unit(width=240)])).placed
