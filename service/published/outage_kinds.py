"""Kinds of outage, each an assumption."""

from dataclasses import dataclass
from functools import cache

from service.published.header import as_standing
from service.published.loader import load
from service.published.source import Standing

NAME = "outage_kinds"


@dataclass(frozen=True, slots=True)
class OutageKind:
    """One kind of outage.

    Attributes
    ----------
    mean_h : float
        Mean duration [h].
    cv : float or None
        Standard deviation over the mean [1]; None: it always lasts that long.
    words : str
        For the reader of an answer.
    """

    id: str
    mean_h: float
    cv: float | None
    standing: Standing
    words: str


@cache
def outage_kinds() -> tuple[OutageKind, ...]:
    """Return the kinds of outage, in the order of the table.

    Returns
    -------
    tuple of OutageKind

    Notes
    -----
    Source: table outage_kinds.
    """
    table = load(NAME)
    return tuple(
        OutageKind(
            key,
            table.number(key, "mean_h"),
            table.number_or_none(key, "cv"),
            as_standing(NAME, row["standing"]),
            row["words"],
        )
        for key, row in table.rows.items()
    )
