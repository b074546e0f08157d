"""What the outage-runtime check takes."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.facts import (
    Battery,
    Climate,
    Conditioning,
    DarkAllowed,
    GeneratorSet,
    HeatDeratingWithEnergy,
    HomeClass,
    IntervalWatts,
    Load,
    LoadControl,
    MedicalPlan,
    Reference,
    Restart,
    Season,
    Solar,
    StartHour,
    StartsCarriedPercent,
    filled,
)
from service.quantities.fields import choice, number, quantity


class LoadsUse(Struct, tag="loads", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """The chosen loads, one row each."""

    rows: Annotated[
        list[Load],
        Meta(
            description="The loads that are to run in an outage.",
            min_length=1,
            max_length=60,
            examples=[[{"kind": "catalogue", "appliance": "refrigerator"}]],
        ),
    ]


_HourWatts = Annotated[
    list[
        Annotated[float, quantity("W", "Mean watts of the hour.", ge=0, le=100_000, example=350.0)]
    ],
    Meta(
        description="Mean watts of each hour of the day, from midnight.",
        min_length=24,
        max_length=24,
        examples=[[250.0] * 17 + [600.0] * 5 + [250.0] * 2],
    ),
]


class DayProfileUse(
    Struct, tag="day_profile", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A day of hourly means by tier; it serves energy, never the power check."""

    critical: _HourWatts
    normal: _HourWatts | None = None
    comfort: _HourWatts | None = None
    low_factor: (
        Annotated[float, number("Low use as a part of it.", ge=0.1, le=1, example=0.8)] | None
    ) = None
    high_factor: (
        Annotated[float, number("High use as a multiple of it.", ge=1, le=5, example=1.2)] | None
    ) = None
    life_support: Annotated[
        bool, Meta(description="Whether somebody's life or health hangs on it.", examples=[False])
    ] = False


_MonthKwh = Annotated[
    float, quantity("kWh", "Energy billed in a month.", ge=1, le=20_000, example=700.0)
]


class MonthlyUse(
    Struct, tag="monthly_kwh", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """No more than the bill; it serves energy, never the power check, never a pass alone."""

    monthly_kwh: Annotated[
        _MonthKwh | Annotated[list[_MonthKwh], Meta(min_length=12, max_length=12)],
        Meta(
            description="Energy of an average month, or of the twelve months from January.",
            examples=[700.0],
        ),
    ]
    home_class: Annotated[
        HomeClass | None,
        choice(
            "Class of home whose day shape is scaled to the bill.", example="inland_single_family"
        ),
    ] = None
    share_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Part of the home's energy that the backed-up circuits take; absent: all of it.",
                ge=1,
                le=100,
                example=100.0,
            ),
        ]
        | None
    ) = None
    life_support: Annotated[
        bool, Meta(description="Whether somebody's life or health hangs on it.", examples=[False])
    ] = False


