"""A data file that is not whole is refused, and the refusal says which file and what."""

import pytest

from service.published.errors import DataFileError
from service.published.parse import parse

WHOLE = """# title: A table
# edition: 2020
# section: Table 1
# standing: published
# unit.amps: A
# cites.limit: amps
size,amps,standing,source_limit,standing_limit
14,15,,page 3,secondary
12,20,derived,,
10,-,,,
"""


def test_a_whole_file_is_read() -> None:
    table = parse("demo", WHOLE)
    assert (table.title, table.edition, table.section) == ("A table", "2020", "Table 1")
    assert table.columns == ("size", "amps", "standing", "source_limit", "standing_limit")
    assert list(table.rows) == ["14", "12", "10"]


# what is replaced | by what | what the refusal says
REFUSED = (
    ("# title: A table\n", "", "header line 'title' is missing"),
    ("# edition: 2020\n", "", "header line 'edition' is missing"),
    ("# section: Table 1\n", "", "header line 'section' is missing"),
    ("# standing: published\n", "", "header line 'standing' is missing"),
    ("# title: A table\n", "# title:\n", "is not '# key: value'"),
    ("# title: A table\n", "# a remark\n# title: A table\n", "is not '# key: value'"),
    ("# title: A table\n", "# titel: A table\n", "unknown header line 'titel'"),
    ("# unit.amps: A\n", "# unit: A\n", "unknown header line 'unit'"),
    ("# edition: 2020\n", "# edition: 2020\n# edition: 2023\n", "'edition' stands twice"),
    ("# unit.amps: A\n", "# unit.amps: A\n# unit.amps: A\n", "'unit.amps' stands twice"),
    ("# cites.limit: amps", "# cites.limit: amps amps", "for column amps' stands twice"),
    ("# unit.amps: A\n", "# unit.volts: V\n", "column volts, which is missing"),
    ("# cites.limit: amps", "# cites.limit: volts", "column volts, which is missing"),
    ("# cites.limit: amps", "# cites.size: amps", "column source_size is missing"),
    ("# unit.amps: A\n", "# unit.size: 1\n", "key column size must have no unit"),
    ("standing: published", "standing: rumour", "unknown standing 'rumour'"),
    ("standing: published", "standing: caller", "unknown standing 'caller'"),
    ("12,20,derived", "12,20,rumour", "unknown standing 'rumour'"),
    ("page 3,secondary", "page 3,rumour", "unknown standing 'rumour'"),
    ("size,amps,standing,", "size,amps,amps,", "a column name stands twice"),
    ("12,20", "14,20", "row 14 stands twice"),
    ("12,20", ",20", "a row has no key"),
    ("12,20,derived,,", "12,20", "row 12 has 2 cells for 5 columns"),
    ("12,20,derived,,", "", "a row has no key"),
    ("12,20", "12,", "row 12, column amps is missing"),
    ("12,20", "12,nan", "row 12, column amps is not a finite number: 'nan'"),
    ("12,20", "12,inf", "row 12, column amps is not a finite number: 'inf'"),
    ("12,20", "12,-inf", "row 12, column amps is not a finite number: '-inf'"),
    ("12,20", "12,1e999", "row 12, column amps is not a finite number: '1e999'"),
    ("12,20", "12,1_000", "row 12, column amps is not a finite number: '1_000'"),
    ("12,20", "12,20 A", "row 12, column amps is not a finite number: '20 A'"),
    ("12,20", "12,1/0", "row 12, column amps is not a finite number: '1/0'"),
    ("12,20,derived", '12,20,"derived', "not CSV"),
    (WHOLE[WHOLE.index("14,15") :], "", "has no rows"),
    (WHOLE, "", "header line 'title' is missing"),
)


@pytest.mark.parametrize("old, new, problem", REFUSED)
def test_a_file_that_is_not_whole_is_refused(old: str, new: str, problem: str) -> None:
    assert old in WHOLE
    with pytest.raises(DataFileError) as refused:
        parse("demo", WHOLE.replace(old, new, 1))
    assert refused.value.file == "demo.csv"
    assert str(refused.value).startswith("demo.csv: ")
    assert problem in refused.value.problem


def test_repeated_notes_are_joined() -> None:
    text = "# note: One thing.\n# note: Another.\n" + WHOLE
    assert parse("demo", text).header.note == "One thing. Another."
