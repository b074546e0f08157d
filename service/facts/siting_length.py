"""A length at the place of a unit, with how it was measured."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Struct

from service.quantities.fields import choice, quantity

#: How a length was had; see the table siting_lengths for how far each may be off.
LengthSource = Literal["drawing", "tape", "photo", "estimate"]


class MeasuredLength(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """A length, how it was measured, and how far it may be off."""

    value: Annotated[
        float, quantity("in", "The length as measured.", ge=-1200, le=12_000, example=36.0)
    ]
    by: Annotated[
        LengthSource | None,
        choice("How it was had; absent: as the place says of all its lengths.", example="tape"),
    ] = None
    within: (
        Annotated[
            float,
            quantity(
                "in",
                "How far off it may be, either way; absent: as is usual for how it was had.",
                ge=0,
                le=1200,
                example=0.25,
            ),
        ]
        | None
    ) = None


#: What a field of a length takes: a bare number of inches, or the number with how it was had.
Along = Annotated[
    float,
    quantity(
        "in",
        "From the wall's left end, seen by whoever faces it.",
        ge=-1200,
        le=12_000,
        example=100.0,
    ),
]
AlongWall = Along | MeasuredLength
Span = Annotated[float, quantity("in", "Length.", ge=0, le=12_000, example=36.0)]
AnySpan = Span | MeasuredLength
Height = Annotated[
    float, quantity("in", "Above the ground or floor.", ge=-1200, le=2400, example=36.0)
]
AnyHeight = Height | MeasuredLength
