"""Places where a unit may hang or stand: walls, garages, rooms, or what was told by telephone."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.siting_length import AnyHeight, AnySpan
from service.facts.siting_objects import WallObject
from service.facts.siting_place import (
    Hanging,
    MeasuredBy,
    PlacedUnit,
    PlaceId,
    RouteToPanel,
    WayIn,
    WayPart,
)
from service.quantities.fields import choice, number

RoomUse = Literal[
    "bedroom",
    "closet_of_bedroom",
    "living_room",
    "dining_room",
    "kitchen",
    "office",
    "bathroom",
    "hallway",
    "closet",
    "laundry",
    "utility_room",
    "mechanical_room",
    "storage",
    "basement_finished",
    "basement_unfinished",
    "attic",
    "crawl_space",
]
End = Literal["open", "wall"]

_Objects = Annotated[
    list[WallObject],
    Meta(
        description="What is on the wall or before it.",
        max_length=64,
        examples=[[{"kind": "opening", "what": "window", "left": 100, "width": 36, "bottom": 36}]],
    ),
]
_Placed = Annotated[
    list[PlacedUnit],
    Meta(
        description="Units as somebody would hang them, to be checked.",
        max_length=12,
        examples=[[{"unit": "unit-a", "left": 62}]],
    ),
]
_Hanging = Annotated[
    Hanging, Meta(description="What it is fixed to.", examples=[{"build": "wood_stud"}])
]
_WayIn = Annotated[WayIn, Meta(description="The way in.", examples=[{"narrowest": 36, "steps": 0}])]
_Route = Annotated[
    RouteToPanel | None,
    Meta(
        description="The way to the panel; absent: known only where the panel is on the wall.",
        examples=[{"end": "left", "beyond": 40}],
    ),
]
_Detection = Annotated[
    bool | None,
    Meta(
        description="Whether a smoke alarm, or in a garage a heat detector that is interconnected "
        "with the alarms, is there or will be fitted; absent: not known.",
        examples=[True],
    ),
]


class SitingWall(Struct, tag="wall", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """An outside wall, and the strip before it."""

    id: PlaceId
    length: Annotated[AnySpan, Meta(description="Along the wall.", examples=[240.0])]
    height: Annotated[
        AnySpan | None,
        Meta(description="Of the wall; absent: not known, it limits nothing.", examples=[108.0]),
    ] = None
    eave: Annotated[
        AnyHeight | None,
        Meta(description="Lower edge of an eave above the ground; absent: none.", examples=[96.0]),
    ] = None
    facing: (
        Annotated[
            float,
            number(
                "Direction it faces, clockwise from north; it moves nothing here, and heat "
                "exposure reads it.",
                ge=0,
                le=360,
                example=270.0,
                unit="deg",
            ),
        ]
        | None
    ) = None
    left_end: Annotated[
        End | None,
        choice("What its left end meets; absent: taken as another wall.", example="wall"),
    ] = None
    right_end: Annotated[
        End | None,
        choice("What its right end meets; absent: taken as another wall.", example="open"),
    ] = None
    objects: _Objects = []
    way: Annotated[
        list[WayPart],
        Meta(
            description="Clear way before the wall; where no part lies it is not known.",
            max_length=24,
            examples=[[{"left": 0, "length": 240, "clear": 60, "opposite": "wood_fence"}]],
        ),
    ] = []
    route: Annotated[
        bool | None,
        Meta(
            description="Whether people must be able to walk by; absent: taken as yes.",
            examples=[True],
        ),
    ] = None
    escape_way: Annotated[
        bool | None,
        Meta(
            description="Whether an escape opening or a back yard without another way out leads "
            "through it; absent: not known, unless an opening on the wall is an escape opening.",
            examples=[False],
        ),
    ] = None
    vehicles: Annotated[
        bool | None,
        Meta(
            description="Whether cars drive or park at it, as on a driveway or in a carport; "
            "absent: not known.",
            examples=[False],
        ),
    ] = None
    flood: Annotated[
        AnyHeight | None,
        Meta(
            description="Base flood elevation above the ground there, below it negative; absent: "
            "not known.",
            examples=[-24.0],
        ),
    ] = None
    property_line: Annotated[
        AnySpan | None,
        Meta(description="From the wall to the property line.", examples=[60.0]),
    ] = None
    measured_by: MeasuredBy = None
    placed: _Placed = []
    hanging: _Hanging = Hanging()
    way_in: _WayIn = WayIn()
    to_panel: _Route = None


class VehicleOpening(Struct, forbid_unknown_fields=True, kw_only=True):
    """The opening through which vehicles come, seen from within with the back wall ahead."""

    left: Annotated[
        AnySpan,
        Meta(description="From the left side wall to its left edge.", examples=[24.0]),
    ]
    width: Annotated[AnySpan, Meta(description="Clear width.", examples=[192.0])]
    height: Annotated[
        AnySpan | None,
        Meta(
            description="Clear height; absent: not known, and no exemption counts.",
            examples=[84.0],
        ),
    ] = None


class Barrier(Struct, forbid_unknown_fields=True, kw_only=True):
    """What keeps vehicles off a wall already."""

    what: Annotated[
        Literal["bollards", "wheel_barrier", "other"], choice("What it is.", example="bollards")
    ]
    from_wall: Annotated[
        AnySpan, Meta(description="From the wall to its near face.", examples=[24.0])
    ]
    left: Annotated[
        AnySpan, Meta(description="Where it begins, from the wall's left end.", examples=[20.0])
    ]
    width: Annotated[AnySpan, Meta(description="Of the wall it keeps.", examples=[60.0])]
    approved: Annotated[
        bool | None,
        Meta(
            description="Whether it is known to be as the code asks; absent: not known.",
            examples=[True],
        ),
    ] = None


class GarageWall(Struct, forbid_unknown_fields=True, kw_only=True):
    """A wall of a garage: its left end is that of whoever faces it from within."""

    side: Annotated[
        Literal["back", "left", "right"],
        choice("Which wall, seen with the back wall ahead.", example="back"),
    ]
    objects: _Objects = []
    barriers: Annotated[
        list[Barrier],
        Meta(
            description="Barriers before it.",
            max_length=8,
            examples=[[{"what": "bollards", "from_wall": 24, "left": 20, "width": 60}]],
        ),
    ] = []
    placed: _Placed = []
    hanging: _Hanging = Hanging()


class SitingGarage(
    Struct, tag="garage", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A garage with the way of its vehicles."""

    id: PlaceId
    width: Annotated[AnySpan, Meta(description="Between the side walls.", examples=[240.0])]
    depth: Annotated[
        AnySpan, Meta(description="From the vehicle opening to the back wall.", examples=[240.0])
    ]
    height: Annotated[
        AnySpan | None, Meta(description="Of its ceiling; absent: not known.", examples=[96.0])
    ] = None
    attached: Annotated[
        bool | None,
        Meta(
            description="Whether it is attached to the dwelling; absent: taken as attached.",
            examples=[True],
        ),
    ] = None
    separated: Annotated[
        bool | None,
        Meta(
            description="Whether gypsum separates it from the dwelling as the code asks; absent: "
            "not known.",
            examples=[True],
        ),
    ] = None
    vehicle_opening: Annotated[
        VehicleOpening | None,
        Meta(
            description="The vehicle opening; absent: not known, and every place low enough is in "
            "the way of vehicles.",
            examples=[{"left": 24, "width": 192, "height": 84}],
        ),
    ] = None
    walls: Annotated[
        list[GarageWall],
        Meta(
            description="Walls to try.",
            min_length=1,
            max_length=3,
            examples=[[{"side": "back"}]],
        ),
    ]
    vehicle_length: Annotated[
        AnySpan | None,
        Meta(description="Of the longest vehicle parked there.", examples=[190.0]),
    ] = None
    detection: _Detection = None
    measured_by: MeasuredBy = None
    way_in: _WayIn = WayIn()
    to_panel: _Route = None


