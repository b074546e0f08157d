"""A home's own metered year, as the load profile hands it back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

from msgspec import Meta

from service.facts.climate import HOURS_OF_YEAR
from service.quantities.fields import quantity

#: Values that a year of 365 days may have: hours, halves and quarters of an hour.
INTERVAL_COUNTS = tuple(HOURS_OF_YEAR * parts for parts in (1, 2, 4))

IntervalWatts = Annotated[
    list[
        Annotated[
            float, quantity("W", "Mean watts of the interval.", ge=0, le=100_000, example=350.0)
        ]
    ],
    Meta(
        description="Mean watts of each interval of a 365-day year of local standard time: 8,760 "
        "of an hour, 17,520 of half an hour or 35,040 of a quarter of one; load-profile hands "
        "them back.",
        max_length=INTERVAL_COUNTS[-1],
        examples=[[350.0]],
    ),
]


def interval_refusals(watts: Sequence[float] | None, pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) where a metered year has no whole number of values an hour."""
    if watts is None or len(watts) in INTERVAL_COUNTS:
        return []
    counts = " or ".join(f"{count:,}" for count in INTERVAL_COUNTS)
    detail = (
        f"Send {counts} values, a year of 365 days in hours, halves or quarters of an hour, "
        f"without 29 February; this has {len(watts):,}."
    )
    return [(pointer, detail)]
