"""Where the weather comes from: a place, a climate site, a county, a zone, or the caller's year."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from msgspec import Meta, Struct

from service.climate import TERRAIN_CLASSES, climate_sites
from service.quantities.fields import choice, number, quantity, text

if TYPE_CHECKING:
    ClimateSiteId = str
    Terrain = str
else:
    ClimateSiteId = Literal[tuple(climate_sites())]
    Terrain = Literal[tuple(TERRAIN_CLASSES)]

#: Hours of the 365-day year.
HOURS_OF_YEAR = 8760

Latitude = Annotated[
    float,
    number("Latitude, north positive.", ge=-90, le=90, example=33.75, unit="deg"),
]
Longitude = Annotated[
    float,
    number(
        "Longitude, east positive: negative in the US.",
        ge=-180,
        le=180,
        example=-116.36,
        unit="deg",
    ),
]
Elevation = Annotated[
    float,
    quantity(
        "ft", "Elevation above sea level; ask, do not guess.", ge=-1500, le=15_000, example=246
    ),
]
TerrainOfHome = Annotated[
    Terrain | None,
    choice("Lie of the land about the home; ask, do not guess.", example="low_desert"),
]


class PointClimate(Struct, tag="point", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """The home's own position; the nearest climate site of its kind answers."""

    latitude: Latitude
    longitude: Longitude
    elevation: Elevation | None = None
    terrain: TerrainOfHome = None
    accept_far: Annotated[
        bool,
        Meta(
            description="Whether a site of tier C, far or on other ground, is accepted.",
            examples=[False],
        ),
    ] = False


class SiteClimate(Struct, tag="site", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A climate site named outright."""

    site: Annotated[
        ClimateSiteId, choice("Id in /v1/reference/climate-sites.", example="palm_springs")
    ]


class CountyClimate(
    Struct, tag="county", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """No more than the county; the worst of its climate sites answers."""

    state: Annotated[
        str,
        text(
            "Two letters of the state.",
            example="CA",
            min_length=2,
            max_length=2,
            pattern="^[A-Z]{2}\\Z",
        ),
    ]
    county: Annotated[str, text("County.", example="Riverside", max_length=60)]


class ZoneClimate(Struct, tag="zone", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """No more than California's building climate zone; the worst of its sites answers."""

    zone: Annotated[
        int,
        Meta(ge=1, le=16, description="Building climate zone of California.", examples=[15]),
    ]


def _hours(unit: str, words: str, example: float) -> Meta:
    return Meta(
        description=words,
        max_length=HOURS_OF_YEAR,
        examples=[[example]],
        extra_json_schema={"x-unit": unit},
    )


_Irradiance = Annotated[
    float, number("Mean of the hour.", ge=0, le=1500, example=412.0, unit="W/m2")
]
_Celsius = Annotated[float, number("Air temperature.", ge=-60, le=60, example=28.5, unit="degC")]


class OwnClimate(
    Struct, tag="own_year", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """The caller's own typical year: 8,760 hours of local standard time, no 29 February."""

    latitude: Latitude
    longitude: Longitude
    utc_offset_hours: Annotated[
        float,
        number("Local standard time minus UTC.", ge=-12, le=14, example=-8.0, unit="h"),
    ]
    ghi_w_m2: Annotated[list[_Irradiance], _hours("W/m2", "Global horizontal irradiance.", 412.0)]
    dni_w_m2: Annotated[list[_Irradiance], _hours("W/m2", "Direct normal irradiance.", 640.0)]
    dhi_w_m2: Annotated[list[_Irradiance], _hours("W/m2", "Diffuse horizontal irradiance.", 88.0)]
    dry_bulb_degc: Annotated[list[_Celsius], _hours("degC", "Air temperature.", 28.5)]


Climate = PointClimate | SiteClimate | CountyClimate | ZoneClimate | OwnClimate


#: Furthest that a standard time lies from the time of the sun [h]: beyond every time zone in force,
#: of which some in the west of wide zones come near three hours. Own choice.
_FROM_THE_SUN_HOURS = 3.5
_DEGREES_AN_HOUR = 15.0


def climate_refusals(climate: Climate | None, pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the fields of a climate that is broken."""
    if not isinstance(climate, OwnClimate):
        return []
    found = [
        (
            f"{pointer}/{name}",
            f"Send {HOURS_OF_YEAR} values, one for each hour of a year of 365 days; leave "
            f"29 February out. This has {len(getattr(climate, name))}.",
        )
        for name in ("ghi_w_m2", "dni_w_m2", "dhi_w_m2", "dry_bulb_degc")
        if len(getattr(climate, name)) != HOURS_OF_YEAR
    ]
    by_the_sun = climate.longitude / _DEGREES_AN_HOUR
    if abs((climate.utc_offset_hours - by_the_sun + 12) % 24 - 12) > _FROM_THE_SUN_HOURS:
        words = (
            f"At this longitude the sun is {by_the_sun:+.1f} h from UTC. Send the offset of local "
            "standard time, negative west of Greenwich."
        )
        found.append((f"{pointer}/utc_offset_hours", words))
    return found
