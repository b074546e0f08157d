"""What a second review found: each answer as it must be, one a line."""

from copy import deepcopy

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
    rules,
    unit,
    wall,
    way,
)

#: A door of 36 in round the left inside corner, at the corner.
DOOR: Body = {"kind": "corner_opening", "end": "left", "out": 0, "width": 36, "bottom": 0,
              "height": 80}  # fmt: skip


def meter(left: float) -> Body:
    """Return a gas meter of 16 in."""
    return {"kind": "equipment", "what": "gas_meter", "left": left, "width": 16, "bottom": 12,
            "height": 24}  # fmt: skip


@pytest.mark.parametrize("leads_to", ["garage", "other", "dwelling"])
def test_a_door_round_the_corner_keeps_its_landing(leads_to: str) -> None:
    """36 in before it, wherever it leads. IRC 2021, R311.3, from memory, not verified."""
    for place in (exactly(wall(DOOR | {"leads_to": leads_to})),
                  exactly(room(objects=[DOOR | {"leads_to": leads_to}]))):  # fmt: skip
        assert permitted(first(body(place)))[0][0] == 36
    farther = exactly(wall(DOOR | {"leads_to": leads_to, "out": 12}))
    # A unit that reaches 11 in out stands beside the doorway; a dwelling's keeps its distance.
    assert permitted(first(body(farther)))[0][0] == (36 if leads_to == "dwelling" else 0)


def test_a_window_round_the_corner_keeps_no_landing() -> None:
    window = DOOR | {"bottom": 40, "height": 36, "leads_to": "other"}
    assert permitted(first(body(exactly(wall(window)))))[0][0] == 0


@pytest.mark.parametrize(
    "height, verdict", [(60, "fail"), (77.9, "fail"), (78, "pass"), (96, "pass")]
)
def test_working_space_is_as_high_as_a_person(height: float, verdict: str) -> None:
    """6 ft 6 in. NEC 2023, 110.26(A)(3)."""
    low = unit(height=20, handle=10)
    found = answer(body(exactly(room("basement_unfinished", height=height)), units=[low]))
    assert rules(found)["working-space"] == verdict


def test_a_ceiling_within_its_error_is_to_be_measured() -> None:
    found = answer(body(room("basement_unfinished", height=78), units=[unit(height=20, handle=10)]))
    assert rules(found)["working-space"] == "conditional"


@pytest.mark.parametrize(
    "clearances, expected",
    [
        ({"left": 6, "right": 6}, []),  # 6 + 26 + 6 of 30
        ({"left": 2, "right": 2}, [(2, 2)]),
        ({"left": 4}, [(4, 4)]),
        ({"right": 1}, [(0, 3)]),
    ],
)
def test_a_maker_s_room_at_the_sides_is_kept_from_what_the_wall_meets(
    clearances: Body, expected: list[tuple[float, float]]
) -> None:
    """A closet of 30 in, a unit of 26; by hand."""
    closet = exactly(room("closet", length=30, way=way((0, 30, 60)), finish="gypsum_type_x"))
    sealed = unit(clearances=clearances, worked_on_live=False)
    assert permitted(first(body(closet, units=[sealed]))) == expected


def test_an_open_end_takes_no_room_at_a_side() -> None:
    wide = unit(clearances={"left": 12, "right": 12})
    assert permitted(first(body(exactly(wall()), units=[wide]))) == [(12, 202)]
    place = exactly(wall(left_end="open", right_end="open"))
    assert permitted(first(body(place, units=[wide]))) == [(0, 214)]


def test_a_vent_speaks_for_the_meter_nearest_to_it_alone() -> None:
    """36 in from the other meter: 180 - 36 - 26 = 118; by hand."""
    vent = {"kind": "gas_vent", "left": 18, "out": 8, "height": 30}
    found = permitted(first(body(exactly(wall(meter(10), meter(180), vent)))))
    assert found[-1][1] == 118
    assert permitted(first(body(exactly(wall(meter(180))))))[-1][1] == 118


