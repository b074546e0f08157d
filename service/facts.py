"""What is known of a home: facts that may be missing, chosen loads, a battery unit.

A fact is the bare value, or one object tagged ``as``: a range, one of a few values, a coarse
answer from the telephone, or unknown. Absent and null mean unknown too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Annotated, Any, Generic, Literal, TypeVar

import msgspec
from msgspec import Meta, Struct

from service.published.appliances import APPLIANCE_IDS
from service.published.class_day_shapes import class_ids
from service.quantities.fields import SAFE_REFERENCE, choice, number, quantity, text

T = TypeVar("T")

if TYPE_CHECKING:
    ApplianceId = str
    HomeClass = str
else:
    ApplianceId = Literal[APPLIANCE_IDS]
    HomeClass = Literal[class_ids()]

#: The caller's own reference, opaque to the service.
Reference = Annotated[
    str,
    text(
        "The caller's own reference, echoed in the answer; it enters no log and no digest.",
        example="lead-0042",
        max_length=64,
        pattern=SAFE_REFERENCE,
    ),
]
Tier = Literal["critical", "normal", "comfort", "shed"]
Season = Literal["summer", "winter"]


class FactRange(
    Struct, Generic[T], tag="range", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A fact known to lie between two values."""

    low: Annotated[T, Meta(description="Lowest value it may have; not above `high`.")]
    likely: Annotated[
        T | None, Meta(description="Most likely value, between the two; absent: the middle.")
    ] = None
    high: Annotated[T, Meta(description="Highest value it may have.")]


class FactOneOf(
    Struct, Generic[T], tag="one_of", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A fact known to be one of a few values."""

    values: Annotated[
        list[T], Meta(description="The values it may have.", min_length=1, max_length=12)
    ]


class FactCoarse(
    Struct, Generic[T], tag="coarse", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A coarse answer, as had by telephone: it stands for a range, never for a pass."""

    answer: Annotated[T, Meta(description="The coarse answer.")]


class FactUnknown(Struct, tag="unknown", tag_field="as", forbid_unknown_fields=True):
    """A fact that was asked and is not known."""


def fact(
    words: str,
    *,
    ask_by: Literal["telephone", "photo", "visit", "recording", "record"],
    question: str,
    who: Literal["owner", "installer", "utility", "maker"],
    example: Any,
    coarse: Mapping[str, Sequence[float]] | None = None,
    photo: str | None = None,
) -> Meta:
    """Declare a site fact: how it is asked, by whom it is answered, what coarse answers mean.

    `coarse` maps an accepted coarse answer to the low and high value it stands for.
    """
    shown: dict[str, Any] = {"x-ask-by": ask_by, "x-question": question, "x-who-answers": who}
    if coarse:
        shown["x-coarse-answers"] = {name: list(ends) for name, ends in coarse.items()}
    if photo:
        shown["x-photograph"] = photo
    return Meta(
        description=words, examples=[example], extra={"fact": shown}, extra_json_schema=shown
    )


class Window(Struct, forbid_unknown_fields=True, kw_only=True):
    """Hours of the day in which a load runs; an end before the start wraps past midnight."""

    start_hour: Annotated[
        float, number("Local hour it starts.", ge=0, le=23.75, example=17.0, unit="h")
    ]
    end_hour: Annotated[
        float, number("Local hour it ends.", ge=0.25, le=24, example=23.0, unit="h")
    ]


_Watts = Annotated[
    float, quantity("W", "Running watts of one piece.", ge=0, le=50_000, example=150.0)
]
_Duty = Annotated[
    float,
    number("Share of its hours in which it really draws.", ge=0, le=1, example=0.33),
]
_Hours = Annotated[
    float, quantity("h", "Hours a day in which it is in use.", ge=0, le=24, example=5.0)
]
_Windows = Annotated[
    list[Window],
    Meta(
        description="Hours of the day in which it runs; absent: the catalogue's, or all day.",
        min_length=1,
        max_length=4,
        examples=[[{"start_hour": 17, "end_hour": 23}]],
    ),
]
_Quantity = Annotated[int, Meta(ge=1, le=100, description="How many of them.", examples=[1])]
_Tier = Annotated[
    Tier,
    choice(
        "critical is never shed; normal and comfort go where load control sheds them; shed is off "
        "from the first second.",
        example="critical",
    ),
]
_Season = Annotated[
    Literal["all", "summer", "winter"],
    choice("Season in which it runs.", example="all"),
]
_LifeSupport = Annotated[
    bool,
    Meta(description="Whether somebody's life or health hangs on it.", examples=[False]),
]


class CatalogueLoad(
    Struct, tag="catalogue", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """A load by its id in the appliance catalogue, with what is known better."""

    appliance: Annotated[
        ApplianceId,
        choice("Id in /v1/reference/appliances.", example="refrigerator"),
    ]
    quantity: _Quantity = 1
    watts: _Watts | None = None
    hours_per_day: _Hours | None = None
    duty: _Duty | None = None
    windows: _Windows | None = None
    tier: _Tier | None = None
    life_support: _LifeSupport | None = None


class OwnLoad(Struct, tag="own", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A load in the caller's own words and numbers."""

    name: Annotated[
        str, text("What it is; no name of a person.", example="Aquarium", max_length=80)
    ]
    watts: _Watts
    watts_low: _Watts | None = None
    watts_high: _Watts | None = None
    starting_watts: (
        Annotated[
            float,
            quantity("W", "Watts while it starts.", ge=0, le=200_000, example=1200.0),
        ]
        | None
    ) = None
    quantity: _Quantity = 1
    hours_per_day: _Hours = 24.0
    duty: _Duty = 1.0
    windows: _Windows | None = None
    tier: _Tier = "normal"
    season: _Season = "all"
    life_support: _LifeSupport = False


Load = CatalogueLoad | OwnLoad


class UsableEnergy(
    Struct, tag="usable", tag_field="kind", forbid_unknown_fields=True, kw_only=True
):
    """Energy one new unit gives from full to its low cut-off."""

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

    efficiency: Annotated[float, _Efficiency]
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


def fact_field(struct: type[Struct], name: str) -> Mapping[str, Any] | None:
    """Return what `fact` declared for a field of the struct, None where it is no fact."""
    for field in msgspec.inspect.type_info(struct).fields:  # type: ignore[union-attr]
        if field.name == name and isinstance(field.type, msgspec.inspect.Metadata):
            extra = field.type.extra or {}
            shown = extra.get("fact")
            return shown if isinstance(shown, Mapping) else None
    return None
