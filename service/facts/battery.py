"""A battery unit as the caller describes it; no product data ship with the service."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.quantities.fields import number, quantity


class UsableEnergy(
    Struct, tag="usable", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """Energy stored in one new unit from full to its low cut-off, at the cells (DC)."""

    kwh: Annotated[
        float, quantity("kWh", "Usable energy of one new unit.", ge=0.1, le=1000, example=12.0)
    ]


class NominalEnergy(
    Struct, tag="nominal", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """Energy on the nameplate, of which only a part may be drawn."""

    kwh: Annotated[
        float, quantity("kWh", "Nominal energy of one new unit.", ge=0.1, le=1000, example=13.0)
    ]
    depth_of_discharge: (
        Annotated[float, number("Part of it that may be drawn.", ge=0.1, le=1, example=0.95)] | None
    ) = None


_Efficiency = number(
    "Efficiency as a fraction, measured on the AC side.", ge=0.3, le=1, example=0.9
)
_IdleWatts = Annotated[
    float,
    quantity(
        "W", "Draw of one unit while it is on and carries nothing.", ge=0, le=2000, example=40.0
    ),
]


class RoundTripLosses(
    Struct, tag="round_trip", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A fixed round-trip efficiency from AC to AC, and an idle draw beside it."""

    efficiency: Annotated[float, _Efficiency] | None = None
    idle_watts: _IdleWatts | None = None


class OneWayLosses(
    Struct, tag="one_way", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A fixed efficiency for each way, and an idle draw beside them."""

    charge_efficiency: Annotated[float, _Efficiency]
    discharge_efficiency: Annotated[float, _Efficiency]
    idle_watts: _IdleWatts | None = None


class PartLoadLosses(
    Struct, tag="part_load", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """An inverter curve through two points; it holds the idle draw, so none stands beside it."""

    rated_kw: Annotated[
        float, quantity("kW", "Rated AC power of one unit.", ge=0.1, le=100, example=5.0)
    ]
    efficiency_at_10_percent: Annotated[
        float, number("Efficiency at a tenth of rated power.", ge=0.85, le=0.97, example=0.92)
    ]
    efficiency_at_rated: Annotated[
        float, number("Efficiency at rated power.", ge=0.85, le=0.97, example=0.94)
    ]
    cell_efficiency: Annotated[
        float, number("One-way efficiency of the cells alone.", ge=0.5, le=1, example=0.98)
    ]


_PercentOfUsable = "Percent of the usable energy."


class Battery(Struct, forbid_unknown_fields=True, kw_only=True):
    """A battery unit as the caller describes it, and how many of them."""

    energy: Annotated[
        UsableEnergy | NominalEnergy,
        Meta(
            description="Energy of one new unit: usable, or nominal with its depth of discharge.",
            examples=[{"kind": "usable", "kwh": 12.0}],
        ),
    ]
    count: (
        Annotated[
            int,
            Meta(ge=1, le=20, description="Units installed; absent: one.", examples=[2]),
        ]
        | None
    ) = None
    continuous_kw: (
        Annotated[
            float,
            quantity("kW", "Continuous AC power of one unit.", ge=0.05, le=200, example=5.0),
        ]
        | None
    ) = None
    split_phase: Annotated[
        bool | None,
        Meta(
            description="Whether it gives 240 V beside 120 V; false: 120 V alone.", examples=[True]
        ),
    ] = None
    charge_kw: (
        Annotated[
            float,
            quantity("kW", "Charging AC power of one unit.", ge=0.05, le=200, example=5.0),
        ]
        | None
    ) = None
    losses: Annotated[
        RoundTripLosses | OneWayLosses | PartLoadLosses | None,
        Meta(
            description="How much is lost on the way; absent: the default round trip and idle.",
            examples=[{"kind": "round_trip", "efficiency": 0.9, "idle_watts": 40}],
        ),
    ] = None
    reserve_percent: (
        Annotated[
            float,
            quantity(
                "%",
                f"Charge always kept for outages. {_PercentOfUsable}",
                ge=0,
                le=100,
                example=60.0,
            ),
        ]
        | None
    ) = None
    start_charge_percent: (
        Annotated[
            float,
            quantity(
                "%",
                f"Charge when the outage starts; absent: the reserve. {_PercentOfUsable}",
                ge=0,
                le=100,
                example=80.0,
            ),
        ]
        | None
    ) = None
    floor_percent: (
        Annotated[
            float,
            quantity(
                "%",
                f"Charge at which it switches off. {_PercentOfUsable}",
                ge=0,
                le=50,
                example=5.0,
            ),
        ]
        | None
    ) = None
    ambient: (
        Annotated[
            float,
            quantity("degF", "Air temperature at the unit.", ge=14, le=131, example=77.0),
        ]
        | None
    ) = None
    age_years: (
        Annotated[
            float,
            number("Age of the unit; absent: new.", ge=0, le=30, example=0.0, unit="year"),
        ]
        | None
    ) = None
    warranty_years: (
        Annotated[float, number("Years of its warranty.", ge=1, le=30, example=10.0, unit="year")]
        | None
    ) = None
    end_of_warranty_retention: (
        Annotated[
            float,
            number(
                "Part of the new energy that is left when the warranty ends.",
                ge=0.3,
                le=1,
                example=0.7,
            ),
        ]
        | None
    ) = None


def with_reserve(battery: Battery, percent: float | None) -> Battery:
    """Return the battery with a reserve [%] where it states none of its own."""
    if battery.reserve_percent is not None or percent is None:
        return battery
    return replace(battery, reserve_percent=percent)


def with_split_phase(battery: Battery, value: bool) -> Battery:
    """Return the battery as one that gives 240 V, or does not."""
    return replace(battery, split_phase=value)


def with_warranty(battery: Battery, years: float) -> Battery:
    """Return the battery with a length of its warranty [year]."""
    return replace(battery, warranty_years=years)
