"""How an authority reads the clauses on where storage may hang, and what is there already."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, number, quantity

LocationClass = Literal[
    "utility_room", "attached_garage", "detached_garage", "exterior_wall", "outdoors"
]
HomeOfStorage = Literal["one_family", "two_family", "townhouse", "accessory_unit", "multi_family"]


class ExistingStorage(Struct, forbid_unknown_fields=True, kw_only=True):
    """Storage that the property has already."""

    where: Annotated[LocationClass, choice("Where it is.", example="attached_garage")]
    energy: Annotated[float, quantity("kWh", "All of it together.", ge=0, le=1000, example=13.0)]


class SitingReadings(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Readings that the authority or the utility is known to hold; absent: the usual one."""

    opening_distance: Annotated[
        Literal["straight", "any_height"] | None,
        choice(
            "Whether the distance to openings is the straight line, or is kept beside them at any "
            "height; absent: straight.",
            example="straight",
        ),
    ] = None
    working_space: Annotated[
        Literal["every_unit", "serviced_live"] | None,
        choice(
            "Whether every unit keeps a working space, or only one that is serviced live; absent: "
            "serviced_live.",
            example="serviced_live",
        ),
    ] = None
    energy_limits: Annotated[
        Literal["per_location", "per_property"] | None,
        choice(
            "Whether energies are summed by location or over the property; absent: per_location.",
            example="per_location",
        ),
    ] = None
    garage_openings: Annotated[
        Literal["do_not_count", "count"] | None,
        choice(
            "Whether doors and windows into a garage, and those of the dwelling inside one, keep "
            "the distance of exterior walls; absent: do_not_count.",
            example="do_not_count",
        ),
    ] = None
    vehicle_edge: Annotated[
        Literal["less", "not_more"] | None,
        choice(
            "Whether a unit exactly at the edge of where vehicles reach is outside of it, less, or "
            "inside; absent: less.",
            example="less",
        ),
    ] = None
    utility_door: Annotated[
        Literal["utility_spaces", "garages_too"] | None,
        choice(
            "Whether the door that closes and latches by itself is asked of utility spaces alone, "
            "or between garage and dwelling too; absent: utility_spaces.",
            example="utility_spaces",
        ),
    ] = None
    garage_energy: Annotated[
        Literal["each", "together"] | None,
        choice(
            "Whether attached and detached garages have an energy limit each, or share one; "
            "absent: each.",
            example="each",
        ),
    ] = None
    gas_distance: (
        Annotated[
            float,
            quantity(
                "in",
                "Distance from regulator vents that the gas utility asks; absent: 36.",
                ge=0,
                le=240,
                example=36.0,
            ),
        ]
        | None
    ) = None
    walkway: (
        Annotated[
            float,
            quantity(
                "in",
                "Least way that must stay beside the house by local rule; absent: 36.",
                ge=0,
                le=240,
                example=36.0,
            ),
        ]
        | None
    ) = None


class Anchorage(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Earthquake figures of the place."""

    sds: Annotated[
        float,
        number(
            "Design spectral acceleration at short periods, S_DS, in parts of gravity.",
            ge=0.01,
            le=4,
            example=1.5,
        ),
    ]
    height_part: Annotated[
        float,
        Meta(
            ge=0,
            le=1,
            description="Height of the fixing over the height of the roof.",
            examples=[0.5],
            extra_json_schema={"x-unit": "1"},
        ),
    ] = 0.5
    designed: Annotated[
        bool | None,
        Meta(
            description="Whether the anchors are those of the listing, or an engineer's, for these "
            "figures; absent: not known.",
            examples=[False],
        ),
    ] = None
