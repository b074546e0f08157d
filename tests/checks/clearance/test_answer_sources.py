"""What a clearance answer cites leads to a cell, and changing that cell moves the answer."""

from typing import Any

import msgspec
import pytest

from service.published.loader import resolve
from tests.checks.changed_cell import changed_cell
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import (
    Body,
    answer,
    answer_of,
    body,
    exactly,
    finding,
    garage,
    opening,
    request_of,
    room,
    unit,
    wall,
    way,
)

VENT = {"kind": "gas_vent", "left": 60, "out": 8, "height": 30}
PANEL = {"kind": "equipment", "what": "panel", "left": 100, "width": 14}
BIB = {"kind": "equipment", "what": "hose_bib", "left": 100, "width": 3}
POOL = {"kind": "pool", "left": 0, "width": 100, "out": 40}
TWO = [unit(count=2)]
HIGH = [unit(volts_to_ground=400)]
BLOCK = wall(way=way((0, 240, 60), opposite="block"))
#: Cited cell, the rule that cites it, a request that it decides, what it becomes.
CELLS: list[tuple[str, str, Body, dict[str, str]]] = [
    ("siting_rules/opening-distance.ca-2025", "opening-distance", body(wall(opening(100, 36))),
     {"inches": "40"}),
    ("siting_rules/unit-spacing.ca-2025", "unit-spacing", body(units=TWO), {"inches": "48"}),
    ("siting_rules/unit-energy.ca-2025", "unit-energy", body(), {"kwh": "10"}),
    ("siting_rules/aggregate-energy-exterior-wall.ca-2025", "location-energy", body(),
     {"kwh": "70"}),
    ("siting_rules/aggregate-energy-utility-room.ca-2025", "location-energy", body(room()),
     {"kwh": "30"}),
    ("siting_rules/walkway.default", "walkway", body(), {"inches": "40"}),
    ("siting_rules/working-space-depth-150.default", "working-space", body(), {"inches": "50"}),
    ("siting_rules/working-space-depth-600-condition-2.default", "working-space",
     body(BLOCK, units=HIGH), {"inches": "50"}),
    ("siting_rules/working-space-width.default", "working-space", body(wall(PANEL)),
     {"inches": "40"}),
    ("siting_rules/gas-vent-distance.default", "gas-vent-distance", body(wall(VENT)),
     {"inches": "60"}),
    ("siting_rules/pool-distance.default", "pool-distance", body(wall(POOL)), {"inches": "72"}),
    ("siting_rules/handle-height.default", "handle-height", body(), {"inches": "40"}),
    ("siting_rules/flood-freeboard.default", "flood-height", body(), {"inches": "24"}),
    ("siting_rules/vehicle-path-height.ca-2025", "vehicle-protection",
     body(garage(), units=[unit(bottom=40)]), {"inches": "39"}),
    ("siting_rules/vehicle-back-reach.ca-2025", "vehicle-protection",
     body(garage(vehicle_opening={"left": 50, "width": 140})), {"inches": "20"}),
    ("siting_rules/bollard-spacing.ca-2025", "vehicle-protection", body(garage(), units=TWO),
     {"inches": "40"}),
    ("siting_rules/bollard-clearance.ca-2025", "vehicle-protection", body(garage()),
     {"inches": "8"}),
    ("siting_equipment/hose_bib", "equipment-space", body(wall(BIB)), {"distance": "18"}),
    ("siting_carry/four", "carry-in", body(), {"persons": "3"}),
    ("siting_rules/hand-truck-width.default", "gate-width", body(), {"inches": "22"}),
    ("siting_rooms/utility_room", "room-use", body(room()), {"class": "prohibited"}),
    ("siting_anchorage/response", "seismic-anchorage", body(), {"factor": "1"}),
    ("siting_rules/placement-tolerance.default", "placed-units",
     body(exactly(wall(opening(100, 36), placed=[{"unit": "unit-a", "left": 38.02}]))),
     {"inches": "1/64"}),
]  # fmt: skip


def told(made: Body) -> Any:
    """Return what an answer says of places and rules, without the digest of its data."""
    found = answer(made)
    return msgspec.to_builtins((found.places, found.findings))


@pytest.mark.parametrize("identifier, rule, made, cells", CELLS, ids=[case[0] for case in CELLS])
def test_changing_a_cited_cell_moves_the_answer(
    identifier: str, rule: str, made: Body, cells: dict[str, str]
) -> None:
    found = answer(made)
    assert identifier in finding(found, rule).sources
    assert identifier in {source.id for source in found.sources}
    before = told(made)
    table, _, row = identifier.partition("/")
    with changed_cell(table, row, **cells):
        assert told(made) != before
    assert told(made) == before


def test_every_id_cited_resolves_and_stands_among_the_sources() -> None:
    made = [case[2] for case in CELLS] + [random_body(seed) for seed in range(30)]
    for one in made:
        found = answer_of(request_of(one), "working")
        listed = [source.id for source in found.sources]
        assert len(listed) == len(set(listed))
        cited = {source for held in found.findings for source in held.sources}
        assert cited == set(listed)
        beside = {line.source for line in found.working or () if line.source}
        beside |= {taken.source for taken in found.assumptions if taken.source}
        for identifier in cited | beside:
            table, row, _ = resolve(identifier)
            assert row in table.rows


@pytest.mark.parametrize("by, inches", [("tape", "2"), ("photo", "20")])
def test_how_a_length_was_had_stands_on_its_row(by: str, inches: str) -> None:
    """36 in and one more than the error beside the unit; a larger error is a tape's matter."""
    window = opening(26 + 36 + 10, 36)
    made = body(wall(window, length=108, way=way((0, 100, 90)), measured_by=by))
    assert finding(answer(made), "clear-positions").verdict == "pass"
    with changed_cell("siting_lengths", by, inches=str(int(inches) + 9)):
        assert finding(answer(made), "clear-positions").verdict == "conditional"
