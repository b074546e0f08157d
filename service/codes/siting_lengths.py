"""How far off a length can be, by how it was found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from service.published.loader import load
from service.published.source import Source
from service.published.table_arrays import INCH

NAME: Final = "siting_lengths"


@dataclass(frozen=True, slots=True)
class LengthOrigin:
    """A way to find a length.

    Attributes
    ----------
    id : str
    metres : float
        Least half of the band around the length [m].
    part : float
        Half of the band as part of the length [1].
    statement : str
    """

    id: str
    metres: float
    part: float
    statement: str

    def half_band(self, length: float) -> float:
        """Return how far off a length can be, either way.

        Parameters
        ----------
        length : float
            [m].

        Returns
        -------
        float
            The larger of the two [m].
        """
        return max(self.metres, self.part * abs(length))

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(NAME).cite(self.id)


@cache
def length_origins() -> Mapping[str, LengthOrigin]:
    """Return the ways to find a length by id, in the order of the table.

    Returns
    -------
    mapping of str to LengthOrigin

    Notes
    -----
    Source: table siting_lengths; inches converted.
    """
    table = load(NAME)
    return MappingProxyType(
        {
            key: LengthOrigin(
                id=key,
                metres=table.number(key, "inches") * INCH,
                part=table.number(key, "part"),
                statement=row["statement"],
            )
            for key, row in table.rows.items()
        }
    )
