"""Which edition governs a permit, and which one stands next to it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from service.codes.edition import MODEL, Edition, code_editions


@dataclass(frozen=True, slots=True)
class Resolution:
    """The editions to answer under.

    Attributes
    ----------
    current : str
        Id of the edition that governs; where `known` is false, of the nearest stand-in.
    neighbour : str or None
        Id of the other edition of the same place that is nearest in time, for the alternatives.
    known : bool
        False where the place or the edition at that date is unknown to this release.
    """

    current: str
    neighbour: str | None
    known: bool


def editions(state: str, permit_date: date | str, county: str = "", city: str = "") -> Resolution:
    """Resolve the editions for a permit from the table that ships with the service.

    Parameters
    ----------
    state : str
        Two letters; empty where unknown.
    permit_date : date or str
        Day of application for the permit; a text is in ISO form (2026-11-01).
    county, city : str
        Names as in the table; empty where unknown.

    Returns
    -------
    Resolution

    Raises
    ------
    ValueError
        The text is no date.

    Notes
    -----
    Source: table code_editions.
    """
    day = date.fromisoformat(permit_date) if isinstance(permit_date, str) else permit_date
    return among(code_editions().values(), state, day, county, city)


def among(
    candidates: Iterable[Edition], state: str, day: date, county: str = "", city: str = ""
) -> Resolution:
    """Resolve the editions for a permit among given ones.

    Parameters
    ----------
    candidates : iterable of Edition
        At least one of jurisdiction `model`.
    state, county, city : str
        Empty where unknown.
    day : date
        Day of application for the permit.

    Returns
    -------
    Resolution

    Notes
    -----
    Source: derived. A place with rows of its own (city, then county) is judged by these alone. A
    place without rows gets the model codes and is not known.
    """
    everything = tuple(candidates)
    place = _of_place(everything, state, county, city)
    rows = place or tuple(row for row in everything if row.jurisdiction == MODEL)
    # Of two equally near, the later: what comes next matters more to a design than what was.
    near = sorted(rows, key=lambda row: (row.days_from(day), -row.first.toordinal()))
    return Resolution(
        current=near[0].id,
        neighbour=near[1].id if len(near) > 1 else None,
        known=bool(place) and near[0].governs(day),
    )


def _of_place(rows: tuple[Edition, ...], state: str, county: str, city: str) -> tuple[Edition, ...]:
    if not state or state == MODEL:
        return ()
    own = tuple(row for row in rows if row.jurisdiction == state)
    for wanted in ((county, city), (county, ""), ("", "")):
        found = tuple(row for row in own if (row.county, row.city) == wanted)
        if found:
            return found
    return ()
