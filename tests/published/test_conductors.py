"""Sizes, areas and ampacities of conductors."""

import math
from itertools import pairwise

import numpy as np
import pytest

from service.published.conductors import (
    CIRCULAR_MIL,
    Material,
    TemperatureColumn,
    ampacities,
    ampacity_row,
    areas,
    circular_mils,
    index_of,
    sizes,
    smallest_size,
)
from service.published.loader import load, resolve
from service.published.source import Standing
from service.published.table_arrays import at

# material | size | 60 | 75 | 90 degC [A]. Source: Table 310.16, public transcriptions of NEC 2011
# to 2017 and of CSA C22.1:24, Tables 2 and 4; copper 2000 and aluminum 800 kcmil the latter alone.
PINNED = (
    ("copper", "14", 15, 20, 25),
    ("copper", "12", 20, 25, 30),
    ("copper", "8", 40, 50, 55),
    ("copper", "6", 55, 65, 75),
    ("copper", "3", 85, 100, 115),
    ("copper", "2/0", 145, 175, 195),
    ("copper", "250", 215, 255, 290),
    ("copper", "600", 350, 420, 475),
    ("copper", "2000", 555, 665, 750),
    ("aluminum", "12", 15, 20, 25),
    ("aluminum", "6", 40, 50, 55),
    ("aluminum", "2", 75, 90, 100),
    ("aluminum", "4/0", 150, 180, 205),
    ("aluminum", "300", 195, 230, 260),
    ("aluminum", "800", 330, 395, 445),
)

# size | circular mils. Source: Chapter 9, Table 8, public transcription.
CMIL = (
    ("14", 4110),
    ("10", 10380),
    ("4", 41740),
    ("1/0", 105600),
    ("4/0", 211600),
    ("350", 350000),
)

# current [A] | material | column | size. Source: public worked examples: 100 A continuous and 100 A
# not, 225 A; 200 A continuous, 250 A; NEC, annex D, example D3(a), 171 A.
EXAMPLES: tuple[tuple[float, Material, TemperatureColumn, str], ...] = (
    (225.0, "copper", 75, "4/0"),
    (250.0, "copper", 75, "250"),
    (171.0, "copper", 75, "2/0"),
)


@pytest.mark.parametrize("material, size, at_60, at_75, at_90", PINNED)
def test_each_size_has_its_ampacities(
    material: Material, size: str, at_60: float, at_75: float, at_90: float
) -> None:
    place = index_of(size)
    found = [float(ampacities(material, rating)[place]) for rating in (60, 75, 90)]
    assert found == [at_60, at_75, at_90]


@pytest.mark.parametrize("size, cmil", CMIL)
def test_each_size_has_its_circular_mils(size: str, cmil: float) -> None:
    assert circular_mils()[index_of(size)] == cmil


@pytest.mark.parametrize("current, material, rating, size", EXAMPLES)
def test_the_smallest_size_of_a_worked_example(
    current: float, material: Material, rating: TemperatureColumn, size: str
) -> None:
    enough = ampacities(material, rating) >= current
    assert sizes()[int(np.argmax(enough))] == size


def test_sizes_rise_from_14_awg_to_2000_kcmil() -> None:
    assert len(sizes()) == 28
    assert (sizes()[0], sizes()[-1]) == ("14", "2000")
    assert (np.diff(areas()) > 0).all()


@pytest.mark.parametrize("size", [size for size in sizes() if len(size) < 3 or "/" in size])
def test_a_gauge_has_the_area_of_its_definition(size: str) -> None:
    # ASTM B258: d = 0.005 in x 92 ^ ((36 - n) / 39), n = 0, -1, -2, -3 for 1/0 to 4/0.
    number = 1 - int(size.removesuffix("/0")) if "/" in size else int(size)
    metres = 0.005 * 0.0254 * 92 ** ((36 - number) / 39)
    assert areas()[index_of(size)] == pytest.approx(math.pi / 4 * metres**2, rel=0.0008)


def test_a_circular_mil_and_a_kcmil_have_their_usual_square_metres() -> None:
    # Source: NIST Special Publication 811, appendix B: 1 cmil = 5.067 075 E-10 m2.
    assert pytest.approx(5.067075e-10, rel=1e-7) == CIRCULAR_MIL
    assert areas()[index_of("250")] == pytest.approx(126.677e-6, rel=1e-5)


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_more_metal_and_hotter_insulation_carry_more(material: Material) -> None:
    table = np.array([ampacities(material, rating) for rating in (60, 75, 90)])
    known = table[:, ~np.isnan(table[0])]
    assert known.shape[1] == (28 if material == "copper" else 27)
    assert (np.diff(known, axis=1) > 0).all()
    assert (np.diff(known, axis=0) > 0).all()


