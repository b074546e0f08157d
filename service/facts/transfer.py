"""How the backed-up circuits come to the battery, and which rules a licensed person confirmed."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, quantity

ElectricalRuleId = Literal["backed-up-capacity", "conductor-tables"]
ConfirmedRules = Annotated[
    list[ElectricalRuleId],
    Meta(
        description="Rules that a licensed person confirmed as adopted at the place; a pass "
        "against one of them stands on that word.",
        max_length=2,
        examples=[["backed-up-capacity"]],
    ),
]


#: Rules on where storage may hang whose numbers a licensed person may confirm.
SitingRuleId = Literal[
    "opening-distance",
    "unit-spacing",
    "unit-energy",
    "location-energy",
    "working-space",
    "walkway",
    "gas-vent-distance",
    "equipment-space",
    "vehicle-protection",
    "handle-height",
    "room-use",
    "fire-detection",
    "flood-height",
    "pool-distance",
]
SiteConfirmedRules = Annotated[
    list[ElectricalRuleId | SitingRuleId],
    Meta(
        description="Rules that a licensed person confirmed as adopted at the place; a pass "
        "against one of them stands on that word.",
        max_length=16,
        examples=[["backed-up-capacity"]],
    ),
]


class Transfer(Struct, forbid_unknown_fields=True, kw_only=True):
    """How the backed-up circuits come to the battery."""

    kind: Annotated[
        Literal["automatic", "manual"], choice("By itself, or by hand.", example="automatic")
    ]
    connected_load_va: (
        Annotated[
            float,
            quantity(
                "VA",
                "Calculated load of everything behind it.",
                ge=0,
                le=500_000,
                example=9000,
            ),
        ]
        | None
    ) = None
    managed_load_va: (
        Annotated[
            float,
            quantity(
                "VA",
                "Set-point of listed load management; absent: there is none.",
                ge=0,
                le=500_000,
                example=5500,
            ),
        ]
        | None
    ) = None
    sheds_for_starts: Annotated[
        bool,
        Meta(
            description="Whether listed load control takes other loads off before a motor starts.",
            examples=[False],
        ),
    ] = False
