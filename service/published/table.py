"""A table of a handbook or standard: its cells, and the citation of each."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from service.published.errors import DataFileError
from service.published.header import Header, as_standing
from service.published.source import Source, Standing, weakest

# What a numeric cell holds where the printed table has no number.
NO_NUMBER = "-"


@dataclass(frozen=True, slots=True)
class Table:
    """One data file.

    Attributes
    ----------
    name : str
        Name of the file without its ending.
    header : Header
        What the file says about itself.
    columns : tuple of str
        The first one holds the row keys.
    rows : mapping of str to mapping of str to str
        Cells as printed, by row key and column, in the order of the file.
    """

    name: str
    header: Header
    columns: tuple[str, ...]
    rows: Mapping[str, Mapping[str, str]]

    @property
    def title(self) -> str:
        """Title of the table."""
        return self.header.title

    @property
    def edition(self) -> str:
        """Edition of the publication, or date of our own compilation."""
        return self.header.edition

    @property
    def section(self) -> str:
        """Section, table or chapter of the publication."""
        return self.header.section

    @property
    def standing(self) -> Standing:
        """Standing of every cell that has none of its own."""
        return self.header.standing

    def row(self, key: str) -> Mapping[str, str]:
        """Return the cells of one row as printed, or raise KeyError.

        Parameters
        ----------
        key : str
            Row key.

        Returns
        -------
        mapping of str to str
        """
        if key not in self.rows:
            raise KeyError(f"table {self.name} has no row {key!r}")
        return self.rows[key]

    def exact(self, key: str, column: str) -> Fraction:
        """Return a cell as the exact rational number that is printed.

        Parameters
        ----------
        key, column : str
            Row key, and name of a column that has a unit.

        Returns
        -------
        Fraction
            In the unit that the header states for the column.

        Raises
        ------
        DataFileError
            The column has no unit, or the cell holds `-`: no number is printed there.
        """
        cell = self._numeric(key, column)
        if cell == NO_NUMBER:
            raise DataFileError(self.name, f"row {key}, column {column} prints no number")
        return Fraction(cell)

    def number(self, key: str, column: str) -> float:
        """Return a cell as a float; otherwise as `exact`.

        Parameters
        ----------
        key, column : str
            Row key, and name of a column that has a unit.

        Returns
        -------
        float
            In the unit that the header states for the column.
        """
        return float(self.exact(key, column))

    def number_or_none(self, key: str, column: str) -> float | None:
        """Return a cell as a float, or None where no number is printed.

        Parameters
        ----------
        key, column : str
            Row key, and name of a column that has a unit.

        Returns
        -------
        float or None
            In the unit that the header states for the column.
        """
        return None if self._numeric(key, column) == NO_NUMBER else self.number(key, column)

    def cite(self, key: str, *columns: str) -> Source:
        """Cite one cell, several cells of a row, or a whole row.

        Parameters
        ----------
        key : str
            Row key.
        *columns : str
            None means the whole row.

        Returns
        -------
        Source
            With the weakest standing among the cells cited. Where the row names its own sources,
            they are the title, and the edition says which table compiled them.
        """
        row = self.row(key)
        for column in columns:
            self._has(column)
        cited = columns or self.columns[1:]
        own = tuple(dict.fromkeys(filter(None, (self._source_of(row, c) for c in cited))))
        one = columns[0] if len(columns) == 1 else None
        return Source(
            id="/".join(filter(None, (self.name, key, one))),
            title="; ".join(own) or self.title,
            edition=f"as compiled in {self.title}, {self.edition}" if own else self.edition,
            place=f"{self.section}: row {key}" + _in_words(columns),
            standing=weakest(self._standing_of(row, column) for column in cited),
        )

    def _source_of(self, row: Mapping[str, str], column: str) -> str:
        group = self.header.groups.get(column)
        return row.get(f"source_{group}" if group else "source", "")

    def _standing_of(self, row: Mapping[str, str], column: str) -> Standing:
        group = self.header.groups.get(column)
        own = row.get(f"standing_{group}" if group else "standing", "")
        return as_standing(self.name, own) if own else self.standing

    def _has(self, column: str) -> None:
        if column not in self.columns:
            raise KeyError(f"table {self.name} has no column {column!r}")

    def _numeric(self, key: str, column: str) -> str:
        self._has(column)
        if column not in self.header.units:
            raise DataFileError(self.name, f"column {column} has no unit, so it is not numeric")
        return self.row(key)[column]


def _in_words(columns: tuple[str, ...]) -> str:
    if not columns:
        return ""
    return f", column{'s' if len(columns) > 1 else ''} {', '.join(columns)}"