@pytest.mark.parametrize("end, left, rule", [("left", 0, True), ("right", 214, True),
                                             ("left", 60, False)])  # fmt: skip
def test_what_is_round_an_outside_corner_is_no_pass(end: str, left: float, rule: bool) -> None:
    """Nothing can be told of an opening round an outside corner."""
    place = exactly(wall(**{f"{end}_end": "open"}))
    place["placed"] = [{"unit": "unit-a", "left": {"value": left, "within": 0}}]
    found = answer(body(place))
    assert ("outside-corner" in rules(found)) is rule
    assert str(found.verdict) == ("conditional" if rule else "pass")


@pytest.mark.parametrize(
    "mount, where", [("wall", "outdoors"), ("wall", "exterior_wall"), ("floor", "exterior_wall")]
)
def test_storage_that_is_there_outdoors_is_asked_about(mount: str, where: str) -> None:
    kind = unit(mount=mount) if mount == "wall" else unit(mount="floor", bottom=None)
    found = answer(body(exactly(wall()), units=[kind], existing=[{"where": where, "energy": 12}]))
    assert rules(found)["unit-spacing"] == "conditional"


def test_a_weight_that_one_kind_does_not_state_is_nobody_s_pass() -> None:
    place = exactly(wall(way_in={"narrowest": 48, "steps": 0, "people": 1}))
    found = answer(body(place, units=[unit(mass=40), unit(id="b", mass=None)]))
    assert rules(found)["carry-in"] == "conditional"
    assert "not known" in finding(found, "carry-in").statement


def test_the_least_distance_of_several_kinds_is_told() -> None:
    kinds = [unit(count=2, listed_opening_distance=6), unit(id="b")]
    found = finding(answer(body(exactly(wall(opening(100, 36))), units=kinds)), "opening-distance")
    assert found.limit == 6
    assert found.statement.endswith("by what the listing permits; other kinds keep 36 in.")


@pytest.mark.parametrize("place", [room("basement_unfinished"), garage(side="left")])
def test_floods_indoors_are_warned_of(place: Body) -> None:
    assert "flood-indoors" in [one.id for one in answer(body(exactly(place))).cautions]


def test_a_unit_placed_off_its_place_is_not_told_to_fit() -> None:
    place = wall(opening(100, 36), measured_by="estimate")
    place["placed"] = [{"unit": "unit-a", "left": 60}]
    found = answer(body(place))
    assert "fits" not in found.headline
    assert "off a permitted place" in found.headline
    assert "first places are at 0 in" in finding(found, "clear-positions").statement


@pytest.mark.parametrize(
    "place, kind, words",
    [
        # 24 in of flood and 12 of freeboard
        (exactly(wall(flood=24)), unit(handle=10), "lower edge 36 in"),
        # 79 in less 30
        (exactly(wall()), unit(bottom=50, handle=30), "lower edge 48 in"),
    ],
)
def test_another_height_is_a_fix_where_the_height_fails(
    place: Body, kind: Body, words: str
) -> None:
    made = body(place, units=[kind])
    fix = next(one for one in answer(made).fixes if one.id == "hang-at")
    assert words in fix.statement
    done = deepcopy(made)
    done["units"][0]["bottom"] = float(words.split()[2])
    assert (answer(done).verdict, fix.verdict) == ("pass", "pass")


def test_where_no_unit_may_hang_none_is_counted() -> None:
    assert first(body(exactly(room("bedroom")))).units[0].largest_count == 0
    assert first(body(exactly(wall()), units=[unit(listed=False)])).units[0].largest_count == 0
    many = first(body(exactly(wall(door(100, 36))), units=[unit(count=9)])).units[0]
    assert many.largest_count > 0


