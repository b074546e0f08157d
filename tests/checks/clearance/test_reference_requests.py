"""Reference walls and garages asked through whole requests: places, numbers, way, protection."""

from typing import Any

import pytest

from tests.checks.clearance.requests import (
    Body,
    answer,
    body,
    door,
    exactly,
    first,
    garage,
    lefts,
    opening,
    permitted,
    rules,
    unit,
    wall,
    way,
)

WHOLE = [(0.0, 214.0)]
DWELLING = {"leads_to": "dwelling", "swing": "out", "hinge": "right", "opens_degrees": 180}
TO_GARAGE = {"leads_to": "garage", "swing": "out", "hinge": "right", "opens_degrees": 90}
VENT = {"kind": "gas_vent", "left": 60, "out": 8, "height": 30}
PANEL = {"kind": "equipment", "what": "panel", "left": 40, "width": 14, "bottom": 44, "height": 30}
CONDENSER = {"kind": "condenser", "left": 120, "width": 32, "out": 12, "depth": 32}
CORNER = {"kind": "corner_opening", "end": "left", "bottom": 40, "height": 40}
ROUND = CORNER | {"out": 20, "width": 30}
STEPPED = way((0, 80, 60), (80, 150, 44), (150, 240, 60))
BLOCK = {"way": way((0, 240, 48), opposite="block")}
WIDE_GAS = {"readings": {"gas_distance": 60}}
#: Name, wall, facts of the unit, of the job; permitted left edges of one unit, most of them,
#: left edges of as many placed together [in], way left [in]. Hand arithmetic beside each; ends
#: that are no sixteenth are shown one inwards.
WALLS: list[tuple[str, Body, Body, Body, list[tuple[float, float]], list[float], float]] = [
    # 4 * 26 + 3 * 36 = 212 of 240; 60 - 11 = 49
    ("G1", wall(), {}, {}, WHOLE, [0, 62, 124, 186], 49),
    # 32 n - 6 <= 240 gives 7; 9 kWh: 63 of 80
    ("G1b", wall(), {"listed_spacing": 6, "energy": 9}, {}, WHOLE,
     [0, 32, 64, 96, 128, 160, 192], 49),
    # 100 - 36 - 26 = 38; 136 + 36 = 172
    ("G2", wall(opening(100, 36)), {}, {}, [(0, 38), (172, 214)], [0, 172], 49),
    # 94 - 58 = 36: not less than 36
    ("G4", wall(opening(100, 36, bottom=94, height=10)), {}, {}, WHOLE, [0, 62, 124, 186], 49),
    # 86 + 36 = 122; the leaf lies in it
    ("G5", wall(door(50, 36, **DWELLING), length=150), {}, {}, [(122, 124)], [122], 49),
    # no distance; 50 - 26 = 24, the leaf stands within the door
    ("G5b", wall(door(50, 36, **TO_GARAGE), length=150), {}, {}, [(0, 24), (86, 124)], [0, 86], 49),
    # level with the box and within its depth: 60 + 36 = 96, 60 - 36 - 26 < 0
    ("G6", wall(VENT), {}, {}, [(96, 214)], [96, 158], 49),
    ("G6c", wall(VENT), {}, WIDE_GAS, [(120, 214)], [120, 182], 49),
    # 11 + 36 = 47 of 48
    ("G7", wall(**BLOCK), {}, {}, WHOLE, [0, 62, 124, 186], 37),
    # 14 + 1 + 36 = 51 of 48; the way is what it was
    ("G7b", wall(**BLOCK), {"depth": 14}, {}, [], [], 48),
    # 47 > 44 between 80 and 150; the narrowest place stays 44
    ("G8", wall(way=STEPPED), {}, {}, [(0, 54), (150, 214)], [0, 150, 212], 44),
    # 40 - 26 = 14; 54. The working space slides to 26..56 between units
    ("G9", wall(PANEL, length=120), {}, {}, [(0, 14), (54, 94)], [0, 62], 49),
    # 120 - 12 - 26 = 82; 152 + 30 = 182; past the condenser 60 - 12 - 32 = 16
    ("G10", wall(CONDENSER | {"service_side": "right"}), {}, {}, [(0, 82), (182, 214)],
     [0, 62, 182], 16),
    # 20 - 11 = 9 in front of the unit: sqrt(36^2 - 9^2) = 34.8569 -> 34-7/8 shown
    ("G11", wall(ROUND), {}, {}, [(34.875, 214)], [34.875, 96.875, 158.875], 49),
    # 47 - 11 = 36
    ("G11c", wall(CORNER | {"out": 47, "width": 30}), {}, {}, WHOLE, [0, 62, 124, 186], 49),
]  # fmt: skip


