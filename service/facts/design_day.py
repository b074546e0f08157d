"""A design day that the caller states, under a cloudless sky or in the light of a climate site."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.climate import ClimateSiteId, Latitude, Longitude
from service.quantities.fields import choice, number, quantity

DepthEdition = Literal["ashrae_2009", "ashrae_2013"]

_Highest = Annotated[
    float,
    quantity("degF", "Highest air temperature of the day.", ge=32, le=140, example=105.0),
]
_Range = Annotated[
    float,
    number("Highest less lowest of the day.", ge=0.5, le=53.9, example=25.0, unit="degF"),
]


class OpticalDepths(Struct, forbid_unknown_fields=True, kw_only=True):
    """Optical depths of a cloudless day, and whose they are."""

    edition: Annotated[
        DepthEdition,
        choice(
            "Edition of the handbook that the depths were made for; its exponents go with them.",
            example="ashrae_2009",
        ),
    ]
    beam: Annotated[float, number("Of the beam.", ge=0.05, le=2, example=0.485)]
    diffuse: Annotated[float, number("Of the diffuse light.", ge=0.5, le=4, example=1.942)]


class DesignDay(
    Struct, tag="design_day", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """The caller's own design day under a cloudless sky by optical depths."""

    highest: _Highest
    daily_range: _Range
    day_of_year: Annotated[
        int, Meta(ge=1, le=365, description="Day of the year, 1 January: 1.", examples=[202])
    ]
    latitude: Latitude
    longitude: Longitude
    utc_offset_hours: Annotated[
        float, number("Local standard time minus UTC.", ge=-12, le=14, example=-8.0, unit="h")
    ]
    depths: Annotated[
        OpticalDepths,
        Meta(
            description="Of the place and month.",
            examples=[{"edition": "ashrae_2009", "beam": 0.485, "diffuse": 1.942}],
        ),
    ]


class DesignDayAtSite(
    Struct, tag="design_day_at_site", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """The caller's own design day with the light of a climate site's hottest days."""

    highest: _Highest
    daily_range: _Range
    site: Annotated[
        ClimateSiteId, choice("Id in /v1/reference/climate-sites.", example="palm_springs")
    ]