@pytest.mark.parametrize(
    "slot, depth, verdict",
    [
        (26, 30, "conditional"),  # the unit fills it, 30 in is asked
        (29, 30, "conditional"),
        (30, 30, "pass"),
        (26, 11, "pass"),  # as far out as the front of the unit
    ],
)
def test_deeper_things_beside_a_unit_narrow_its_working_space(
    slot: float, depth: float, verdict: str
) -> None:
    """30 in or the unit's width, clear of what stands out farther. NEC 2023, 110.26(A)(2)."""
    box = {"kind": "equipment", "what": "other", "width": 40, "bottom": 0, "height": 80,
           "depth": depth}  # fmt: skip
    long = 80 + slot
    boxes = [box | {"left": 0}, box | {"left": 40 + slot}]
    place = exactly(room(length=long, objects=boxes, way=way((0, long, 80))))
    assert rules(answer(body(place)))["working-space"] == verdict


def test_a_low_ceiling_fails_whatever_narrows_the_space_too() -> None:
    box = {"kind": "equipment", "what": "other", "left": 26, "width": 40, "bottom": 0,
           "height": 50, "depth": 30}  # fmt: skip
    place = exactly(room(length=66, height=60, objects=[box], way=way((0, 66, 80))))
    found = finding(answer(body(place, units=[unit(height=20, handle=10)])), "working-space")
    assert str(found.verdict) == "fail"
    assert "ceiling is only 60 in" in found.statement


def test_a_garage_too_short_for_bollards_leaves_no_depth() -> None:
    short = garage(depth=18, vehicle_opening={"left": 24, "width": 192, "height": 84})
    found = answer(body(exactly(short), units=[unit(worked_on_live=False)]))
    barriers = found.places[0].barriers
    assert barriers is not None
    assert barriers.depth_left_in == 0
    assert "leave no depth to park in" in finding(found, "vehicle-protection").statement


def test_an_end_of_which_nothing_is_known_may_be_an_outside_corner() -> None:
    found = answer(body(exactly(wall(left_end=None))))
    assert rules(found)["outside-corner"] == "conditional"


def test_the_two_questions_by_telephone_have_names_of_their_own() -> None:
    asked = answer(body({"kind": "by_telephone", "id": "side", "where": "side_yard"})).questions
    labels = [one.label for one in asked]
    assert len(set(labels)) == len(labels)


def test_bollards_are_a_fix_where_vehicles_may_come() -> None:
    """Two units of 26 with 36 between, 88 in: three bollards at most 60 in apart; by hand."""
    made = body(exactly(garage()), units=[unit(count=2)])
    fix = next(one for one in answer(made).fixes if one.id == "add-bollards")
    assert fix.statement == (
        "Add 3 approved bollards 17 in from the wall, from 0 in to 88 in from its left end."
    )
    done = deepcopy(made)
    bollards = {"what": "bollards", "from_wall": 17, "left": 0, "width": 88, "approved": True}
    done["places"][0]["walls"][0]["barriers"] = [
        {name: {"value": value, "within": 0} if name in ("from_wall", "left", "width") else value
         for name, value in bollards.items()}
    ]  # fmt: skip
    assert (str(answer(done).verdict), str(fix.verdict), fix.placed) == ("pass", "pass", 2)


def test_where_no_place_has_room_for_all_they_are_divided() -> None:
    """Two walls of 60 in, each with room for one of two units of 26 with 36 between."""
    small = [exactly(wall(id=name, length=60)) for name in ("A", "B")]
    found = answer(body(*small, units=[unit(count=2)]))
    fix = next(one for one in found.fixes if one.id == "several-places")
    assert (fix.statement, fix.placed) == ("Hang 1 at A and 1 at B.", 2)
    # Where the other wall is, and so the spacing to it, is not known.
    assert str(fix.verdict) == "conditional"


