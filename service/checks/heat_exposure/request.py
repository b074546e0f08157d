"""What the heat-exposure check takes."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.facts import (
    CountyClimate,
    DesignDay,
    DesignDayAtSite,
    GaragePlace,
    HangingWall,
    OutdoorPlace,
    OwnClimate,
    PointClimate,
    Reference,
    SiteClimate,
    ZoneClimate,
)
from service.quantities.fields import choice, number, quantity

Colour = Literal["white", "light_grey", "medium", "dark"]
Enclosure = Literal["painted_steel", "stainless_steel", "aluminum"]

_Fahrenheit = Annotated[
    float,
    quantity("degF", "Temperature of the air of which it speaks.", ge=-76, le=212, example=122),
]
_HourOfDay = Annotated[
    float, number("Local standard time of the day.", ge=0, le=24, example=16.0, unit="h")
]
HeatClimate = (
    PointClimate
    | SiteClimate
    | CountyClimate
    | ZoneClimate
    | OwnClimate
    | DesignDay
    | DesignDayAtSite
)


class HungUnit(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """The unit: its size, its colour, how it hangs."""

    width: Annotated[float, quantity("in", "Along the wall.", ge=2, le=240, example=30.0)]
    height: Annotated[float, quantity("in", "Of its front.", ge=2, le=240, example=40.0)]
    depth: Annotated[float, quantity("in", "Out from the wall.", ge=1, le=120, example=8.0)]
    standoff: (
        Annotated[
            float,
            quantity(
                "in",
                "From the wall to its back; absent: up to 4 in, as is the sunnier.",
                ge=0,
                le=60,
                example=2.0,
            ),
        ]
        | None
    ) = None
    bottom: (
        Annotated[
            float,
            quantity(
                "in", "Its lower edge above the ground; for shades.", ge=0, le=600, example=24.0
            ),
        ]
        | None
    ) = None
    colour: Annotated[
        Colour | None,
        choice(
            "Colour of its faces; absent: light grey, and a pass holds for all.", example="dark"
        ),
    ] = None
    absorptance: (
        Annotated[
            float,
            number(
                "Part of sunlight that its faces take in, where it is known; it goes before the "
                "colour.",
                ge=0.02,
                le=1,
                example=0.45,
            ),
        ]
        | None
    ) = None
    mass: (
        Annotated[float, quantity("lb", "Weight of the unit.", ge=1, le=20_000, example=265.0)]
        | None
    ) = None
    enclosure: Annotated[
        Enclosure | None, choice("What its shell is of.", example="painted_steel")
    ] = None
    lag_hours: (
        Annotated[
            float,
            number(
                "Time constant with which it follows the air, where it is known; it goes before "
                "the mass.",
                ge=0,
                le=48,
                example=3.0,
                unit="h",
            ),
        ]
        | None
    ) = None
    losses: (
        Annotated[
            float,
            quantity(
                "W",
                "Heat given off inside; enters only where the limits speak of the air inside.",
                ge=0,
                le=20_000,
                example=150.0,
            ),
        ]
        | None
    ) = None


class OperatingLimits(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Temperatures that the unit's data sheet allows."""

    highest: _Fahrenheit | None = None
    lowest: _Fahrenheit | None = None
    speak_of: Annotated[
        Literal["ambient", "inside"],
        choice(
            "What they speak of: the air around the unit, which allows for its own heat already, "
            "or the air inside it.",
            example="ambient",
        ),
    ] = "ambient"


class DeratingPoint(Struct, forbid_unknown_fields=True, kw_only=True):
    """A point of the derating curve."""

    temperature: _Fahrenheit
    percent: Annotated[
        float, quantity("%", "Part of its rated power there.", ge=0, le=100, example=50.0)
    ]


class HeatedOutage(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """The outage through which power and energy are asked."""

    start_hour: _HourOfDay | None = None
    hours: (
        Annotated[
            float, number("How long it lasts; absent: 24.", ge=0.25, le=720, example=8.0, unit="h")
        ]
        | None
    ) = None
    rated_kw: (
        Annotated[
            float, quantity("kW", "Power that it is rated at.", ge=0.01, le=1000, example=5.0)
        ]
        | None
    ) = None
    usable_kwh: (
        Annotated[float, quantity("kWh", "Held at its start.", ge=0, le=10_000, example=12.0)]
        | None
    ) = None
    need_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Power that it must give throughout: the criterion.",
                ge=0.001,
                le=1000,
                example=4,
            ),
        ]
        | None
    ) = None


class HeatExposureRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """A unit and where it might be, to learn how hot it gets there and what that leaves."""

    reference: Reference | None = None
    climate: Annotated[
        HeatClimate,
        Meta(
            description="Weather of the home: of a place, a site, a county, a zone, or its own.",
            examples=[{"kind": "site", "site": "palm_springs"}],
        ),
    ]
    unit: Annotated[
        HungUnit,
        Meta(description="The unit.", examples=[{"width": 30, "height": 40, "depth": 8}]),
    ]
    place: Annotated[
        OutdoorPlace | GaragePlace | None,
        Meta(description="Outdoors or in a garage; absent: either.", examples=[{"kind": "garage"}]),
    ] = None
    limits: Annotated[
        OperatingLimits,
        Meta(
            description="Temperatures that its data sheet allows.",
            examples=[{"highest": 122, "lowest": -4}],
        ),
    ] = OperatingLimits()
    derating: (
        Annotated[
            list[DeratingPoint],
            Meta(
                description="Curve of the data sheet, rising in temperature, of the air that the "
                "limits speak of: straight between points, the first one's part below it, nothing "
                "above the last; absent: not known. The equivalent ambient with lag is read in it.",
                min_length=1,
                max_length=24,
                examples=[[{"temperature": 104, "percent": 100}]],
            ),
        ]
        | None
    ) = None
    outage: Annotated[
        HeatedOutage,
        Meta(description="The outage.", examples=[{"start_hour": 16, "hours": 8, "rated_kw": 5}]),
    ] = HeatedOutage()
    thresholds: (
        Annotated[
            list[_Fahrenheit],
            Meta(
                description="Temperatures to count hours over; absent: 104, 113 and 122 degF.",
                max_length=8,
                examples=[[104.0, 113.0, 122.0]],
            ),
        ]
        | None
    ) = None
    extreme_rise: (
        Annotated[
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
        | None
    ) = None
    wall_air_rise: (
        Annotated[
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
        | None
    ) = None


def without_shades(wall: HangingWall) -> HangingWall:
    """Return a wall without its eave and without what stands before it."""
    return replace(wall, eave=None, screens=[])


def with_climate(request: HeatExposureRequest, climate: HeatClimate) -> HeatExposureRequest:
    """Return the request with another climate."""
    return replace(request, climate=climate)