def test_aluminum_carries_less_than_copper_and_has_no_14_awg() -> None:
    for rating in (60, 75, 90):
        aluminum = ampacities("aluminum", rating)
        assert math.isnan(aluminum[0])
        assert (aluminum[1:] < ampacities("copper", rating)[1:]).all()


@pytest.mark.parametrize("material, zero", [("copper", 234.5), ("aluminum", 228.1)])
@pytest.mark.parametrize("cooler, hotter", [(60, 75), (75, 90)])
def test_columns_differ_by_the_heat_that_a_conductor_sheds(
    material: Material, zero: float, cooler: TemperatureColumn, hotter: TemperatureColumn
) -> None:
    # Source: the heat balance behind the table, I2 R(Tc) in proportion to Tc - 30 degC; R in
    # proportion to Tc - zero [degC], IEC 60028 and the usual constant of aluminum. The table is
    # rounded to 5 A.
    rise = (cooler - 30.0) / (hotter - 30.0)
    ratio = math.sqrt(rise * (hotter + zero) / (cooler + zero))
    found, expected = ampacities(material, cooler), ratio * ampacities(material, hotter)
    off = np.abs(found - expected)[~np.isnan(found)]
    assert (off <= 2.5 * (1 + ratio) + 0.002 * expected[~np.isnan(found)]).all()


TABLES = (
    "ac_impedance",
    "ambient_correction",
    "ampacity",
    "bare_conductors",
    "bundling_adjustment",
    "burial_cover",
    "cable_types",
    "compact_conductors",
    "conductor_fill",
    "conductor_properties",
    "dwelling_service",
    "equipment_grounding",
    "grounding_electrode",
    "insulated_conductors",
    "overcurrent_ratings",
    "raceway_places",
    "raceway_sizes",
    "raceways",
    "small_conductor_protection",
    "supply_side_bonding",
)


@pytest.mark.parametrize("name", TABLES)
def test_the_id_of_every_cell_leads_back_to_it(name: str) -> None:
    table = load(name)
    for key in table.rows:
        for column in table.columns[1:]:
            assert resolve(table.cite(key, column).id) == (table, key, column)


def test_ampacities_of_the_table_before_2011_are_not_used() -> None:
    # Source: public transcription of an edition of the 1990s: 14 AWG copper 20 A at 60 degC, 600
    # kcmil 355 A.
    at_60 = ampacities("copper", 60)
    assert at_60[0] != 20.0
    assert at_60[index_of("600")] != 355.0


def test_the_smallest_size_of_no_less_area() -> None:
    found = smallest_size(np.array([0.0, 16510.0, 16511.5, 250000.0, 2.1e6, np.nan]) * CIRCULAR_MIL)
    names = [*sizes(), "none"]
    assert [names[place] for place in found] == ["14", "8", "6", "250", "none", "none"]
    assert math.isnan(at(areas(), found)[-1])


def test_every_row_is_cited_and_one_transcription_alone_is_weaker() -> None:
    table = load("ampacity")
    weaker = [
        key for key in table.rows if table.cite(key, "degc_75").standing is not Standing.PUBLISHED
    ]
    assert weaker == ["copper/1500", "copper/2000", "aluminum/700", "aluminum/800"]
    assert table.cite(ampacity_row("aluminum", "4/0"), "degc_75").id == (
        "ampacity/aluminum/4/0/degc_75"
    )


def test_materials_list_the_same_sizes_in_the_same_order() -> None:
    rows = load("ampacity").rows.values()
    assert [r["size"] for r in rows if r["material"] == "aluminum"] == list(sizes()[1:])
    assert [
        key for key, row in load("ampacity").rows.items() if key.split("/", 1)[1] != row["size"]
    ] == []


def test_a_size_that_does_not_exist_is_refused() -> None:
    with pytest.raises(KeyError, match="no conductor size '5'"):
        index_of("5")


def test_kcmil_sizes_have_their_own_name_as_area() -> None:
    for below, above in pairwise(s for s in sizes() if len(s) > 2 and "/" not in s):
        assert circular_mils()[index_of(above)] == 1000 * float(above)
        assert circular_mils()[index_of(below)] == 1000 * float(below)
