"""Equipment grounding, grounding electrode and supply-side bonding conductors."""

import math
from itertools import pairwise

import numpy as np
import pytest

from service.published.conductors import CIRCULAR_MIL, Material, areas, index_of, sizes
from service.published.equipment_grounding import grounding_row, grounding_size
from service.published.loader import load
from service.published.overcurrent_ratings import standard_ratings
from service.published.service_grounding import (
    electrode_conductor_size,
    electrode_row,
    supply_side_area,
    supply_side_row,
)
from service.published.source import Standing
from service.published.table_arrays import at

NAMES = (*sizes(), "none")

# device [A] | copper | aluminum. Source: Table 250.122, public transcriptions of NEC 2017 (copper
# to 1200 A) and of an undated edition.
EQUIPMENT = (
    (15, "14", "12"),
    (20, "12", "10"),
    (25, "10", "8"),
    (60, "10", "8"),
    (70, "8", "6"),
    (100, "8", "6"),
    (200, "6", "4"),
    (225, "4", "2"),
    (400, "3", "1"),
    (800, "1/0", "3/0"),
    (1200, "3/0", "250"),
    (6000, "800", "1250"),
)

# copper ungrounded | copper | aluminum electrode conductor. Source: Table 250.66, two public
# transcriptions.
ELECTRODE = (
    ("2", "8", "6"),
    ("1", "6", "4"),
    ("1/0", "6", "4"),
    ("2/0", "4", "2"),
    ("3/0", "4", "2"),
    ("350", "2", "1/0"),
    ("600", "1/0", "3/0"),
    ("1000", "2/0", "4/0"),
    ("1250", "3/0", "250"),
)


def area(size: str) -> float:
    return float(areas()[index_of(size)])


@pytest.mark.parametrize("rating, copper, aluminum", EQUIPMENT)
def test_each_device_has_its_grounding_conductor(rating: float, copper: str, aluminum: str) -> None:
    assert NAMES[int(grounding_size(rating, "copper"))] == copper
    assert NAMES[int(grounding_size(rating, "aluminum"))] == aluminum


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_grounding_conductors_never_shrink(material: Material) -> None:
    places = grounding_size(np.arange(1.0, 6001.0), material)
    assert (np.diff(places) >= 0).all()
    assert (places < len(sizes())).all()


def test_aluminum_is_always_the_larger_grounding_conductor() -> None:
    ratings = np.arange(1.0, 6001.0)
    assert (grounding_size(ratings, "aluminum") > grounding_size(ratings, "copper")).all()


def test_above_the_table_there_is_no_grounding_conductor() -> None:
    assert grounding_size([6001.0, math.nan], "copper").tolist() == [len(sizes())] * 2
    assert (grounding_row(6001.0, "copper"), grounding_row(90.0, "copper")) == (None, "copper/100")
    assert np.isnan(at(areas(), grounding_size(6001.0, "copper")))


# phase sizes before and after | device [A] | grounding conductor. Source: public worked examples of
# 250.122(B): 300 A, 250 to 350 kcmil, 58,436 cmil, 2 AWG; 20 A, 12 to 6 AWG, 6 AWG.
@pytest.mark.parametrize(
    "before, after, rating, size", [("250", "350", 300.0, "2"), ("12", "6", 20.0, "6")]
)
def test_growth_in_proportion_of_worked_examples(
    before: str, after: str, rating: float, size: str
) -> None:
    base = at(areas(), grounding_size(rating, "copper"))
    grown = float(base) * area(after) / area(before)
    assert NAMES[int(np.argmax(areas() >= grown * (1 - 1e-9)))] == size


def test_sources_disagree_on_the_largest_aluminum_rows_alone() -> None:
    table = load("equipment_grounding")
    noted = [key for key, row in table.rows.items() if "before 2020" in row["seen"]]
    assert noted == ["aluminum/5000", "aluminum/6000"]
    assert table.cite("copper/60", "size").standing is Standing.PUBLISHED
    assert table.cite("aluminum/60", "size").standing is Standing.SECONDARY


