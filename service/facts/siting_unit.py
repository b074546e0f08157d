"""A kind of battery unit as its place sees it: box, clearances, weight, what its listing says."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, number, quantity, text


class UnitClearances(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Room that the maker's instructions keep free around it."""

    left: Annotated[float, quantity("in", "At its left side.", ge=0, le=120, example=6.0)] = 0.0
    right: Annotated[float, quantity("in", "At its right side.", ge=0, le=120, example=6.0)] = 0.0
    top: Annotated[float, quantity("in", "Above it.", ge=0, le=120, example=12.0)] = 0.0
    front: Annotated[float, quantity("in", "Before it.", ge=0, le=240, example=36.0)] = 0.0


class StackedUnits(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """How boxes may stand above each other."""

    levels: Annotated[
        int, Meta(ge=1, le=8, description="Boxes above each other.", examples=[2])
    ] = 1
    gap: (
        Annotated[
            float,
            quantity(
                "in",
                "Between one and the next, where their listing states one; absent: that of the "
                "code.",
                ge=0,
                le=120,
                example=2.0,
            ),
        ]
        | None
    ) = None
    one_cabinet: Annotated[
        bool,
        Meta(
            description="Whether the stack is listed as one unit: its energy counts as one.",
            examples=[False],
        ),
    ] = False


class SitingSheet(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the data sheet, the listing and the instructions of a unit say of its place."""

    mount: Annotated[
        Literal["wall", "floor"], choice("Hung on the wall or standing before it.", example="wall")
    ] = "wall"
    stack: Annotated[
        StackedUnits, Meta(description="Boxes above each other.", examples=[{"levels": 2}])
    ] = StackedUnits()
    clearances: Annotated[
        UnitClearances | None,
        Meta(
            description="By its instructions; absent: not known.",
            examples=[{"left": 6, "right": 6, "top": 12}],
        ),
    ] = None
    listed_spacing: (
        Annotated[
            float,
            quantity(
                "in",
                "Spacing between units that its listing or fire test allows; absent: that of the "
                "code.",
                ge=0,
                le=120,
                example=6.0,
            ),
        ]
        | None
    ) = None
    listed_opening_distance: (
        Annotated[
            float,
            quantity(
                "in",
                "Smaller distance to doors and windows that listing and instructions permit; it "
                "counts under the 2024 model code alone.",
                ge=0,
                le=36,
                example=12.0,
            ),
        ]
        | None
    ) = None
    energy: (
        Annotated[float, quantity("kWh", "Of one box, as rated.", ge=0.1, le=1000, example=12.0)]
        | None
    ) = None
    heaviest_piece: (
        Annotated[
            float,
            quantity(
                "lb",
                "Heaviest piece that is carried; absent: all of one box.",
                ge=1,
                le=20_000,
                example=180.0,
            ),
        ]
        | None
    ) = None
    listed: Annotated[
        bool | None,
        Meta(
            description="Whether it is listed to UL 9540 for homes; absent: not known.",
            examples=[True],
        ),
    ] = None
    listed_for_rooms: Annotated[
        bool | None,
        Meta(
            description="Whether it is listed and labelled for rooms that people live in; absent: "
            "taken as not.",
            examples=[False],
        ),
    ] = None
    worked_on_live: Annotated[
        bool | None,
        Meta(
            description="Whether it has parts that may be examined or serviced while energized, "
            "such as a breaker or a wiring compartment; absent: taken as yes.",
            examples=[True],
        ),
    ] = None
    volts_to_ground: (
        Annotated[
            float,
            number(
                "Highest voltage to ground inside; of a floating direct current circuit its full "
                "voltage; absent: 120, and a pass holds up to 600.",
                ge=0,
                le=1000,
                example=120.0,
                unit="V",
            ),
        ]
        | None
    ) = None
    handle: (
        Annotated[
            float,
            quantity(
                "in",
                "Centre of its disconnect's handle above its lower edge; absent: its top counts.",
                ge=0,
                le=240,
                example=30.0,
            ),
        ]
        | None
    ) = None
    conduit_entry: Annotated[
        Literal["left", "right", "top", "bottom", "rear"] | None,
        choice("Side of its conduit; absent: not known.", example="bottom"),
    ] = None
    conduit_room: (
        Annotated[
            float,
            quantity("in", "Room that the conduit takes there.", ge=0, le=60, example=4.0),
        ]
        | None
    ) = None


class SitingUnit(SitingSheet, forbid_unknown_fields=True, kw_only=True):
    """Units of one kind."""

    id: Annotated[str, text("Name of the kind.", example="unit-a", max_length=40)]
    count: Annotated[
        int,
        Meta(
            ge=1,
            le=20,
            description="How many are wanted; of boxes above each other, how many columns.",
            examples=[3],
        ),
    ] = 1
    width: Annotated[float, quantity("in", "Along the wall.", ge=2, le=240, example=26.0)]
    height: Annotated[float, quantity("in", "Of one box.", ge=2, le=240, example=40.0)]
    depth: Annotated[float, quantity("in", "Out from its back.", ge=1, le=120, example=10.0)]
    standoff: (
        Annotated[
            float,
            quantity(
                "in",
                "From the wall to its back, by bracket; absent: up to 4 in.",
                ge=0,
                le=60,
                example=1.0,
            ),
        ]
        | None
    ) = None
    bottom: (
        Annotated[
            float,
            quantity(
                "in",
                "Its lower edge above the ground; absent: 18 in on a wall, 0 on the floor.",
                ge=0,
                le=240,
                example=18.0,
            ),
        ]
        | None
    ) = None
    mass: (
        Annotated[float, quantity("lb", "Of one box, hung.", ge=1, le=20_000, example=265.0)] | None
    ) = None
