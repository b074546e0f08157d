"""The switches that choose between two readings of a siting rule."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from service.published.errors import DataFileError
from service.published.loader import load
from service.published.source import Source, Standing

NAME: Final = "siting_switches"


@dataclass(frozen=True, slots=True)
class SitingSwitch:
    """A rule that can be read in two ways.

    Attributes
    ----------
    id : str
    choices : tuple of str
        Two words.
    default : str
        The choice that stands until an authority says otherwise.
    statements : mapping of str to str
        What each choice means.
    places : bool
        Whether units may find other places by the other reading.
    sections : str
    standing : Standing
    source : str
        Where the doubt was seen.
    """

    id: str
    choices: tuple[str, str]
    default: str
    statements: Mapping[str, str]
    places: bool
    sections: str
    standing: Standing
    source: str

    def other_than(self, choice: str) -> str:
        """Return the choice that a choice is not.

        Parameters
        ----------
        choice : str

        Returns
        -------
        str
        """
        return next(other for other in self.choices if other != choice)

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(NAME).cite(self.id)


@cache
def siting_switches() -> Mapping[str, SitingSwitch]:
    """Return every switch by id, in the order of the table.

    Returns
    -------
    mapping of str to SitingSwitch

    Notes
    -----
    Source: table siting_switches.
    """
    return MappingProxyType({key: _switch(key) for key in load(NAME).rows})


def _switch(key: str) -> SitingSwitch:
    row = load(NAME).row(key)
    choices = row["choices"].split()
    if len(choices) != 2 or row["default"] not in choices:
        raise DataFileError(f"{NAME}.csv", f"row {key} needs two choices, one of them the default")
    first, second = choices
    return SitingSwitch(
        id=key,
        choices=(first, second),
        default=row["default"],
        statements=MappingProxyType({first: row["first"], second: row["second"]}),
        places=row["places"] == "yes",
        sections=row["sections"],
        standing=Standing(row["standing"]),
        source=row["source"],
    )
