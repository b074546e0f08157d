"""A table gives its cells as numbers and cites each of them."""

from fractions import Fraction

import pytest

from service.published.errors import DataFileError
from service.published.loader import load, resolve
from service.published.parse import parse
from service.published.source import Source, Standing, weakest
from service.published.table import Table

CODE = """# title: An invented code
# edition: 2020
# section: Table 7
# standing: published
# unit.depth: in
# unit.width: ft
place,depth,width,remark
door,36,1/3,none
wall/east,0.1,-,measured
"""

OWN = """# title: An invented catalogue
# edition: 2026
# section: loads
# standing: common_practice
# unit.watts: W
# unit.hours: h
# unit.volts: V
# cites.power: watts
id,watts,hours,volts,source,source_power,standing_power
lamp,60,5,120,,a nameplate list,published
pump,800,1,240,a pump page,,
"""


@pytest.fixture
def code() -> Table:
    return parse("code", CODE)


@pytest.fixture
def own() -> Table:
    return parse("own", OWN)


def test_a_printed_number_is_kept_exactly(code: Table) -> None:
    assert code.exact("wall/east", "depth") == Fraction(1, 10)
    assert code.exact("door", "width") == Fraction(1, 3)
    assert code.number("door", "depth") == 36.0
    assert code.number("wall/east", "depth") == 0.1


def test_a_dash_means_that_no_number_is_printed(code: Table) -> None:
    assert code.number_or_none("wall/east", "width") is None
    assert code.number_or_none("door", "width") == pytest.approx(1 / 3)
    with pytest.raises(DataFileError, match="row wall/east, column width prints no number"):
        code.number("wall/east", "width")


def test_a_column_without_a_unit_gives_no_number(code: Table) -> None:
    with pytest.raises(DataFileError, match="column remark has no unit"):
        code.number("door", "remark")


def test_an_unknown_row_or_column_is_named(code: Table) -> None:
    with pytest.raises(KeyError, match="table code has no row 'window'"):
        code.row("window")
    with pytest.raises(KeyError, match="table code has no column 'height'"):
        code.number("door", "height")
    with pytest.raises(KeyError, match="table code has no column 'height'"):
        code.cite("door", "height")


def test_rows_cannot_be_changed(code: Table) -> None:
    with pytest.raises(TypeError):
        code.row("door")["depth"] = "37"  # type: ignore[index]


def test_one_cell_is_cited_by_table_row_and_column(code: Table) -> None:
    assert code.cite("door", "depth") == Source(
        id="code/door/depth",
        title="An invented code",
        edition="2020",
        place="Table 7: row door, column depth",
        standing=Standing.PUBLISHED,
    )


def test_several_cells_and_whole_rows_are_cited_by_table_and_row(code: Table) -> None:
    several, whole = code.cite("door", "depth", "width"), code.cite("door")
    assert several.id == whole.id == "code/door"
    assert several.place == "Table 7: row door, columns depth, width"
    assert whole.place == "Table 7: row door"


# row | columns | title | standing
OVERRIDES = (
    ("lamp", ("watts",), "a nameplate list", Standing.PUBLISHED),
    ("lamp", ("hours",), "An invented catalogue", Standing.COMMON_PRACTICE),
    ("lamp", ("watts", "hours"), "a nameplate list", Standing.COMMON_PRACTICE),
    ("pump", ("watts",), "An invented catalogue", Standing.COMMON_PRACTICE),
    ("pump", ("hours",), "a pump page", Standing.COMMON_PRACTICE),
    ("pump", ("hours", "volts"), "a pump page", Standing.COMMON_PRACTICE),
)


@pytest.mark.parametrize("row, columns, title, standing", OVERRIDES)
def test_a_row_speaks_for_its_own_source_and_standing(
    own: Table, row: str, columns: tuple[str, ...], title: str, standing: Standing
) -> None:
    source = own.cite(row, *columns)
    assert (source.title, source.standing) == (title, standing)
    compiled = "as compiled in An invented catalogue, 2026"
    assert source.edition == ("2026" if title == own.title else compiled)


def test_several_standings_are_no_stronger_than_the_weakest() -> None:
    assert weakest([Standing.PUBLISHED, Standing.FROM_MEMORY, Standing.DERIVED]) is (
        Standing.FROM_MEMORY
    )
    assert weakest([Standing.PUBLISHED, Standing.SECONDARY]) is Standing.SECONDARY
    assert weakest([Standing.DERIVED, Standing.COMMON_PRACTICE]) is Standing.COMMON_PRACTICE
    assert weakest([Standing.CALLER, Standing.PUBLISHED]) is Standing.CALLER


@pytest.mark.parametrize(
    "source_id, key, column",
    [
        ("appliances/refrigerator/run_w_typ", "refrigerator", "run_w_typ"),
        ("appliances/refrigerator", "refrigerator", None),
        ("class_day_shapes/inland_single_family/7/h18", "inland_single_family/7", "h18"),
        ("class_day_shapes/inland_single_family/7", "inland_single_family/7", None),
        ("code_editions/ca-2025/from", "ca-2025", "from"),
    ],
)
def test_the_id_of_a_source_leads_back_to_its_cell(
    source_id: str, key: str, column: str | None
) -> None:
    table, found_key, found_column = resolve(source_id)
    assert (found_key, found_column) == (key, column)
    assert table.cite(key, *([column] if column else [])).id == source_id


@pytest.mark.parametrize("source_id", ["appliances/kettle/volts", "appliances/tv/colour"])
def test_the_id_of_a_cell_that_is_not_there_is_refused(source_id: str) -> None:
    with pytest.raises(KeyError):
        resolve(source_id)


def test_a_table_that_is_not_there_is_refused() -> None:
    with pytest.raises(DataFileError, match=r"nothing\.csv: there is no such data file"):
        load("nothing")
