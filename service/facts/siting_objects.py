"""What is on a wall, or stands before it, and keeps a unit away."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.siting_length import AlongWall, AnyHeight, AnySpan
from service.quantities.fields import choice, number

LeadsTo = Literal["dwelling", "garage", "other"]
Side = Literal["left", "right"]

_Left = Annotated[
    AlongWall,
    Meta(
        description="Its left edge, from the wall's left end, seen by whoever faces the wall.",
        examples=[100.0],
    ),
]
_Width = Annotated[AnySpan, Meta(description="Its width along the wall.", examples=[36.0])]
_Bottom = Annotated[
    AnyHeight | None,
    Meta(
        description="Its lower edge above the ground; absent: a door stands at the ground, of all "
        "else it is not known, and every height counts.",
        examples=[36.0],
    ),
]
_Tall = Annotated[
    AnySpan | None,
    Meta(description="From its lower to its upper edge; absent: without an end.", examples=[48.0]),
]
_Out = Annotated[AnySpan, Meta(description="From the wall to its near face.", examples=[12.0])]


class Opening(Struct, tag="opening", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A door or a window in the wall."""

    left: _Left
    width: _Width
    bottom: _Bottom = None
    height: _Tall = None
    what: Annotated[Literal["door", "window"], choice("Door or window.", example="window")]
    leads_to: Annotated[
        LeadsTo | None,
        choice("What lies behind it; absent: taken as the dwelling.", example="dwelling"),
    ] = None
    operable: Annotated[
        bool | None,
        Meta(
            description="Whether it opens; a fixed one counts as much for the distance.",
            examples=[True],
        ),
    ] = None
    swing: Annotated[
        Literal["in", "out", "slides"] | None,
        choice(
            "How it opens: `in` is away from the unit's side of the wall, `out` towards whoever "
            "faces the wall there; absent: in, and out is tried.",
            example="in",
        ),
    ] = None
    hinge: Annotated[
        Side | None,
        choice(
            "Side of its hinges, seen by whoever faces the wall; absent: both are kept clear.",
            example="left",
        ),
    ] = None
    opens_degrees: Annotated[
        float,
        number("How far a door that opens out swings.", ge=90, le=180, example=90, unit="deg"),
    ] = 180.0
    escape: Annotated[
        bool | None,
        Meta(
            description="Whether it is an escape opening of a bedroom or basement; the way before "
            "an outside wall then keeps the width of an escape way.",
            examples=[False],
        ),
    ] = None


class CornerOpening(
    Struct, tag="corner_opening", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A door or window in the wall that meets this one at an inside corner."""

    end: Annotated[Side, choice("End of this wall at which the corner is.", example="left")]
    out: Annotated[AnySpan, Meta(description="From the corner to its near edge.", examples=[20.0])]
    width: Annotated[AnySpan, Meta(description="Its width along its own wall.", examples=[30.0])]
    bottom: _Bottom = None
    height: _Tall = None
    leads_to: Annotated[
        LeadsTo | None,
        choice("What lies behind it; absent: taken as the dwelling.", example="dwelling"),
    ] = None


class GasVent(Struct, tag="gas_vent", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """The vent of a gas regulator: a point from which gas may come."""

    left: _Left
    out: _Out
    height: Annotated[AnyHeight, Meta(description="Above the ground.", examples=[30.0])]


class WallEquipment(
    Struct, tag="equipment", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """Something that hangs on the wall."""

    left: _Left
    width: _Width
    bottom: _Bottom = None
    height: _Tall = None
    depth: Annotated[
        AnySpan | None,
        Meta(
            description="How far it comes out of the wall; absent: as usual for its kind.",
            examples=[6.0],
        ),
    ] = None
    what: Annotated[
        Literal[
            "panel",
            "electric_meter",
            "disconnect",
            "gas_meter",
            "hose_bib",
            "downspout",
            "vent_outlet",
            "light",
            "other",
        ],
        choice(
            "What it is; panel, meter and disconnect keep their working space.", example="panel"
        ),
    ]


class Condenser(
    Struct, tag="condenser", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """An outdoor unit of an air conditioner that stands before the wall."""

    left: _Left
    width: _Width
    out: _Out
    depth: Annotated[AnySpan, Meta(description="From its near to its far face.", examples=[32.0])]
    height: _Tall = None
    service_side: Annotated[
        Literal["left", "right", "front"] | None,
        choice("Side of its controls; absent: either side along the wall.", example="right"),
    ] = None


class PoolEdge(Struct, tag="pool", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """The inside wall of a pool or spa before the wall."""

    left: _Left
    width: _Width
    out: _Out


WallObject = Opening | CornerOpening | GasVent | WallEquipment | Condenser | PoolEdge
