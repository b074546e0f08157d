"""Resistance and reactance of conductors, against resistivity and the printed impedance."""

import math
from pathlib import Path

import numpy as np
import pytest

from service.published.conductor_resistance import (
    RacewayMaterial,
    ac_column,
    ac_resistance,
    dc_resistance,
    dc_row,
    reactance,
    reactance_column,
)
from service.published.conductors import Material, index_of, sizes
from service.published.loader import load
from service.published.motors import conductor_impedance
from service.published.parse import parse
from service.published.source import Standing

REFERENCE = Path(__file__).parents[1] / "reference" / "effective_impedance.csv"
PRINTED = parse("effective_impedance", REFERENCE.read_text(encoding="utf-8"))
KFT = 304.8

#: Resistivity at 20 degC [ohm m] and its rise, referred to 20 degC [1/K]. Source: IEC 60028 (copper
#: of 100 percent IACS); aluminum of 61 percent IACS, public list of the constants of the trade.
METALS = {"copper": (1.7241e-8, 0.00393), "aluminum": (1.7241e-8 / 0.61, 0.00403)}
#: Strand is longer than solid wire by its lay [1]. Source: ASTM B8, from memory, not verified.
LAY = 1.02

# size | coated or not | ohm/kft at 75 degC. Source: Chapter 9, Table 8, public transcription.
DIRECT = (
    ("12/solid", "copper", 1.93),
    ("12/stranded", "copper", 1.98),
    ("8/stranded", "copper_coated", 0.809),
    ("6/stranded", "copper", 0.491),
    ("4/stranded", "aluminum", 0.508),
    ("1/0/stranded", "copper", 0.122),
    ("4/0/stranded", "aluminum", 0.100),
    ("500/stranded", "copper", 0.0258),
)

# size | conductor | conduit | R | X [ohm/kft]. Source: Chapter 9, Table 9, two public
# transcriptions up to 1/0, one above.
ALTERNATING: tuple[tuple[str, Material, RacewayMaterial, float, float], ...] = (
    ("10", "copper", "steel", 1.2, 0.063),
    ("6", "copper", "pvc", 0.49, 0.051),
    ("4", "copper", "pvc", 0.31, 0.048),
    ("2", "aluminum", "pvc", 0.32, 0.045),
    ("1", "copper", "aluminum", 0.16, 0.046),
    ("1/0", "copper", "aluminum", 0.13, 0.044),
    ("4/0", "aluminum", "steel", 0.10, 0.051),
    ("500", "copper", "steel", 0.029, 0.048),
)


@pytest.mark.parametrize("row, column, printed", DIRECT)
def test_each_size_has_its_resistance(row: str, column: str, printed: float) -> None:
    size, _, make = row.rpartition("/")
    found = dc_resistance(column, solid=make == "solid")
    assert found[index_of(size)] == pytest.approx(printed / KFT, rel=1e-12)
    assert (
        load("conductor_properties").number(dc_row(size, solid=make == "solid"), column) == printed
    )


@pytest.mark.parametrize("size, material, raceway, r, x", ALTERNATING)
def test_each_size_has_its_impedance(
    size: str, material: Material, raceway: RacewayMaterial, r: float, x: float
) -> None:
    assert ac_resistance(material, raceway)[index_of(size)] == pytest.approx(r / KFT, rel=1e-12)
    assert reactance(raceway)[index_of(size)] == pytest.approx(x / KFT, rel=1e-12)
    source = load("ac_impedance").cite(size, ac_column(material, raceway))
    assert source.id == f"ac_impedance/{size}/{material}_{raceway}"


@pytest.mark.parametrize("key", load("conductor_properties").rows)
@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_resistance_is_resistivity_over_area(key: str, material: str) -> None:
    table = load("conductor_properties")
    rho, rise = METALS[material]
    area = table.number(key, "circular_mils") * math.pi / 4 * 25.4e-6**2
    lay = 1.0 if table.number(key, "strands") == 1 else LAY
    expected = rho * (1 + rise * 55.0) * lay / area
    printed = table.number(key, material) / KFT
    # Three printed digits, and areas of four.
    assert printed == pytest.approx(expected, rel=0.0055)


def test_the_usual_constants_of_the_field_come_out() -> None:
    # Source: 12.9 and 21.2 ohm cmil/ft at 75 degC, public list of the constants of the trade.
    cmil = load("conductor_properties").number("4/0/stranded", "circular_mils")
    for material, usual in (("copper", 12.9), ("aluminum", 21.2)):
        ohm_per_ft = load("conductor_properties").number("4/0/stranded", material) / 1000
        assert ohm_per_ft * cmil == pytest.approx(usual, rel=0.005)


