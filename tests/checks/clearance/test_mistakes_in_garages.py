"""Typical mistakes about garages, vehicles and what protects from them."""

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
    lefts,
    permitted,
    rules,
    unit,
)

#: Units on the back wall of 240 in, their centres of bollards [in]: 60 in apart at most.
BOLLARDS = [(1, [0, 26]), (2, [0, 44, 88]), (3, [0, 50, 100, 150]), (4, [0, 53, 106, 159, 212])]


@pytest.mark.parametrize("count, centres", BOLLARDS)
def test_a_run_takes_a_bollard_at_both_ends_and_never_one_alone(
    count: int, centres: list[float]
) -> None:
    found = answer(body(garage(), units=[unit(count=count)]))
    barriers = found.places[0].barriers
    assert barriers is not None
    assert barriers.bollards_at_in == pytest.approx(centres)
    assert finding(found, "vehicle-protection").actual == len(centres)
    # 11 and 6 from the wall; pipe of 3.5; wheel stops 54 before the unit and 5 wide.
    assert barriers.bollards_from_wall_in == 17
    assert barriers.depth_left_in == 240 - 17 - 3.5
    assert barriers.depth_left_wheel_in == 240 - 11 - 54 - 5


def test_the_2021_model_code_has_no_geometry_of_its_own() -> None:
    """It leaves to the authority where storage is exposed: no place is drawn, nor called safe."""
    for bottom in (18, 60):
        found = answer(body(garage(), units=[unit(bottom=bottom, handle=10)], edition="model-2021"))
        assert rules(found)["vehicle-protection"] == "conditional"
        assert found.places[0].barriers is None
        assert any("if the authority asks for it" in one for one in found.conditions)
    later = answer(body(garage(), edition="model-2024"))
    assert later.places[0].barriers is not None


def test_a_door_of_the_dwelling_inside_a_garage_keeps_no_distance_unless_it_is_read_so() -> None:
    """The rule speaks of exterior walls; both readings stand beside each other."""
    place = garage(door(110, 32))
    found = answer(body(place, units=[unit(count=3)]))
    # Only the door itself: 110 - 26 = 84, 110 + 32 = 142.
    assert permitted(found.places[0]) == [(0, 84), (142, 214)]
    assert found.places[0].placed == 3
    (other,) = [one for one in found.alternatives if one.id == "garage-openings-reading"]
    # 110 - 36 - 26 = 48, 142 + 36 = 178: 0 and 178 alone.
    assert other.statement == ("2 of 3 stand at garage, back wall; it fails by clear-positions.")
    strict = first(body(place, readings={"garage_openings": "count"}))
    assert permitted(strict) == [(0, 48), (178, 214)]


#: Clear height of the vehicle opening, lower edge of the unit [in], whether barriers are asked.
EXEMPT = [(90, 36, False), (90, 35.9375, True), (90.0625, 36, True), (None, 36, True),
          (96, 47.9375, True), (96, 48, False), (None, 48, False)]  # fmt: skip


@pytest.mark.parametrize("height, bottom, protect", EXEMPT)
def test_a_low_opening_exempts_units_hung_high(
    height: float | None, bottom: float, protect: bool
) -> None:
    vehicles: Body = {"left": 24, "width": 192} | ({"height": height} if height else {})
    place = exactly(garage(vehicle_opening=vehicles))
    found = answer(body(place, units=[unit(bottom=bottom, handle=10)]))
    assert (found.places[0].barriers is not None) is protect


def test_an_opening_that_is_not_known_protects_every_low_place_and_is_asked() -> None:
    found = answer(body(garage(vehicle_opening=None)))
    assert found.places[0].barriers is not None
    assert "/places/0/vehicle_opening" in {one.pointer for one in found.questions}


#: What stands before the wall, its face from the wall [in], approved; whether it serves. A bollard
#: is 6 in from a front at 11, a wheel barrier 54.
BARRIERS = [
    ("bollards", 17, True, True),
    ("bollards", 16.9375, True, False),
    ("wheel_barrier", 65, True, True),
    ("wheel_barrier", 64.9375, True, False),
    ("bollards", 24, False, False),
    ("bollards", 24, None, False),
]


@pytest.mark.parametrize("what, out, approved, serves", BARRIERS)
def test_barriers_that_are_there_serve_where_approved_and_far_enough(
    what: str, out: float, approved: bool | None, serves: bool
) -> None:
    there: Body = {"what": what, "from_wall": out, "left": 60, "width": 60}
    if approved is not None:
        there["approved"] = approved
    found = answer(body(exactly(garage(barriers=[there]))))
    assert (found.places[0].barriers is None) is serves
    assert lefts(found.places[0]) == [60 if serves else 0]


def test_an_attached_garage_is_separated_or_gets_so() -> None:
    for separated, verdict in ((True, "pass"), (False, "conditional"), (None, "conditional")):
        assert rules(answer(body(garage(separated=separated))))["room-use"] == verdict
    apart = answer(body(garage(attached=False, separated=None)))
    assert rules(apart)["room-use"] == "pass"
    assert not [one for one in apart.questions if one.pointer.endswith("separated")]


def test_a_heat_detector_stands_in_for_the_smoke_alarm_of_a_garage() -> None:
    found = answer(body(garage(detection=False)))
    assert rules(found)["fire-detection"] == "conditional"
    assert "heat detector" in finding(found, "fire-detection").statement


def test_the_vehicle_is_longer_than_what_bollards_leave() -> None:
    # 240 - 20.5 = 219.5
    for length, words in ((219.5, "to park in: the vehicle"), (220, "less than the vehicle")):
        made = body(exactly(garage(vehicle_length=length)))
        assert words in finding(answer(made), "vehicle-protection").statement
