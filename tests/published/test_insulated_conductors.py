"""Room that conductors take, against bare strand, insulation thickness and geometry."""

import math

import numpy as np
import pytest

from service.published.conductors import index_of, sizes
from service.published.insulated_conductors import (
    Insulation,
    bare_areas,
    bare_row,
    insulated_areas,
    insulated_diameters,
    insulated_row,
)
from service.published.loader import load
from service.published.source import Standing

SQUARE_INCH = 0.0254**2

# insulation | size | area [in2]. Source: Chapter 9, Table 5, public transcription of 2008; thhn in
# a second one too.
PINNED: tuple[tuple[Insulation, str, float], ...] = (
    ("thhn", "14", 0.0097),
    ("thhn", "8", 0.0366),
    ("thhn", "6", 0.0507),
    ("thhn", "4", 0.0824),
    ("thhn", "2/0", 0.2223),
    ("thhn", "500", 0.7073),
    ("xhhw", "6", 0.0590),
    ("xhhw", "4/0", 0.3197),
    ("xhhw", "1000", 1.3519),
)

#: Insulation thickness, jacket included, up to a size [in]. Source: UL 83 and UL 44, from memory,
#: not verified: the identity below bears them out, in all sizes of a published table.
WALLS = {
    "thhn": (
        ("12", 0.019),
        ("10", 0.024),
        ("6", 0.035),
        ("2", 0.046),
        ("4/0", 0.057),
        ("500", 0.068),
        ("1000", 0.079),
    ),
    "xhhw": (("10", 0.030), ("2", 0.045), ("4/0", 0.055), ("500", 0.065), ("1000", 0.080)),
}
#: Wires across a concentric strand. Source: geometry of hexagonal layers.
ACROSS = {1: 1, 7: 3, 19: 5, 37: 7, 61: 9}


def wall(insulation: str, size: str) -> float:
    return next(t for last, t in WALLS[insulation] if index_of(size) <= index_of(last))


@pytest.mark.parametrize("insulation, size, square_inches", PINNED)
def test_each_conductor_has_its_area(
    insulation: Insulation, size: str, square_inches: float
) -> None:
    found = insulated_areas(insulation)[index_of(size)]
    assert found == pytest.approx(square_inches * SQUARE_INCH, rel=1e-12)


@pytest.mark.parametrize("key", load("bare_conductors").rows)
def test_a_bare_conductor_is_as_wide_as_its_wires_in_layers(key: str) -> None:
    table = load("bare_conductors")
    strands = int(table.number(key, "strands"))
    cmil = load("conductor_properties").number(key, "circular_mils")
    inches = ACROSS[strands] * math.sqrt(cmil / strands) / 1000
    assert table.number(key, "diameter") == pytest.approx(inches, abs=0.0012)
    area = math.pi / 4 * table.number(key, "diameter") ** 2
    assert table.number(key, "area") == pytest.approx(area, abs=0.0007)


@pytest.mark.parametrize("key", load("insulated_conductors").rows)
def test_an_insulated_conductor_is_strand_and_two_walls(key: str) -> None:
    table = load("insulated_conductors")
    insulation, size = table.row(key)["insulation"], table.row(key)["size"]
    bare = load("bare_conductors").rows.get(bare_row(size))
    cmil = load("conductor_properties").number(f"{size}/stranded", "circular_mils")
    inches = float(bare["diameter"]) if bare else 9 * math.sqrt(cmil / 61) / 1000
    found = table.number(key, "diameter")
    assert found == pytest.approx(inches + 2 * wall(insulation, size), abs=0.0011)
    assert table.number(key, "area") == pytest.approx(math.pi / 4 * found**2, abs=0.00006)


@pytest.mark.parametrize("key", load("compact_conductors").rows)
def test_a_compact_conductor_is_smaller_by_what_pressing_saves(key: str) -> None:
    table = load("compact_conductors")
    insulation, size = table.row(key)["insulation"], table.row(key)["size"]
    bare, whole = table.number(key, "bare_diameter"), table.number(key, "diameter")
    # The printed diameters are rounded up, the more the larger the size.
    more = whole - bare - 2 * wall(insulation, size)
    assert -1e-9 <= more <= (0.0075 if index_of(size) < index_of("250") else 0.0205)
    assert table.number(key, "area") == pytest.approx(math.pi / 4 * whole**2, abs=0.00011)
    ratio = table.number(key, "area") / load("insulated_conductors").number(key, "area")
    assert 0.85 <= ratio <= 0.905
    round_strand = load("bare_conductors").number(bare_row(size), "diameter")
    assert 0.89 <= bare / round_strand <= 0.925


@pytest.mark.parametrize("insulation", ["thhn", "xhhw"])
def test_areas_rise_and_end_where_the_tables_end(insulation: Insulation) -> None:
    areas = insulated_areas(insulation)
    known = ~np.isnan(areas)
    assert [s for s, k in zip(sizes(), known, strict=True) if not k] == [
        "1250",
        "1500",
        "1750",
        "2000",
    ]
    assert (np.diff(areas[known]) > 0).all()
    assert (areas[known] < 1.01 * math.pi / 4 * insulated_diameters(insulation)[known] ** 2).all()
    assert (insulated_diameters(insulation)[known] < 0.04).all()


def test_compact_strand_has_no_3_awg_and_ends_at_500_kcmil() -> None:
    # Source: Chapter 9, Table 5A, from memory, not verified; xhhw 250 kcmil quoted in a code forum.
    found = insulated_areas("xhhw", compact=True)
    assert np.isnan(found[[index_of("3"), index_of("600")]]).all()
    assert found[index_of("250")] == pytest.approx(0.3421 * SQUARE_INCH, rel=1e-12)
    assert np.isnan(insulated_areas("thhn", compact=True)[index_of("8")])


def test_a_bare_conductor_takes_less_room_than_an_insulated_one() -> None:
    bare = bare_areas()
    known = ~np.isnan(bare)
    assert [s for s, k in zip(sizes(), known, strict=True) if k][-1] == "600"
    assert (bare[known] < insulated_areas("thhn")[known]).all()
    assert bare[index_of("8")] == pytest.approx(0.0167 * SQUARE_INCH, rel=0.005)
    assert bare_areas(solid=True)[index_of("8")] < bare[index_of("8")]


# conductors | sum [in2]. Source: a textbook on commercial wiring; a published code calculation.
@pytest.mark.parametrize(
    "counts, square_inches",
    [({"12": 1, "10": 1, "8": 3}, 0.1442), ({"3/0": 3, "1": 1, "6": 1}, 1.0106)],
)
def test_sums_of_worked_examples(counts: dict[str, int], square_inches: float) -> None:
    areas = insulated_areas("thhn")
    total = sum(float(areas[index_of(size)]) * count for size, count in counts.items())
    assert total == pytest.approx(square_inches * SQUARE_INCH, abs=0.00005 * SQUARE_INCH)


def test_what_is_from_memory_says_so() -> None:
    compact = load("compact_conductors")
    assert compact.cite(insulated_row("thhn", "4/0")).standing is Standing.FROM_MEMORY
    assert compact.cite(insulated_row("xhhw", "250")).standing is Standing.SECONDARY
    assert load("bare_conductors").cite(bare_row("8")).standing is Standing.FROM_MEMORY
    assert load("insulated_conductors").cite("thhn/4/0").standing is Standing.PUBLISHED
