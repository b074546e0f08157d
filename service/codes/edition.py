"""One edition of the building standards of a place."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.loader import load
from service.published.table import Table

# The jurisdiction of the national model codes, which stand in where a place is unknown.
MODEL = "model"


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition, and the permits that it governs.

    Attributes
    ----------
    id : str
    jurisdiction : str
        Two letters of a state, or `model`.
    county, city : str
        Empty: the whole jurisdiction.
    title : str
        As people write it.
    electrical, residential, fire : str
        Ids of the model code editions that it amends, such as `nec-2023`, `irc-2024`, `ifc-2024`.
    first : date
        First date of application for a permit that it governs.
    last : date or None
        Last such date; None where none is known.
    """

    id: str
    jurisdiction: str
    county: str
    city: str
    title: str
    electrical: str
    residential: str
    fire: str
    first: date
    last: date | None

    def governs(self, day: date) -> bool:
        """Say whether a permit applied for on this day falls under the edition.

        Parameters
        ----------
        day : date

        Returns
        -------
        bool
        """
        return self.days_from(day) == 0

    def days_from(self, day: date) -> int:
        """Return the days between a day and the time that the edition governs, 0 inside it.

        Parameters
        ----------
        day : date

        Returns
        -------
        int
            [days]
        """
        if day < self.first:
            return (self.first - day).days
        return max(0, (day - (self.last or date.max)).days)


@cache
def code_editions() -> Mapping[str, Edition]:
    """Return every edition that this release knows, by id, in the order of the table.

    Returns
    -------
    mapping of str to Edition

    Notes
    -----
    Source: table code_editions.
    """
    table = load("code_editions")
    return MappingProxyType({key: _edition(table, key) for key in table.rows})


def _edition(table: Table, key: str) -> Edition:
    row = table.row(key)
    try:
        first = date.fromisoformat(row["from"])
        last = date.fromisoformat(row["to"]) if row["to"] else None
    except ValueError as error:
        raise DataFileError(f"{table.name}.csv", f"row {key}: {error}") from error
    return Edition(
        id=key,
        jurisdiction=row["jurisdiction"],
        county=row["county"],
        city=row["city"],
        title=row["edition"],
        electrical=row["electrical"],
        residential=row["residential"],
        fire=row["fire"],
        first=first,
        last=last,
    )
