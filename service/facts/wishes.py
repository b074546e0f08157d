"""What the owner wants to run, and for how long."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from msgspec import Meta, Struct

from service.facts.loads import Load, Season
from service.published.essential_sets import essential_sets
from service.quantities.fields import choice, number, quantity

if TYPE_CHECKING:
    EssentialSetId = str
else:
    EssentialSetId = Literal[tuple(essential_sets())]


StartHour = Annotated[
    float,
    number("Local hour at which the outage starts.", ge=0, le=23.75, example=18.0, unit="h"),
]
StartsCarriedPercent = Annotated[
    float,
    quantity(
        "%",
        "Part of the start days that must be carried, of summer and of winter each; absent: all.",
        ge=50,
        le=100,
        example=100.0,
    ),
]
DarkAllowed = Annotated[
    float,
    quantity(
        "h",
        "Time without power that is put up with inside the target, where the battery restarts; "
        "absent: none.",
        ge=0,
        le=48,
        example=0.0,
    ),
]


class Wishes(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the owner wants to run, and for how long."""

    loads: (
        Annotated[
            list[Load],
            Meta(
                description="Loads that are to run in an outage.",
                min_length=1,
                max_length=60,
                examples=[[{"kind": "catalogue", "appliance": "refrigerator"}]],
            ),
        ]
        | None
    ) = None
    essential_set: Annotated[
        EssentialSetId | None,
        choice("A usual set of essential loads, instead of single ones.", example="standard"),
    ] = None
    target_hours: (
        Annotated[float, quantity("h", "Hours the loads must run.", ge=0.25, le=336, example=24.0)]
        | None
    ) = None
    target_tier: Annotated[
        Literal["critical", "normal", "comfort"] | None,
        choice("Lowest tier that must still run at the target.", example="critical"),
    ] = None
    start_hour: StartHour | None = None
    season: Annotated[
        Season | None, choice("Season of the outage; absent: the worse one.", example="summer")
    ] = None
    starts_carried_percent: StartsCarriedPercent | None = None
    dark_allowed: DarkAllowed | None = None
