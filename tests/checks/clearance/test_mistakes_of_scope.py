"""Typical mistakes about energy, homes, rooms and editions."""

import pytest

from service.findings import Verdict
from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    finding,
    garage,
    room,
    rules,
    unit,
    wall,
)

#: Energy of one box [kWh], boxes of one cabinet, how one unit stands. 20 kWh a unit.
UNITS = [(20, 1, "pass"), (20.1, 1, "fail"), (22, 1, "fail"), (10, 2, "pass"), (11, 2, "fail")]


@pytest.mark.parametrize("energy, boxes, verdict", UNITS)
def test_one_listed_unit_holds_no_more_than_20_kwh(energy: float, boxes: int, verdict: str) -> None:
    stack = {"levels": boxes, "gap": 0, "one_cabinet": True}
    found = answer(body(units=[unit(energy=energy, stack=stack, height=20, handle=10)]))
    held = finding(found, "unit-energy")
    assert (held.verdict, held.actual, held.limit) == (verdict, energy * boxes, 20)


def test_two_boxes_that_are_no_one_cabinet_are_two_units() -> None:
    stack = {"levels": 2, "gap": 0, "one_cabinet": False}
    found = answer(body(units=[unit(energy=11, stack=stack, height=20, handle=10)]))
    assert rules(found)["unit-energy"] == "pass"
    assert finding(found, "location-energy").actual == 22


#: Place, what is stored already (where, kWh), units of 14 kWh, of how much [kWh], how it stands.
LOCATIONS: list[tuple[Body, list[tuple[str, float]], int, float, str]] = [
    (garage(), [("attached_garage", 24)], 4, 80, "pass"),  # 24 + 56 = 80
    (garage(), [("attached_garage", 24.1)], 4, 80, "fail"),
    (garage(), [("exterior_wall", 80), ("detached_garage", 80)], 4, 80, "pass"),
    (garage(attached=False), [("attached_garage", 80)], 4, 80, "pass"),
    (room(), [], 2, 40, "pass"),
    (room(), [("utility_room", 12)], 2, 40, "pass"),  # 12 + 28 = 40
    (room(), [("utility_room", 12.1)], 2, 40, "fail"),
    (wall(), [("outdoors", 80)], 2, 80, "pass"),
    (wall(), [("exterior_wall", 60)], 2, 80, "fail"),  # 88
]


@pytest.mark.parametrize("place, stored, count, limit, verdict", LOCATIONS)
def test_the_limit_is_that_of_each_location_not_of_the_property(
    place: Body, stored: list[tuple[str, float]], count: int, limit: float, verdict: str
) -> None:
    existing = [{"where": where, "energy": energy} for where, energy in stored]
    found = answer(body(place, units=[unit(energy=14, count=count)], existing=existing))
    held = finding(found, "location-energy")
    assert (held.verdict, held.limit) == (verdict, limit)


def test_three_of_14_kwh_are_too_much_for_a_utility_room_and_not_for_a_garage() -> None:
    # K10: 42 of 40
    three = [unit(energy=14, count=3)]
    assert rules(answer(body(room(length=240), units=three)))["location-energy"] == "fail"
    assert rules(answer(body(garage(), units=three)))["location-energy"] == "pass"


def test_units_hung_and_units_standing_are_two_locations_and_the_other_reading_is_shown() -> None:
    """42 on the wall and 42 before it: 84 of the property."""
    kinds = [
        unit(energy=14, count=3, listed_spacing=0),
        unit(id="floor", mount="floor", bottom=6, energy=14, count=3, listed_spacing=0),
    ]
    found = answer(body(wall(), units=kinds))
    assert rules(found)["location-energy"] == "pass"
    (other,) = [one for one in found.alternatives if one.id == "energy-limit-reading"]
    assert other.verdict == "fail"


#: Kind of home, how its scope stands.
ASKED = [("multi_family", "undetermined"), (None, "undetermined")]
KNOWN = ("one_family", "two_family", "townhouse", "accessory_unit")
HOMES = [(home, "pass") for home in KNOWN] + ASKED