@pytest.mark.parametrize(
    "name, place, box, job, edges, placed, left", WALLS, ids=[case[0] for case in WALLS]
)
def test_a_reference_wall_asked_whole(
    name: str, place: Body, box: Body, job: Body, edges: Any, placed: list[float], left: float
) -> None:
    """As many units as fit stand leftmost; one more does not, and its places are those alone."""
    many = max(len(placed), 1)
    found = first(body(place, units=[unit(count=many, **box)], **job))
    assert permitted(found) == edges, name
    assert lefts(found) == placed
    assert found.way_left_in == left
    assert found.units[0].largest_by_room == found.units[0].largest_count == len(placed)
    more = answer(body(place, units=[unit(count=len(placed) + 1, **box)], **job)).places[0]
    assert more.placed == len(placed)


#: Energy of a unit [kWh], most on the wall by room and by energy. 80 kWh a wall, 20 a unit.
ENERGIES = [(9, 7, 7), (12, 7, 6), (20, 7, 4), (22, 7, 0)]


@pytest.mark.parametrize("energy, room, most", ENERGIES)
def test_energy_leaves_fewer_units_than_room_does(energy: float, room: int, most: int) -> None:
    found = first(body(units=[unit(energy=energy, listed_spacing=6)])).units[0]
    assert (found.largest_by_room, found.largest_count) == (room, most)


TALL = {"left": 24, "width": 192, "height": 96}
LOW = TALL | {"height": 84}
FULL = {"left": 6, "width": 228, "height": 96}
#: Name, wall of the garage, vehicle opening, where the unit was placed, its bottom; protect [in].
GARAGES: list[tuple[str, str, Body, float, float, bool]] = [
    ("K1", "back", TALL, 100, 18, True),  # in the path
    ("K2", "back", TALL, 100, 48, False),  # at the top of the path
    ("K3", "back", LOW, 100, 36, False),  # the opening of 84 exempts it
    ("K3 lower", "back", LOW, 100, 35, True),
    ("K4", "back", TALL, 0, 18, True),  # 24 to 26 in the path, 0 to 24 beside it
    ("K7", "left", TALL, 100, 18, False),  # 13 beside the path, 114 before the back wall
    ("K7 near", "left", TALL, 191, 18, True),  # 23 before the back wall
    ("K8", "left", FULL, 100, 18, True),  # 6 to 11 in the path
]


@pytest.mark.parametrize(
    "name, side, vehicles, left, bottom, protect", GARAGES, ids=[case[0] for case in GARAGES]
)
def test_a_reference_garage_asked_whole(
    name: str, side: str, vehicles: Body, left: float, bottom: float, protect: bool
) -> None:
    """Where a unit placed there keeps clear of vehicles it stands at once, else behind barriers."""
    # The other places of the wall are taken, so that the unit goes where it was placed.
    taken = [
        {"kind": "equipment", "what": "light", "left": a, "width": b - a}
        for a, b in ((0, left), (left + 26, 240))
        if b > a
    ]
    place = exactly(garage(*taken, side=side, vehicle_opening=vehicles))
    found = answer(body(place, units=[unit(bottom=bottom)]))
    assert lefts(found.places[0]) == [left], name
    assert rules(found)["vehicle-protection"] == ("conditional" if protect else "pass")
    barriers = found.places[0].barriers
    assert (barriers is not None) is protect
    if barriers is not None:
        # The run of 26 takes one at each end; 240 - 11 - 6 - 3.5 of depth stay before the back.
        assert barriers.bollards_at_in == pytest.approx([left, left + 26])
        assert barriers.depth_left_in == (219.5 if side == "back" else None)


def test_energy_of_garage_and_wall_is_summed_by_location_or_by_property() -> None:
    """K10: 56 and 28 are each within 80; together 84 are not, and that reading is shown."""
    stored = [{"where": "attached_garage", "energy": 56}]
    made = body(wall(), units=[unit(count=2, energy=14)], existing=stored)
    found = answer(made)
    assert rules(found)["location-energy"] == "pass"
    (other,) = [one for one in found.alternatives if one.id == "energy-limit-reading"]
    assert (str(other.verdict), other.flips_verdict) == ("fail", True)
    strict = answer(made | {"readings": {"energy_limits": "per_property"}})
    assert rules(strict)["location-energy"] == "fail"