class IntervalProfileUse(
    Struct, tag="interval_profile", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A year of the home's own metered use, as load-profile hands it back.

    It serves energy, never the power check.
    """

    watts: IntervalWatts
    share_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Part of the home's energy that the backed-up circuits take; absent: all of it.",
                ge=1,
                le=100,
                example=35.0,
            ),
        ]
        | None
    ) = None
    low_factor: (
        Annotated[float, number("Low use as a part of it.", ge=0.1, le=1, example=0.8)] | None
    ) = None
    high_factor: (
        Annotated[float, number("High use as a multiple of it.", ge=1, le=5, example=1.2)] | None
    ) = None
    life_support: Annotated[
        bool, Meta(description="Whether somebody's life or health hangs on it.", examples=[False])
    ] = False


class OutageRuntimeRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """A homeowner's wishes and a battery, to learn how long the chosen loads run."""

    reference: Reference | None = None
    use: Annotated[
        LoadsUse | DayProfileUse | MonthlyUse | IntervalProfileUse,
        Meta(
            description="What draws power: chosen loads, a day profile, the bill, or the home's "
            "own metered year.",
            examples=[
                {"kind": "loads", "rows": [{"kind": "catalogue", "appliance": "refrigerator"}]}
            ],
        ),
    ]
    battery: Annotated[
        Battery,
        Meta(
            description="The battery units.",
            examples=[{"energy": {"kind": "usable", "kwh": 12.0}, "continuous_kw": 5.0}],
        ),
    ]
    target_hours: (
        Annotated[
            float,
            quantity(
                "h", "Hours the loads must run; absent: no verdict.", ge=0.25, le=336, example=24.0
            ),
        ]
        | None
    ) = None
    target_tier: Annotated[
        Literal["critical", "normal", "comfort"] | None,
        choice("Lowest tier that must still run at the target.", example="critical"),
    ] = None
    start_hour: StartHour | None = None
    season: Annotated[
        Season | None, choice("Season of the outage; absent: the worse one.", example="summer")
    ] = None
    load_control: Annotated[
        LoadControl | None,
        Meta(
            description="Listed load control, if there is one; absent: nothing is shed by itself.",
            examples=[
                {
                    "comfort_shed_percent": 50.0,
                    "normal_shed_percent": 25.0,
                    "hysteresis_percent": 10.0,
                }
            ],
        ),
    ] = None
    power_limit_rule: Annotated[
        Literal["shed_tiers", "proportional"] | None,
        choice(
            "What happens above the inverter's continuous power: whole tiers are shed where load "
            "control can (otherwise it may trip), or the excess alone goes unserved.",
            example="shed_tiers",
        ),
    ] = None
    medical_plan: Annotated[
        MedicalPlan | None,
        Meta(
            description="Plan behind the battery where a load is marked as life support.",
            examples=[{"utility_programme": True, "second_plan": True}],
        ),
    ] = None
    climate: Annotated[
        Climate | None,
        Meta(
            description="Where the weather comes from; needed by solar, heating and cooling.",
            examples=[
                {
                    "kind": "point",
                    "latitude": 33.75,
                    "longitude": -116.36,
                    "elevation": 246,
                    "terrain": "low_desert",
                }
            ],
        ),
    ] = None
    solar: Annotated[
        Solar | None,
        Meta(
            description="Solar that may help in an outage; absent: none.",
            examples=[
                {
                    "arrays": [{"dc_kw": 5.0, "tilt": 20, "azimuth": 180, "coupling": "ac"}],
                    "backed_up": True,
                }
            ],
        ),
    ] = None
    restart: Annotated[
        Restart | None,
        Meta(
            description="What happens at the floor; absent: dark until the grid is back.",
            examples=[{"mode": "none"}],
        ),
    ] = None
    generator: Annotated[
        GeneratorSet | None,
        Meta(
            description="Generator that may join; absent: none.",
            examples=[
                {
                    "rated_kw": 7.0,
                    "fuel": {"kind": "liquid", "fuel": "propane", "tank": 8},
                    "connection": "inverter_input",
                }
            ],
        ),
    ] = None
    conditioning: (
        Annotated[
            list[Conditioning],
            Meta(
                description="Heating and cooling units whose use follows the weather.",
                min_length=1,
                max_length=4,
                examples=[[{"kind": "cooling", "size": {"kind": "tons", "tons": 3.0}}]],
            ),
        ]
        | None
    ) = None
    outdoor_offset: (
        Annotated[
            float,
            number(
                "Degrees that it is hotter at the home than at its climate site, for heating and "
                "cooling; absent: none, and the error of the site's distance is held against.",
                ge=-30,
                le=30,
                example=0.0,
                unit="degF",
            ),
        ]
        | None
    ) = None
    starts_carried_percent: StartsCarriedPercent | None = None
    dark_allowed: DarkAllowed | None = None
    heat_derating: Annotated[
        HeatDeratingWithEnergy | None,
        Meta(
            description="What heat leaves of the units' power on the hottest days; it counts in "
            "summer, and through the year where the outage is a matter of the date and no season "
            "is asked for; absent: nothing is taken off.",
            examples=[{"power_percent_low": 62, "power_percent_high": 80}],
        ),
    ] = None


def with_field(request: OutageRuntimeRequest, pointer: str, value: object) -> OutageRuntimeRequest:
    """Return the request with the field of a JSON Pointer filled in; absent parents are made.

    Losses that were not stated are a round trip, as the answer's own assumption says.
    """
    return filled(request, pointer, value, {"/battery/losses": {"kind": "round_trip"}})


def changed(request: OutageRuntimeRequest, **fields: object) -> OutageRuntimeRequest:
    """Return the request with some fields changed."""
    return replace(request, **fields)
