"""What the clearance check takes."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeVar

import msgspec
from msgspec import Meta, Struct
from msgspec.structs import asdict, replace

from service.facts import Reference
from service.facts.permit_date import PermitDate
from service.facts.place import StateCode
from service.facts.siting_readings import (
    Anchorage,
    ExistingStorage,
    HomeOfStorage,
    SitingReadings,
)
from service.facts.siting_spots import SitingPlace
from service.facts.siting_unit import SitingSheet, SitingUnit
from service.facts.transfer import SitingRuleId
from service.quantities.fields import choice, text

ResidentialEdition = Literal["ca-2022", "ca-2025", "model-2021", "model-2024"]


class ClearanceRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """Units and places, to learn where the units may hang or stand."""

    reference: Reference | None = None
    units: Annotated[
        list[SitingUnit],
        Meta(
            description="Kinds of units that are to go together.",
            min_length=1,
            max_length=4,
            examples=[[{"id": "unit-a", "width": 26, "height": 40, "depth": 10, "count": 2}]],
        ),
    ]
    places: Annotated[
        list[SitingPlace],
        Meta(
            description="Places to try.",
            min_length=1,
            max_length=12,
            examples=[[{"kind": "by_telephone", "id": "side", "where": "side_yard"}]],
        ),
    ]
    home: Annotated[
        HomeOfStorage | None,
        choice(
            "Kind of home; the rules are those of one- and two-family dwellings, townhouses and "
            "their accessory units; absent: not known.",
            example="one_family",
        ),
    ] = None
    state: StateCode | None = None
    county: Annotated[str, text("County.", example="Riverside", max_length=60)] | None = None
    city: Annotated[str, text("City.", example="Temecula", max_length=60)] | None = None
    permit_date: PermitDate | None = None
    edition: Annotated[
        ResidentialEdition | None,
        choice("Edition of the building standards; absent: by place and date.", example="ca-2025"),
    ] = None
    readings: Annotated[
        SitingReadings,
        Meta(
            description="Readings of the authority that are known.",
            examples=[{"opening_distance": "any_height"}],
        ),
    ] = SitingReadings()
    existing: Annotated[
        list[ExistingStorage],
        Meta(
            description="Storage that the property has already.",
            max_length=24,
            examples=[[{"where": "attached_garage", "energy": 13}]],
        ),
    ] = []
    anchorage: Annotated[
        Anchorage | None,
        Meta(description="Earthquake figures; absent: not known.", examples=[{"sds": 1.5}]),
    ] = None
    confirmed_rules: Annotated[
        list[SitingRuleId],
        Meta(
            description="Rules that a licensed person confirmed as adopted at the place; a pass "
            "against one of them stands on that word.",
            max_length=14,
            examples=[["opening-distance"]],
        ),
    ] = []


Wire = TypeVar("Wire", bound=Struct)


def changed(thing: Wire, **changes: Any) -> Wire:
    """Return a request, or a part of one, with some fields changed."""
    return replace(thing, **changes)


def as_tree(thing: Any) -> Any:
    """Return a part of a request as plain objects, lists and values."""
    return msgspec.to_builtins(thing)


def unit_with(sheet: SitingSheet, **stated: Any) -> SitingUnit:
    """Return the unit that a sheet speaks of, with its box and what else is stated of it."""
    return SitingUnit(**asdict(sheet) | stated)
