"""Rooms of a dwelling and its buildings, and whether storage may stand there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from service.published.errors import DataFileError
from service.published.loader import load
from service.published.source import Source, Standing

NAME: Final = "siting_rooms"
PROHIBITED: Final = "prohibited"
#: The code's list of allowed places does not name it: an authority must be asked.
NOT_LISTED: Final = "not_listed"
_CLASSES = (PROHIBITED, "utility_room", "attached_garage", "detached_garage", NOT_LISTED)


@dataclass(frozen=True, slots=True)
class SitingRoom:
    """A use of a room.

    Attributes
    ----------
    id : str
    location : str
        `prohibited`, `not_listed`, or the class of location whose limit of energy holds.
    statement : str
    sections : str
    standing : Standing
    source : str
    """

    id: str
    location: str
    statement: str
    sections: str
    standing: Standing
    source: str

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(NAME).cite(self.id)


@cache
def siting_rooms() -> Mapping[str, SitingRoom]:
    """Return every use of a room by id, in the order of the table.

    Returns
    -------
    mapping of str to SitingRoom

    Notes
    -----
    Source: table siting_rooms.
    """
    return MappingProxyType({key: _room(key) for key in load(NAME).rows})


def _room(key: str) -> SitingRoom:
    row = load(NAME).row(key)
    if row["class"] not in _CLASSES:
        raise DataFileError(f"{NAME}.csv", f"row {key} has an unknown class {row['class']!r}")
    return SitingRoom(
        id=key,
        location=row["class"],
        statement=row["statement"],
        sections=row["sections"],
        standing=Standing(row["standing"]),
        source=row["source"],
    )