class SitingRoom(Struct, tag="room", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A room, and the wall of it that is meant."""

    id: PlaceId
    use: Annotated[RoomUse, choice("What the room is.", example="utility_room")]
    length: Annotated[AnySpan, Meta(description="Of the wall.", examples=[96.0])]
    height: Annotated[
        AnySpan | None, Meta(description="Of the ceiling; absent: not known.", examples=[96.0])
    ] = None
    finish: Annotated[
        Literal["gypsum_type_x", "gypsum", "noncombustible", "unfinished"] | None,
        choice("Of walls and ceiling; absent: not known.", example="gypsum_type_x"),
    ] = None
    opens_into_bedroom: Annotated[
        bool | None,
        Meta(
            description="Whether it opens directly into a room where people sleep; absent: not "
            "known.",
            examples=[False],
        ),
    ] = None
    door_self_closing: Annotated[
        bool | None,
        Meta(
            description="Whether its door into the dwelling is solid or rated, closes and latches "
            "by itself; absent: not known.",
            examples=[True],
        ),
    ] = None
    objects: _Objects = []
    way: Annotated[
        list[WayPart],
        Meta(
            description="Clear floor before the wall; where no part lies it is not known.",
            max_length=24,
            examples=[[{"left": 0, "length": 96, "clear": 60}]],
        ),
    ] = []
    detection: _Detection = None
    measured_by: MeasuredBy = None
    placed: _Placed = []
    hanging: _Hanging = Hanging()
    way_in: _WayIn = WayIn()
    to_panel: _Route = None


class CoarsePlace(
    Struct, tag="by_telephone", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A place of which no more is known than what an owner says by telephone."""

    id: PlaceId
    where: Annotated[
        Literal["garage", "side_yard", "back", "front", "indoors"] | None,
        choice("Where it is; absent: not known.", example="side_yard"),
    ] = None
    narrowest: Annotated[
        AnySpan | None,
        Meta(
            description="From the wall to the fence at the narrowest; absent: not known.",
            examples=[{"value": 48, "by": "estimate"}],
        ),
    ] = None
    openings_near: Annotated[
        bool | None,
        Meta(
            description="Whether doors or windows are within an arm's span of the spot; absent: "
            "not known.",
            examples=[True],
        ),
    ] = None
    meters_near: Annotated[
        bool | None,
        Meta(
            description="Whether a gas or electric meter or the main panel is within an arm's "
            "span; absent: not known.",
            examples=[False],
        ),
    ] = None
    to_panel: _Route = None


SitingPlace = SitingWall | SitingGarage | SitingRoom | CoarsePlace