@pytest.mark.parametrize("home, verdict", HOMES)
def test_only_homes_of_the_residential_code_are_answered(home: str | None, verdict: str) -> None:
    found = answer(body(home=home))
    assert rules(found)["home-in-scope"] == verdict
    assert found.verdict == verdict


def test_an_unknown_place_or_edition_is_undetermined_and_asked() -> None:
    for made in (body(state=None), body(state="OH"), body(permit_date="2019-06-01")):
        found = answer(made)
        assert found.verdict is Verdict.UNDETERMINED
        assert rules(found)["edition-known"] == "undetermined"
        (asked,) = [one for one in found.questions if one.pointer == "/edition"]
        assert asked.can_change_verdict
    assert answer(body(state=None, edition="model-2024")).verdict is Verdict.PASS


#: Room, further facts, edition, how its use stands.
ROOMS: list[tuple[str, Body, str, str]] = [
    ("bedroom", {}, "ca-2025", "fail"),
    ("closet_of_bedroom", {}, "ca-2025", "fail"),
    ("closet", {"opens_into_bedroom": True}, "ca-2025", "fail"),
    ("utility_room", {"opens_into_bedroom": True}, "ca-2025", "fail"),
    ("closet", {"opens_into_bedroom": None}, "ca-2025", "undetermined"),
    ("closet", {}, "ca-2025", "pass"),
    ("kitchen", {}, "ca-2025", "fail"),
    ("hallway", {}, "ca-2025", "undetermined"),
    ("basement_finished", {}, "ca-2025", "undetermined"),
    ("basement_unfinished", {}, "ca-2025", "pass"),
    ("attic", {}, "ca-2025", "undetermined"),
]


@pytest.mark.parametrize("use, more, edition, verdict", ROOMS)
def test_rooms_where_people_sleep_or_live_take_no_unit(
    use: str, more: Body, edition: str, verdict: str
) -> None:
    found = answer(body(room(use, **more), edition=edition))
    assert rules(found)["room-use"] == verdict


#: Room, edition, how a unit labelled for habitable rooms stands there.
LABELLED = [
    ("office", "ca-2025", "conditional"),
    ("office", "ca-2022", "fail"),
    ("office", "model-2021", "fail"),
    ("bedroom", "ca-2025", "fail"),
    ("closet_of_bedroom", "model-2024", "fail"),
]


@pytest.mark.parametrize("use, edition, verdict", LABELLED)
def test_a_label_for_habitable_rooms_counts_from_2024_and_never_where_people_sleep(
    use: str, edition: str, verdict: str
) -> None:
    found = answer(body(room(use), units=[unit(listed_for_rooms=True)], edition=edition))
    assert rules(found)["room-use"] == verdict


def test_bare_framing_and_an_open_door_are_conditions_of_a_utility_room() -> None:
    bare = answer(body(room(finish="unfinished", door_self_closing=False)))
    assert (rules(bare)["room-finish"], rules(bare)["room-door"]) == ("conditional", "conditional")
    # The door is a rule of the 2024 text.
    assert "room-door" not in rules(answer(body(room(door_self_closing=False), edition="ca-2022")))


def test_an_unlisted_unit_fails_and_one_that_says_nothing_is_undetermined() -> None:
    for listed, verdict in ((False, "fail"), (None, "undetermined"), (True, "pass")):
        assert answer(body(units=[unit(listed=listed)])).verdict == verdict


#: Flood above the ground [in], how a lower edge at 18 stands: 12 more are kept. Tape: 1/4 in.
FLOODS = [(6, "conditional"), (5.75, "pass"), (6.0625, "fail"), (None, "conditional")]


@pytest.mark.parametrize("flood, verdict", FLOODS)
def test_a_unit_hangs_a_foot_above_the_flood(flood: float | None, verdict: str) -> None:
    assert rules(answer(body(wall(flood=flood))))["flood-height"] == verdict
