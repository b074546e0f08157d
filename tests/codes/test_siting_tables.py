"""Switches, lengths, rooms, materials, walls, bands of mass and seismic factors load in SI."""

from __future__ import annotations

import math

import pytest

from service.codes.siting_anchorage import anchorage_factors
from service.codes.siting_carry import carry_bands
from service.codes.siting_lengths import length_origins
from service.codes.siting_rooms import siting_rooms
from service.codes.siting_rules import aggregate_rule, siting_rule
from service.codes.siting_switches import siting_switches
from service.codes.siting_walls import opposite_materials, wall_builds
from service.published.loader import load
from service.published.source import Standing

# switch | default | the other reading.
SWITCHES = (
    ("opening_distance", "straight", "any_height"),
    ("working_space", "serviced_live", "every_unit"),
    ("energy_limits", "per_location", "per_property"),
    ("garage_openings", "do_not_count", "count"),
    ("vehicle_edge", "less", "not_more"),
    ("utility_door", "utility_spaces", "garages_too"),
    ("garage_energy", "each", "together"),
)


@pytest.mark.parametrize("switch, default, other", SWITCHES)
def test_a_switch_says_what_both_of_its_readings_mean(
    switch: str, default: str, other: str
) -> None:
    found = siting_switches()[switch]
    assert (found.default, found.other_than(default)) == (default, other)
    assert found.other_than(other) == default
    assert set(found.statements) == {default, other}
    assert all(statement.endswith(".") for statement in found.statements.values())
    assert found.sections
    assert found.cite().standing == found.standing


def test_every_switch_is_tried_above() -> None:
    assert tuple(siting_switches()) == tuple(switch for switch, _, _ in SWITCHES)


# origin | length [in] | half of the band [in]. Source: the larger of inches and part, by hand:
# 5 % of 100 is 5, of 40 is 2 (below 3); 15 % of 100 is 15, of 60 is 9 (below 12).
BANDS = (
    ("drawing", 240, 1),
    ("tape", 240, 0.25),
    ("photo", 40, 3),
    ("photo", 100, 5),
    ("estimate", 60, 12),
    ("estimate", 100, 15),
)


@pytest.mark.parametrize("origin, length, half", BANDS)
def test_a_length_is_off_by_the_larger_of_inches_and_part(
    origin: str, length: float, half: float
) -> None:
    band = length_origins()[origin].half_band(length * 0.0254)
    assert band == pytest.approx(half * 0.0254, abs=1e-12)


def test_how_far_off_lengths_are_is_nobodys_published_number() -> None:
    standings = {origin.cite().standing for origin in length_origins().values()}
    assert standings == {Standing.COMMON_PRACTICE}


# room | class. Source: IRC 2021 R328.4, IRC 2024 R330.4.
ROOMS = (
    ("bedroom", "prohibited"),
    ("closet_of_bedroom", "prohibited"),
    ("living_room", "prohibited"),
    ("kitchen", "prohibited"),
    ("hallway", "not_listed"),
    ("bathroom", "not_listed"),
    ("attic", "not_listed"),
    ("crawl_space", "not_listed"),
    ("basement_finished", "not_listed"),
    ("unknown", "not_listed"),
    ("closet", "utility_room"),
    ("utility_room", "utility_room"),
    ("laundry", "utility_room"),
    ("storage", "utility_room"),
    ("basement_unfinished", "utility_room"),
    ("garage_attached", "attached_garage"),
    ("garage_detached", "detached_garage"),
    ("accessory_building", "detached_garage"),
)


@pytest.mark.parametrize("room, location", ROOMS)
def test_the_use_of_a_room_says_whether_storage_may_stand_there(room: str, location: str) -> None:
    assert siting_rooms()[room].location == location


def test_every_allowed_room_has_a_limit_of_energy() -> None:
    allowed = {room.location for room in siting_rooms().values()} - {"prohibited", "not_listed"}
    assert allowed == {"utility_room", "attached_garage", "detached_garage"}
    for location in allowed:
        assert siting_rule(aggregate_rule(location), ("irc-2021",)).joules


# material | grounded | condition. Source: NEC 2023 Table 110.26(A)(1), conditions 1 to 3.
MATERIALS = (
    ("block", True, 2),
    ("brick", True, 2),
    ("concrete", True, 2),
    ("tile", True, 2),
    ("wood_fence", False, 1),
    ("vinyl_fence", False, 1),
    ("glass", False, 1),
    ("open", False, 1),
    ("chain_link", None, 2),
    ("unknown", None, 2),
    ("live_equipment", True, 3),
)


@pytest.mark.parametrize("material, grounded, condition", MATERIALS)
def test_what_stands_opposite_gives_the_condition_of_the_working_space(
    material: str, grounded: bool | None, condition: int
) -> None:
    found = opposite_materials()[material]
    assert (found.grounded, found.condition) == (grounded, condition)


def test_what_may_be_grounded_is_taken_as_grounded() -> None:
    for material in opposite_materials().values():
        assert material.condition == (1 if material.grounded is False else 2) or (
            material.condition == 3 and material.grounded
        )


@pytest.mark.parametrize("wall", load("siting_walls").rows)
def test_every_wall_says_its_fixing_and_what_to_confirm(wall: str) -> None:
    build = wall_builds()[wall]
    assert build.fixing.endswith(".")
    assert build.confirm.endswith(".")
    assert build.cite().standing == build.standing == Standing.COMMON_PRACTICE


# wall | studs behind its face.
STUDS = (("wood_stud", True), ("concrete", False), ("brick_veneer", None), ("unknown", None))


@pytest.mark.parametrize("wall, studs", STUDS)
def test_a_wall_says_whether_studs_are_behind_it(wall: str, studs: bool | None) -> None:
    assert wall_builds()[wall].studs is studs


def test_heavier_bands_take_no_fewer_people_and_the_last_has_no_limit() -> None:
    bands = carry_bands()
    # 50 lb x 0.45359237 kg/lb = 22.6796 kg.
    assert bands[0].up_to == pytest.approx(22.6796, abs=1e-4)
    assert bands[-1].up_to == math.inf
    assert [b.up_to for b in bands] == sorted(b.up_to for b in bands)
    assert [b.persons for b in bands] == sorted(b.persons for b in bands)
    assert all(b.persons_on_steps >= b.persons for b in bands)
    # What is rolled is rolled up to 1 in 12.
    slopes = [b.slope for b in bands if b.help != "none"]
    assert slopes == pytest.approx([1 / 12] * 4, abs=1e-12)
    assert {b.slope for b in bands if b.help == "none"} == {None}


def test_the_seismic_factors_are_those_of_electrical_equipment() -> None:
    # ASCE 7-16 Table 13.6-1, from memory.
    factors = anchorage_factors()
    assert (factors.amplification, factors.response, factors.importance) == (1.0, 2.5, 1.0)
