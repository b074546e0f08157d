"""What a heat answer cites leads to a cell, and changing that cell moves the answer."""

from typing import Any

import msgspec
import pytest

from service.published.loader import resolve
from tests.checks.changed_cell import changed_cell
from tests.checks.heat_exposure.requests import KNOWN, Body, answer, body, unit, walls

OPEN = body(extreme_rise=None, wall_air_rise=None)
COLOUR = unit(absorptance=None, colour="dark")
MASS = unit(lag_hours=None, mass=300)
LAG = unit(lag_hours=None)
GARAGE = body(place={"kind": "garage", "door_faces": "other"}, wall_air_rise=None)
STATED: Body = {
    "kind": "design_day",
    "highest": 100,
    "daily_range": 28,
    "day_of_year": 230,
    "latitude": 34,
    "longitude": -117,
    "utc_offset_hours": -8,
    "depths": {"edition": "ashrae_2013", "beam": 0.45, "diffuse": 2.0},
}
CELLS: list[tuple[str, Body, dict[str, str]]] = [
    ("surface_coefficients/calm", body(), {"w_m2_k": "9"}),
    ("surface_coefficients/windy", body(), {"w_m2_k": "20"}),
    ("surface_absorptance/dark", COLOUR, {"value": "0.88"}),
    ("ground_reflectance/ordinary", body(), {"value": "0.22"}),
    ("ground_reflectance/grass", walls({"ground": "grass"}), {"value": "0.3"}),
    ("heat_defaults/sky_loss_w_m2", body(), {"value": "50"}),
    ("heat_defaults/wall_air_k", OPEN, {"high": "4"}),
    ("heat_defaults/percentile_gap_k", OPEN, {"high": "8"}),
    ("heat_defaults/lag_h", LAG, {"value": "3.5"}),
    ("heat_defaults/specific_heat_j_kg_k", MASS, {"value": "1050"}),
    ("enclosure_materials/painted_steel", MASS, {"w_m2_k": "6"}),
    ("garage_offsets/other_door", GARAGE, {"typical": "6"}),
    ("optical_depth_exponents/ashrae_2013", body(climate=STATED), {"b_one": "1.4"}),
    ("design_day_profile/12", body(climate=STATED), {"part": "0.2"}),
]


def numbers(made: Body) -> Any:
    """Return what an answer says of heat, without the digest of its data."""
    found = answer(made)
    return msgspec.to_builtins((found.days, found.findings, found.power))


@pytest.mark.parametrize("identifier, made, cells", CELLS, ids=[case[0] for case in CELLS])
def test_changing_a_cited_cell_moves_the_answer(
    identifier: str, made: Body, cells: dict[str, str]
) -> None:
    found = answer(made)
    assert identifier in {source.id for source in found.sources}
    heat = next(one for one in found.findings if one.rule == "heat-limit")
    assert identifier in heat.sources
    before = numbers(made)
    table, _, row = identifier.partition("/")
    with changed_cell(table, row, **cells):
        assert numbers(made) != before
    assert numbers(made) == before


@pytest.mark.parametrize("row", ["winter_gap_k", "night_sky_k"])
def test_a_hard_winter_stands_on_cells_of_its_own(row: str) -> None:
    def cold() -> Any:
        return next(one for one in answer(body()).findings if one.rule == "cold-limit")

    before = cold()
    assert f"heat_defaults/{row}" in before.sources
    with changed_cell("heat_defaults", row, high="9"):
        assert cold().statement != before.statement


@pytest.mark.parametrize("made", [case[1] for case in CELLS])
def test_every_id_cited_resolves_and_stands_among_the_sources(made: Body) -> None:
    found = answer(made, "working")
    listed = [source.id for source in found.sources]
    assert len(listed) == len(set(listed))
    cited = {source for finding in found.findings for source in finding.sources}
    cited |= {one.source for one in found.assumptions if one.source}
    assert cited <= set(listed)
    for identifier in listed:
        table, row, _ = resolve(identifier)
        assert row in table.rows


def test_a_fact_that_is_stated_cites_no_default() -> None:
    ids = {source.id for source in answer(KNOWN).sources}
    assert not {one for one in ids if one.startswith(("surface_absorptance", "enclosure"))}
    assert "heat_defaults/lag_h" not in ids