@pytest.mark.parametrize("key", load("conductor_properties").rows)
def test_tinned_copper_has_slightly_more(key: str) -> None:
    table = load("conductor_properties")
    assert 1.02 <= table.number(key, "copper_coated") / table.number(key, "copper") <= 1.07


def half_a_digit(cell: str) -> float:
    return 0.5 * 10.0 ** -len(cell.partition(".")[2])


@pytest.mark.parametrize("size", PRINTED.rows)
@pytest.mark.parametrize("column", PRINTED.columns[1:7])
def test_resistance_and_reactance_give_the_printed_impedance(size: str, column: str) -> None:
    # Source: Chapter 9, Table 9, note 2: Ze = R cos + X sin, power factor 0.85.
    material, raceway = column.split("_")
    row, printed = load("ac_impedance").row(size), PRINTED.row(size)[column]
    r, x = row[column], row["x_steel" if raceway == "steel" else "x_pvc"]
    if printed == "-":
        assert (size, material, r) == ("14", "aluminum", "-")
        return
    sine = math.sqrt(1 - 0.85**2)
    rounding = 0.85 * half_a_digit(r) + sine * half_a_digit(x) + half_a_digit(printed)
    assert abs(0.85 * float(r) + sine * float(x) - float(printed)) <= rounding * (1 + 1e-9)


def test_every_size_of_the_table_enters_the_identity() -> None:
    assert list(PRINTED.rows) == list(load("ac_impedance").rows)
    assert len(PRINTED.rows) == 21


def test_steel_adds_a_quarter_of_reactance() -> None:
    ratio = reactance("steel") / reactance("pvc")
    known = ~np.isnan(ratio)
    assert known.sum() == 21
    assert (ratio[known] > 1.22).all()
    assert (ratio[known] < 1.28).all()
    assert (reactance("pvc")[known] == reactance("aluminum")[known]).all()


@pytest.mark.parametrize("material", ["copper", "aluminum"])
@pytest.mark.parametrize("raceway", ["pvc", "aluminum", "steel"])
def test_alternating_current_meets_no_less_than_direct_but_for_rounding(
    material: Material, raceway: RacewayMaterial
) -> None:
    ratio = ac_resistance(material, raceway) / dc_resistance(material)
    known = ratio[~np.isnan(ratio)]
    assert known.min() > 0.96
    assert known.max() < 1.55
    assert ratio[index_of("1000")] > 1.05


def test_700_800_900_kcmil_and_what_is_larger_have_no_impedance() -> None:
    missing = np.isnan(ac_resistance("copper", "pvc"))
    names = [size for size, none in zip(sizes(), missing, strict=True) if none]
    assert names == ["700", "800", "900", "1250", "1500", "1750", "2000"]
    assert not np.isnan(dc_resistance("copper")).any()


def test_solid_wire_is_listed_up_to_8_awg() -> None:
    solid = dc_resistance("copper", solid=True)
    assert np.flatnonzero(~np.isnan(solid)).tolist() == [
        index_of(s) for s in ("14", "12", "10", "8")
    ]


def test_the_shorter_table_of_motor_circuits_holds_the_largest_of_each() -> None:
    for size in load("conductor_impedance").rows:
        for material in ("copper", "aluminum"):
            if (size, material) == ("14", "aluminum"):
                continue
            cells = [
                load("ac_impedance").number(size, f"{material}_{raceway}")
                for raceway in ("pvc", "aluminum", "steel")
            ]
            assert conductor_impedance(size, material).real == max(cells)
            assert conductor_impedance(size, material).imag == load("ac_impedance").number(
                size, reactance_column("steel")
            )


def test_a_drop_of_a_worked_example() -> None:
    # 16 AWG stranded copper, 100 ft, 4 A: 4.0 V. Source: public course on conductors.
    ohm = load("conductor_properties").number("16/stranded", "copper") / 1000 * 100 * 2
    assert 4.0 * ohm == pytest.approx(4.0, abs=0.05)


def test_rows_seen_once_are_weaker() -> None:
    table = load("ac_impedance")
    assert table.cite("1/0", "copper_pvc").standing is Standing.PUBLISHED
    assert table.cite("2/0", "copper_pvc").standing is Standing.SECONDARY