@pytest.mark.parametrize("size, copper, aluminum", ELECTRODE)
def test_each_service_conductor_has_its_electrode_conductor(
    size: str, copper: str, aluminum: str
) -> None:
    assert NAMES[int(electrode_conductor_size(area(size), "copper", "copper"))] == copper
    assert NAMES[int(electrode_conductor_size(area(size), "copper", "aluminum"))] == aluminum


def test_an_aluminum_service_has_its_own_column() -> None:
    # Source: Table 250.66, public transcription; 4/0 aluminum is a usual 200 A service.
    assert NAMES[int(electrode_conductor_size(area("1/0"), "aluminum", "copper"))] == "8"
    assert NAMES[int(electrode_conductor_size(area("4/0"), "aluminum", "copper"))] == "4"
    assert electrode_row(area("4/0"), "aluminum") == "copper-to-3/0"
    assert electrode_row(math.nan, "aluminum") is None


def test_both_tables_agree_up_to_1100_kcmil_and_part_above() -> None:
    electrode, supply = load("grounding_electrode"), load("supply_side_bonding")
    keys = list(electrode.rows)
    assert list(supply.rows) == keys
    for key in keys:
        for name in ("copper_most", "aluminum_most"):
            assert supply.row(key)[name] == electrode.row(key)[name]
    for key in keys[:-1]:
        for name in ("copper", "aluminum"):
            assert supply.row(key)[name] == electrode.row(key)[name]
    assert (electrode.row(keys[-1])["copper"], supply.row(keys[-1])["copper"]) == ("3/0", "")


# kcmil of copper | copper jumper. Source: code forums: 250 kcmil to 2 AWG is 350 kcmil's row; three
# of 250 kcmil to 2/0; 2,000 kcmil to 250 kcmil.
@pytest.mark.parametrize("kcmil, size", [(250.0, "2"), (750.0, "2/0"), (2000.0, "250")])
def test_supply_side_areas_that_others_work_out(kcmil: float, size: str) -> None:
    found = supply_side_area(kcmil * 1000 * CIRCULAR_MIL, "copper", "copper")
    assert float(found) == pytest.approx(area(size), rel=1e-12)


def test_above_1100_kcmil_an_eighth_of_the_same_material() -> None:
    found = supply_side_area([1.2e-3, math.nan], "copper", "copper")
    assert float(found[0]) == pytest.approx(1.5e-4, rel=1e-12)
    assert math.isnan(found[1])
    assert math.isnan(supply_side_area(1.2e-3, "copper", "aluminum"))
    assert supply_side_row(1.2e-3, "copper") == "copper-to-any"


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_supply_side_areas_never_shrink(material: Material) -> None:
    found = supply_side_area(areas(), material, material)
    assert not np.isnan(found).any()
    assert (np.diff(found) >= 0).all()


@pytest.mark.parametrize("name", ["grounding_electrode", "supply_side_bonding"])
@pytest.mark.parametrize("limit", ["copper_most", "aluminum_most"])
def test_limits_are_areas_of_sizes_and_rise(name: str, limit: str) -> None:
    table = load(name)
    numbers = [table.number_or_none(key, limit) for key in table.rows]
    assert numbers[-1] is None
    known = [number for number in numbers if number is not None]
    assert all(below < above for below, above in pairwise(known))
    assert len(known) == 6


@pytest.mark.parametrize("key", load("equipment_grounding").rows)
def test_devices_are_standard_ones_and_their_rows_keys(key: str) -> None:
    # Source: an identity of two tables, 250.122 and 240.6(A).
    row = load("equipment_grounding").row(key)
    assert key == f"{row['material']}/{row['most']}"
    assert float(row["most"]) in standard_ratings("nec-2020")


def test_supply_side_copper_that_was_seen_is_better_known_than_the_rest() -> None:
    table = load("supply_side_bonding")
    assert table.cite("copper-to-350", "copper").standing is Standing.SECONDARY
    assert table.cite("copper-to-any", "fraction").standing is Standing.SECONDARY
    assert table.cite("copper-to-350", "aluminum").standing is Standing.FROM_MEMORY
    assert table.cite("copper-to-3/0", "copper").standing is Standing.FROM_MEMORY
