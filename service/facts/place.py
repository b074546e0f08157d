"""Where the home is; no street address is wanted."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta, Struct

from service.facts.climate import ClimateSiteId, Elevation, Latitude, Longitude, TerrainOfHome
from service.facts.hung_place import ExtremeRise
from service.quantities.fields import choice, number, text

StateCode = Annotated[
    str,
    text(
        "Two letters of the state.",
        example="CA",
        min_length=2,
        max_length=2,
        pattern="^[A-Z]{2}\\Z",
    ),
]


class Place(Struct, forbid_unknown_fields=True, kw_only=True):
    """Where the home is; no street address is wanted."""

    state: StateCode
    county: Annotated[str, text("County.", example="Riverside", max_length=60)] | None = None
    city: Annotated[str, text("City.", example="Temecula", max_length=60)] | None = None
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    elevation: Elevation | None = None
    terrain: TerrainOfHome = None
    climate_site: Annotated[
        ClimateSiteId | None,
        choice(
            "Climate site that is to answer, by its id in /v1/reference/climate-sites; it goes "
            "before the position.",
            example="riverside",
        ),
    ] = None
    climate_zone: (
        Annotated[
            int,
            Meta(
                ge=1,
                le=16,
                description="Building climate zone of California, where neither position nor "
                "county is known.",
                examples=[10],
            ),
        ]
        | None
    ) = None
    outdoor_offset: (
        Annotated[
            float,
            number(
                "Degrees that it is hotter at the home than at its climate site.",
                ge=-30,
                le=30,
                example=0.0,
                unit="degF",
            ),
        ]
        | None
    ) = None
    extreme_rise: ExtremeRise | None = None
    accept_far_climate: Annotated[
        bool,
        Meta(
            description="Whether a climate site of tier C, far or on other ground, is accepted.",
            examples=[False],
        ),
    ] = False
