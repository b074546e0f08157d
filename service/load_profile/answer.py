"""The answer of load-profile, in words of its own: it judges data, not a design."""

from __future__ import annotations

from typing import Annotated

from msgspec import UNSET, Struct, UnsetType

from service.findings import Assumption, Caution
from service.load_profile.answer_parts import (
    DayShape,
    Demand,
    Directions,
    Doubt,
    MonthEnergy,
    Profile,
    Span,
    Statistics,
    UnreadPart,
)
from service.quantities.fields import out, said


class LoadProfileAnswer(Struct, kw_only=True, forbid_unknown_fields=True):
    """What the meter data say, what was mended, and a year to pass on."""

    summary: Annotated[
        str,
        said(
            "The whole in a few sentences.",
            example="365 days of hourly readings, 8343 kWh; the year is complete.",
        ),
    ]
    document_kind: Annotated[str, said("What was read: espi-xml or csv.", example="espi-xml")]
    statistics: Annotated[Statistics, said("Figures of the readings that stand.", example=None)]
    directions: Annotated[
        Directions, said("Energy from the grid and to it, before cleaning.", example=None)
    ]
    demand: Annotated[
        Demand | None,
        said(
            "Highest demand, for the metered-demand method; null: the readings are too long.",
            example=None,
        ),
    ]
    months: Annotated[list[MonthEnergy], said("Energy by month.", example=[])]
    gap_count: Annotated[int, said("Stretches without a reading.", example=0)]
    gap_hours: Annotated[
        float, out("h", "Time without a reading, first to last.", example=8.0, decimals=2)
    ]
    gaps: Annotated[list[Span], said("The first 50 stretches without a reading.", example=[])]
    repaired: Annotated[
        list[Span], said("What was mended, the first 50 spans of each kind.", example=[])
    ]
    doubtful: Annotated[
        list[Span], said("What is doubtful, the first 50 spans of each kind.", example=[])
    ]
    unread_count: Annotated[int, said("Readings or rows that could not be read.", example=0)]
    unread: Annotated[list[UnreadPart], said("The first 20 of them.", example=[])]
    doubts: Annotated[
        list[Doubt], said("Doubts on the data as a whole, and what was left out.", example=[])
    ]
    profile: Annotated[
        Profile | None,
        said("A year to pass on as the use of a check; null: see `no_profile`.", example=None),
    ]
    no_profile: Annotated[
        str | None,
        said(
            "Why there is no profile; null: there is one.",
            example="No data, or less than three days, for March.",
        ),
    ] = None
    assumptions: Annotated[list[Assumption], said("Every default that entered.", example=[])]
    cautions: Annotated[list[Caution], said("Safety and scope.", example=[])]
    reference: Annotated[
        str | None,
        said("What the request sent as its own reference; null: nothing.", example="lead-0042"),
    ] = None
    day_shapes: Annotated[
        list[DayShape] | UnsetType,
        said("Mean day of each month; with ?include=day_shapes.", example=[]),
    ] = UNSET
