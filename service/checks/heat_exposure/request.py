"""What the heat-exposure check takes."""

from __future__ import annotations

from typing import Annotated

import msgspec
from msgspec import Meta, Struct
from msgspec.structs import replace

from service.facts import (
    AirFahrenheit,
    AirRise,
    CountyClimate,
    DeratingCurve,
    DesignDay,
    DesignDayAtSite,
    ExtremeRise,
    GaragePlace,
    HangingWall,
    HungUnit,
    OperatingLimits,
    OutdoorPlace,
    OwnClimate,
    PointClimate,
    Reference,
    SiteClimate,
    ZoneClimate,
)
from service.quantities.fields import number, quantity

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
    derating: DeratingCurve | None = None
    outage: Annotated[
        HeatedOutage,
        Meta(description="The outage.", examples=[{"start_hour": 16, "hours": 8, "rated_kw": 5}]),
    ] = HeatedOutage()
    thresholds: (
        Annotated[
            list[AirFahrenheit],
            Meta(
                description="Temperatures to count hours over; absent: 104, 113 and 122 degF.",
                max_length=8,
                examples=[[104.0, 113.0, 122.0]],
            ),
        ]
        | None
    ) = None
    extreme_rise: ExtremeRise | None = None
    wall_air_rise: AirRise | None = None
    outdoor_offset: (
        Annotated[
            float,
            number(
                "How much hotter it is at the home than at its climate site, a difference; absent: "
                "none, and the error of the site's distance is held against it.",
                ge=-30,
                le=30,
                example=0.0,
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


def warming(request: HeatExposureRequest) -> bytes:
    """Return what warms the unit: requests that differ in their data sheets alone are as hot."""
    parts = (
        # A year of the caller's own is too long to be told apart by.
        None if isinstance(request.climate, OwnClimate) else request.climate,
        request.unit,
        request.place,
        request.extreme_rise,
        request.wall_air_rise,
        request.outdoor_offset,
        # The hottest days are sought in the hours of the outage too.
        request.outage.start_hour,
        request.outage.hours,
    )
    return msgspec.json.encode(parts)
