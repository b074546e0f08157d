"""From the text of a data file to a table, refusing whatever is not whole."""

import csv
import math
import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.header import Header, as_standing, split_header
from service.published.table import NO_NUMBER, Table

_NUMBER = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?|\d+/[1-9]\d*")


def parse(name: str, text: str) -> Table:
    """Read a table from the text of its data file.

    Parameters
    ----------
    name : str
        Name of the table.
    text : str
        The whole file: header block, column names, rows.

    Returns
    -------
    Table

    Raises
    ------
    DataFileError
        Naming the file and what is missing or wrong.

    Notes
    -----
    Source: derived; the format of our own data files.
    """
    file = f"{name}.csv"
    header, body = split_header(file, text)
    try:
        lines = list(csv.reader(body.splitlines(), strict=True))
    except csv.Error as error:
        raise DataFileError(file, f"not CSV: {error}") from error
    if len(lines) < 2:
        raise DataFileError(file, "has no rows")
    columns = tuple(lines[0])
    _check_columns(file, header, columns)
    rows: dict[str, Mapping[str, str]] = {}
    for cells in lines[1:]:
        key, row = _row(file, header, columns, cells)
        if key in rows:
            raise DataFileError(file, f"row {key} stands twice")
        rows[key] = row
    return Table(name, header, columns, MappingProxyType(rows))


def _check_columns(file: str, header: Header, columns: tuple[str, ...]) -> None:
    if len(set(columns)) < len(columns):
        raise DataFileError(file, "a column name stands twice")
    for column in (*header.units, *header.groups):
        if column not in columns:
            raise DataFileError(file, f"the header speaks of column {column}, which is missing")
    if columns[0] in header.units:
        raise DataFileError(file, f"the key column {columns[0]} must have no unit")
    for group in dict.fromkeys(header.groups.values()):
        if f"source_{group}" not in columns:
            raise DataFileError(file, f"column source_{group} is missing")


def _row(
    file: str, header: Header, columns: tuple[str, ...], cells: Sequence[str]
) -> tuple[str, Mapping[str, str]]:
    key = cells[0] if cells else ""
    if not key:
        raise DataFileError(file, "a row has no key")
    if len(cells) != len(columns):
        raise DataFileError(file, f"row {key} has {len(cells)} cells for {len(columns)} columns")
    row = dict(zip(columns, cells, strict=True))
    for column in header.units:
        _check_number(file, key, column, row[column])
    for column, cell in row.items():
        if cell and (column == "standing" or column.startswith("standing_")):
            as_standing(file, cell)
    return key, MappingProxyType(row)


def _check_number(file: str, key: str, column: str, cell: str) -> None:
    where = f"row {key}, column {column}"
    if not cell:
        raise DataFileError(file, f"{where} is missing (write {NO_NUMBER} where none is printed)")
    if cell == NO_NUMBER:
        return
    if not _NUMBER.fullmatch(cell) or ("/" not in cell and not math.isfinite(float(cell))):
        raise DataFileError(file, f"{where} is not a finite number: {cell!r}")
