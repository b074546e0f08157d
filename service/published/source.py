"""How well a number is known, and where it stands."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Standing(StrEnum):
    """How well a number is known."""

    PUBLISHED = "published"
    SECONDARY = "secondary"
    COMMON_PRACTICE = "common_practice"
    DERIVED = "derived"
    FROM_MEMORY = "from_memory"
    CALLER = "caller"


# A data file cannot have the standing `caller`: only a request or an operator's own data has it.
FILE_STANDINGS = tuple(standing for standing in Standing if standing is not Standing.CALLER)

# Strongest first. Our own arithmetic from published numbers stands above a habit of the trade.
_BY_STRENGTH = (
    Standing.PUBLISHED,
    Standing.CALLER,
    Standing.SECONDARY,
    Standing.DERIVED,
    Standing.COMMON_PRACTICE,
    Standing.FROM_MEMORY,
)


def weakest(standings: Iterable[Standing]) -> Standing:
    """Return the weakest of some standings.

    Parameters
    ----------
    standings : iterable of Standing
        At least one.

    Returns
    -------
    Standing

    Notes
    -----
    Source: derived; what rests on several numbers is known no better than the worst of them.
    """
    return max(standings, key=_BY_STRENGTH.index)


@dataclass(frozen=True, slots=True)
class Source:
    """One citation: what an answer shows beside a number.

    Attributes
    ----------
    id : str
        `table/row/column`, or `table/row` for several columns or the whole row.
    title, edition : str
        Of the publication, or of our table when the number is our own.
    place : str
        In words: section, row, column.
    standing : Standing
    """

    id: str
    title: str
    edition: str
    place: str
    standing: Standing
