"""A control cable by its maker: its longest lead, its insulation, how it is kept apart."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, quantity


class ControlCable(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """What the makers of both devices say of the cable between them."""

    most_length: (
        Annotated[
            float,
            quantity("ft", "Longest lead that the maker allows.", ge=1, le=10_000, example=300.0),
        ]
        | None
    ) = None
    circuit_class: Annotated[
        Literal["class_1", "class_2"] | None,
        choice(
            "Class of its circuit by the listing of the device; class 3 counts as class 2.",
            example="class_2",
        ),
    ] = None
    separation: (
        Annotated[
            float,
            quantity(
                "in",
                "Least distance to conductors of power outside a raceway.",
                ge=0,
                le=240,
                example=2.0,
            ),
        ]
        | None
    ) = None
    insulation_volts: Annotated[
        Literal[150, 300, 600] | None,
        Meta(description="Volts that its insulation is rated for.", examples=[300]),
    ] = None
    beside_power: Annotated[
        bool | None,
        Meta(
            description="Whether it shares a raceway or enclosure with conductors of power; "
            "absent: not known.",
            examples=[False],
        ),
    ] = None
