"""Facts that every place of a unit may have: how it is hung, how it comes there, how wires go."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.siting_length import AlongWall, AnySpan, LengthSource
from service.quantities.fields import choice, quantity, text

WallBuild = Literal[
    "wood_stud",
    "steel_stud",
    "masonry",
    "concrete",
    "stucco_on_stud",
    "siding_on_stud",
    "brick_veneer",
]
Standing = Literal["concrete_slab", "pavers", "soil", "wood_deck"]
TrenchSurface = Literal["soil", "grass", "gravel", "pavers", "concrete", "asphalt"]
Opposite = Literal[
    "concrete",
    "block",
    "brick",
    "stucco",
    "wood_fence",
    "vinyl_fence",
    "metal_fence",
    "chain_link",
    "hedge",
    "drywall",
    "glass",
    "live_equipment",
    "open",
]

PlaceId = Annotated[
    str, text("Name of the place, in the answer again.", example="west side", max_length=40)
]
MeasuredBy = Annotated[
    LengthSource | None,
    choice(
        "How the lengths of this place were had that say nothing themselves; absent: taken as "
        "estimates.",
        example="tape",
    ),
]


class PlacedUnit(Struct, forbid_unknown_fields=True, kw_only=True):
    """A unit as somebody would hang it."""

    unit: Annotated[str, text("Id of its kind.", example="unit-a", max_length=40)]
    left: Annotated[
        AlongWall,
        Meta(description="Its left edge, from the wall's left end.", examples=[62.0]),
    ]


class WayPart(Struct, forbid_unknown_fields=True, kw_only=True):
    """A part of the clear way before the wall, up to a fence or whatever ends it."""

    left: Annotated[
        AlongWall, Meta(description="Where it begins, from the wall's left end.", examples=[0.0])
    ]
    length: Annotated[AnySpan, Meta(description="Along the wall.", examples=[240.0])]
    clear: Annotated[
        AnySpan, Meta(description="From the wall to what ends it, at its left.", examples=[60.0])
    ]
    clear_right: Annotated[
        AnySpan | None,
        Meta(description="The same at its right; absent: the same all along.", examples=[48.0]),
    ] = None
    opposite: Annotated[
        Opposite | None,
        choice(
            "What ends it; block, brick and concrete count as grounded; absent: not known.",
            example="wood_fence",
        ),
    ] = None


class Hanging(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """What the unit is fixed to."""

    build: Annotated[
        WallBuild | None, choice("How the wall is built; absent: not known.", example="wood_stud")
    ] = None
    stud_spacing: (
        Annotated[
            float, quantity("in", "Centre to centre of its studs.", ge=8, le=48, example=16.0)
        ]
        | None
    ) = None
    standing: Annotated[
        Standing | None,
        choice("What a unit on the floor stands on; absent: not known.", example="concrete_slab"),
    ] = None
    services_in_wall: Annotated[
        bool | None,
        Meta(
            description="Whether pipes or wires run in the wall there; absent: not known.",
            examples=[False],
        ),
    ] = None
    confirmed: Annotated[
        bool | None,
        Meta(
            description="Whether somebody who may say so confirmed that wall or ground bears the "
            "units, and how they are fixed.",
            examples=[False],
        ),
    ] = None


class WayIn(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """The way on which the unit is carried to its place."""

    narrowest: Annotated[
        AnySpan | None,
        Meta(description="Narrowest gate, door or passage.", examples=[36.0]),
    ] = None
    steps: (
        Annotated[int, Meta(ge=0, le=200, description="Steps on the way.", examples=[2])] | None
    ) = None
    slope_percent: (
        Annotated[float, quantity("%", "Steepest slope.", ge=0, le=100, example=5.0)] | None
    ) = None
    people: (
        Annotated[
            int,
            Meta(
                ge=0,
                le=50,
                description="People who come to carry, with what they lift with; absent: not "
                "known.",
                examples=[4],
            ),
        ]
        | None
    ) = None


class RouteToPanel(Struct, forbid_unknown_fields=True, kw_only=True):
    """How the conductors go from the wall to the panel."""

    end: Annotated[
        Literal["left", "right"] | None,
        choice(
            "End of the wall by which they leave; absent, or of a garage with several walls: both "
            "ends count.",
            example="left",
        ),
    ] = None
    beyond: Annotated[
        float,
        quantity(
            "ft",
            "From that end of the wall to the panel, up and down counted.",
            ge=0,
            le=5280,
            example=40.0,
        ),
    ]
    trench: (
        Annotated[float, quantity("ft", "Part of it in the ground.", ge=0, le=5280, example=0.0)]
        | None
    ) = None
    surface: Annotated[TrenchSurface | None, choice("What is dug through.", example="soil")] = None
    easement: Annotated[
        bool | None,
        Meta(description="Whether it crosses an easement; absent: not known.", examples=[False]),
    ] = None
    located: Annotated[
        bool | None,
        Meta(
            description="Whether the underground service alert was called and lines are marked.",
            examples=[False],
        ),
    ] = None