def test_two_walls_of_one_garage_are_not_two_places() -> None:
    place = exactly(garage(width=100, depth=200, vehicle_opening={"left": 10, "width": 80,
                                                                  "height": 84}))  # fmt: skip
    other = deepcopy(place["walls"][0]) | {"side": "left"}
    place["walls"].append(other)
    found = answer(body(place, units=[unit(count=5)]))
    assert "several-places" not in [one.id for one in found.fixes]


def test_the_energy_of_all_places_is_kept_together() -> None:
    """54 kWh on each wall, then 30; 80 kWh on exterior walls. Secondary, as the table says."""
    small = [exactly(wall(id=name, length=60)) for name in ("A", "B")]
    heavy = unit(count=2, energy=18, stack={"levels": 3, "one_cabinet": False, "gap": 0},
                 height=12, bottom=18, handle=6, listed_spacing=0, width=40)  # fmt: skip
    found = answer(body(*small, units=[heavy]))
    assert "several-places" not in [one.id for one in found.fixes]
    lighter = answer(body(*small, units=[heavy | {"energy": 10}]))
    assert "several-places" in [one.id for one in lighter.fixes]


@pytest.mark.parametrize(
    "way_in, verdict",
    [
        ({"steps": 0, "people": 2}, "conditional"),  # a slope would take 3
        ({"steps": 0, "people": 3}, "pass"),
        ({"steps": 0, "people": 2, "slope_percent": 8}, "pass"),
        ({"steps": 0, "people": 2, "slope_percent": 9}, "conditional"),
    ],
)
def test_a_slope_that_is_not_known_may_be_too_steep_to_roll(way_in: Body, verdict: str) -> None:
    """120 lb: two with a hand truck up to 1 in 12, three where it does not roll; table carry."""
    found = answer(body(exactly(wall(way_in=way_in | {"narrowest": 48})), units=[unit(mass=120)]))
    assert rules(found)["carry-in"] == verdict


def test_what_a_machine_lifts_is_no_matter_of_people() -> None:
    place = exactly(wall(way_in={"narrowest": 60, "steps": 0, "people": 6, "slope_percent": 0}))
    found = answer(body(place, units=[unit(mass=900)]))
    assert rules(found)["carry-in"] == "conditional"
    assert any("a machine lift and 3 people come along" in one for one in found.conditions)


def test_a_unit_just_outside_the_reach_on_a_side_wall_is_told_of() -> None:
    """36.2 in from the path, near the back wall; half an inch, common practice."""

    def said(left: float) -> str:
        opening_at = {"left": left, "width": 240 - left, "height": 96}
        place = garage(side="left", vehicle_opening=opening_at,
                       placed=[{"unit": "unit-a", "left": 204}])  # fmt: skip
        return finding(answer(body(exactly(place))), "vehicle-protection").statement

    assert "half an inch" in said(47.2)
    assert "half an inch" not in said(47.6)


def test_behind_a_barrier_no_edge_is_told_of() -> None:
    bollards = {"what": "bollards", "from_wall": 30, "left": 0, "width": 240, "approved": True}
    made = garage(barriers=[bollards], placed=[{"unit": "unit-a", "left": 107}])
    found = finding(answer(body(exactly(made))), "vehicle-protection")
    assert "half an inch" not in found.statement


def test_a_listed_distance_to_openings_is_documented() -> None:
    found = answer(body(exactly(wall(opening(100, 36))), units=[unit(listed_opening_distance=6)]))
    assert rules(found)["opening-distance"] == "conditional"
    assert "the listing documents a distance of 6 in from doors and windows" in found.conditions


def test_the_slope_is_asked_where_it_decides_and_nowhere_else() -> None:
    def asked(people: int) -> bool:
        place = exactly(wall(way_in={"narrowest": 48, "steps": 0, "people": people}))
        found = answer(body(place, units=[unit(mass=120)]))
        return any(one.pointer.endswith("/slope_percent") for one in found.questions)

    assert [asked(people) for people in (1, 2, 3)] == [False, True, False]
