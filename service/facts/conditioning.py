"""Heating and cooling units whose use follows the weather."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, number, quantity

ConditioningKind = Literal["cooling", "heat_pump_heating", "resistance_heating", "furnace_blower"]


class Tons(Struct, tag="tons", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """Thermal capacity; electric power follows from it and the efficiency ratio."""

    tons: Annotated[
        float,
        number("Capacity, 12,000 Btu/h a ton.", ge=0.5, le=10, example=3.0, unit="ton"),
    ]


class RatedPower(Struct, tag="rated", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """Electric power while it runs."""

    kw: Annotated[
        float, quantity("kW", "Electric power while it runs.", ge=0.05, le=30, example=2.9)
    ]


class Conditioning(Struct, forbid_unknown_fields=True, kw_only=True):
    """One unit that heats or cools by the outdoor temperature."""

    kind: Annotated[ConditioningKind, choice("What it does.", example="cooling")]
    size: Annotated[
        Tons | RatedPower,
        Meta(description="Its size.", examples=[{"kind": "tons", "tons": 3.0}]),
    ]
    eer: (
        Annotated[
            float,
            number(
                "Btu moved a watt hour at its design temperature: the energy efficiency ratio of "
                "cooling, heat over energy of a heat pump in the cold.",
                ge=5,
                le=30,
                example=12.4,
                unit="Btu/(W h)",
            ),
        ]
        | None
    ) = None
    indoor: (
        Annotated[
            float,
            quantity("degF", "Indoor set-point.", ge=50, le=90, example=76.0),
        ]
        | None
    ) = None
    design: (
        Annotated[
            float,
            quantity(
                "degF",
                "Outdoor design temperature it was sized for; absent: the typical year's own "
                "percentile, which lies low.",
                ge=-40,
                le=130,
                example=108.0,
            ),
        ]
        | None
    ) = None
    extreme: (
        Annotated[
            float,
            quantity(
                "degF",
                "Hottest (heating: coldest) outdoor temperature of many years, for the heat-wave "
                "reading; absent: the typical year's own extreme.",
                ge=-60,
                le=140,
                example=118.0,
            ),
        ]
        | None
    ) = None
    tier: Annotated[
        Literal["critical", "normal", "comfort"],
        choice("Tier of the unit.", example="comfort"),
    ] = "critical"
    volts: Annotated[
        Literal[120, 240], Meta(description="Voltage of its breaker.", examples=[240])
    ] = 240
