"""Where a unit might hang: walls with what shades them, or a garage."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, number, quantity, text

Ground = Literal["ordinary", "grass", "gravel", "asphalt", "old_concrete", "new_concrete"]

_HourOfDay = Annotated[
    float, number("Local standard time of the day.", ge=0, le=24, example=16.0, unit="h")
]


#: What is added to the air of a weather record, by whoever measured it.
AirRise = Annotated[
    float,
    number(
        "How much hotter the air at the unit is than that of the weather record, a "
        "difference; in a garage it goes before the rule of thumb.",
        ge=0,
        le=36,
        example=1.8,
        unit="degF",
    ),
]
ExtremeRise = Annotated[
    float,
    number(
        "How much hotter a hot day of the place gets than one typical year shows, a "
        "difference; a day that is stated gets none.",
        ge=0,
        le=36,
        example=3.6,
        unit="degF",
    ),
]


class EaveShade(Struct, forbid_unknown_fields=True, kw_only=True):
    """An eave or a patio roof above the unit, taken as running along the whole wall."""

    depth: Annotated[float, quantity("in", "Out from the wall.", ge=0, le=600, example=24.0)]
    height: Annotated[
        float, quantity("in", "Its lower edge above the ground.", ge=1, le=1200, example=96.0)
    ]


class ScreenShade(Struct, forbid_unknown_fields=True, kw_only=True):
    """A fence or a neighbour's wall, parallel to the wall and taken as without an end."""

    distance: Annotated[float, quantity("ft", "From the wall.", ge=0, le=1000, example=5.0)]
    height: Annotated[float, quantity("ft", "Above the ground.", ge=0, le=300, example=6.0)]


_Percent = Annotated[
    float, quantity("%", "Part of the direct sun that passes.", ge=0, le=100, example=20.0)
]


class TreeShade(Struct, forbid_unknown_fields=True, kw_only=True):
    """A tree, or any shade known by its hours."""

    through_percent: Annotated[
        list[_Percent],
        Meta(
            description="Direct sun that passes while it shades, of one value for the year or of "
            "the twelve months from January.",
            min_length=1,
            max_length=12,
            examples=[[20.0]],
        ),
    ]
    from_hour: _HourOfDay = 0.0
    to_hour: _HourOfDay = 24.0


class HangingWall(Struct, forbid_unknown_fields=True, kw_only=True):
    """A wall on which the unit might hang."""

    id: Annotated[str, text("Name of it, in the answer again.", example="west", max_length=40)]
    facing: (
        Annotated[
            float,
            number(
                "Direction it faces, clockwise from north: 270 is west; absent: any.",
                ge=0,
                le=360,
                example=270.0,
                unit="deg",
            ),
        ]
        | None
    ) = None
    height: (
        Annotated[
            float,
            quantity(
                "in",
                "Upper edge of the wall above the ground; absent: no higher than the unit, the "
                "sunnier end.",
                ge=1,
                le=2400,
                example=108.0,
            ),
        ]
        | None
    ) = None
    eave: Annotated[
        EaveShade | None,
        Meta(description="Absent: none.", examples=[{"depth": 24, "height": 96}]),
    ] = None
    screens: Annotated[
        list[ScreenShade],
        Meta(
            description="What stands before the wall.",
            max_length=24,
            examples=[[{"distance": 5, "height": 6}]],
        ),
    ] = []
    tree: Annotated[
        TreeShade | None,
        Meta(description="Absent: none.", examples=[{"through_percent": [20]}]),
    ] = None
    full_shade: Annotated[
        bool | None,
        Meta(
            description="Whether something keeps all direct sun off it the whole day; absent: "
            "taken as not.",
            examples=[False],
        ),
    ] = None
    ground: Annotated[
        Ground | None, choice("Ground before it; absent: ordinary.", example="old_concrete")
    ] = None


class OutdoorPlace(
    Struct, tag="outdoors", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """Outdoors, on one of some walls."""

    walls: Annotated[
        list[HangingWall],
        Meta(
            description="Walls to rank; the answer stands for the best of them.",
            min_length=1,
            max_length=24,
            examples=[[{"id": "west", "facing": 270}]],
        ),
    ]


class GaragePlace(Struct, tag="garage", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """In a closed garage that nothing cools."""

    door_faces: Annotated[
        Literal["west", "other"] | None,
        choice("Where its vehicle door looks; absent: taken as west, the hotter.", example="west"),
    ] = None
