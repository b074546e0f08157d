"""A run of conductors: parts with conditions of their own, one distance, or a coarse answer."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, quantity

WayId = Literal[
    "emt",
    "imc",
    "rmc",
    "fmc",
    "lfmc",
    "pvc40",
    "pvc80",
    "lfnc_a",
    "lfnc_b",
    "ent",
    "nm_b",
    "uf_b",
    "se",
    "use_2",
    "mc",
    "mc_wet",
    "ac",
    "tc_er_jp",
]
PlaceId = Literal[
    "attic",
    "outside_wall",
    "rooftop",
    "buried",
    "indoors",
    "crawl_space",
    "nipple",
    "indoor_nipple",
]
GroundId = Literal[
    "other",
    "under_concrete_2in",
    "under_building",
    "under_slab",
    "under_roads",
    "dwelling_driveway",
    "airport",
]
SizeId = Literal[
    "14",
    "12",
    "10",
    "8",
    "6",
    "4",
    "3",
    "2",
    "1",
    "1/0",
    "2/0",
    "3/0",
    "4/0",
    "250",
    "300",
    "350",
    "400",
    "500",
    "600",
    "700",
    "750",
]
CoarseDistance = Literal[
    "same_wall", "round_one_corner", "other_end", "across_yard", "detached_building"
]

_Length = Annotated[
    float, quantity("ft", "One way, along the route.", ge=0, le=52_800, example=150.0)
]


class RunSegment(Struct, forbid_unknown_fields=True, kw_only=True):
    """A part of a run: how long, where, in what, beside what."""

    length: _Length
    place: Annotated[PlaceId, choice("Where it lies.", example="outside_wall")]
    ambient: (
        Annotated[
            float,
            quantity(
                "degF",
                "Hottest air or soil around it, without what a roof adds; absent: a hot end for "
                "the place.",
                ge=-40,
                le=250,
                example=104.0,
            ),
        ]
        | None
    ) = None
    way: Annotated[
        WayId | None,
        choice("Raceway or type of cable; absent: rigid PVC conduit, Schedule 40.", example="emt"),
    ] = None
    other_conductors: Annotated[
        int,
        Meta(
            ge=0,
            le=60,
            description="Current-carrying conductors of other circuits in the same raceway.",
            examples=[0],
        ),
    ] = 0
    roof_height: (
        Annotated[
            float, quantity("in", "From the roof to its underside.", ge=0, le=120, example=1.0)
        ]
        | None
    ) = None
    cover: (
        Annotated[
            float,
            quantity("in", "Earth above its top, where it is buried.", ge=0, le=240, example=24.0),
        ]
        | None
    ) = None
    under: Annotated[
        GroundId, choice("What lies above it, where it is buried.", example="other")
    ] = "other"


class SegmentsRun(
    Struct, tag="segments", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """The run by its parts, in order."""

    segments: Annotated[
        list[RunSegment],
        Meta(
            description="Parts of the run.",
            min_length=1,
            max_length=100,
            examples=[[{"length": 150, "place": "outside_wall", "way": "pvc40"}]],
        ),
    ]


class DistanceRun(
    Struct, tag="distance", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """No more than the distance: an outside wall in the sun stands in for the rest."""

    length: _Length


class CoarseRun(Struct, tag="coarse", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """How the distance is described on the telephone."""

    answer: Annotated[CoarseDistance, choice("How far it is.", example="round_one_corner")]


Run = SegmentsRun | DistanceRun | CoarseRun


class Terminal(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One end of the circuit: what is marked on it, and what it takes."""

    marked: Annotated[
        Literal[60, 75, 90] | None,
        choice("Temperature marked on it [degC]; absent: not marked, or not known.", example=75),
    ] = None
    smallest: Annotated[
        SizeId | None, choice("Smallest conductor it takes, AWG or kcmil.", example="14")
    ] = None
    largest: Annotated[
        SizeId | None, choice("Largest conductor it takes, AWG or kcmil.", example="2/0")
    ] = None
    aluminum: (
        Annotated[
            bool,
            Meta(
                description="Whether it is marked for aluminum; absent: not known.",
                examples=[True],
            ),
        ]
        | None
    ) = None


class Terminals(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """Both ends of the circuit of every unit."""

    near: Annotated[
        Terminal,
        Meta(description="The terminal at the unit.", examples=[{"marked": 75}]),
    ] = Terminal()
    far: Annotated[
        Terminal,
        Meta(description="The terminal at the panel.", examples=[{"marked": 75}]),
    ] = Terminal()


def run_refusals(segments: list[RunSegment], pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of what a segment states that its place has no use for."""
    found = []
    for index, part in enumerate(segments):
        at = f"{pointer}/{index}"
        if part.roof_height is not None and part.place != "rooftop":
            found.append((f"{at}/roof_height", "Leave it away, or say that it lies on the roof."))
        if part.cover is not None and part.place != "buried":
            found.append((f"{at}/cover", "Leave it away, or say that it is buried."))
        if part.under != "other" and part.place != "buried":
            found.append((f"{at}/under", "Leave it away, or say that it is buried."))
    return found
