"""Loads that are to run: rows of the catalogue, or the caller's own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Annotated, Literal

from msgspec import Meta, Struct

from service.published.appliances import APPLIANCE_IDS
from service.published.class_day_shapes import class_ids
from service.quantities.fields import SAFE_REFERENCE, choice, number, quantity, text

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
_Volts = Annotated[
    Literal[120, 240],
    choice("Voltage of its breaker: a single one is 120 V, a double one 240 V.", example=240),
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
    volts: _Volts | None = None
    life_support: _LifeSupport | None = None


class OwnLoad(Struct, tag="own", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A load in the caller's own words and numbers."""

    name: Annotated[
        str, text("What it is; no name of a person.", example="Aquarium", max_length=80)
    ]
    watts: _Watts
    watts_low: (
        Annotated[
            float,
            quantity("W", "The least that one draws while it runs.", ge=0, le=50_000, example=90.0),
        ]
        | None
    ) = None
    watts_high: (
        Annotated[
            float,
            quantity("W", "The most that one draws while it runs.", ge=0, le=50_000, example=250.0),
        ]
        | None
    ) = None
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
    volts: _Volts | None = None
    season: _Season = "all"
    life_support: _LifeSupport = False


Load = CatalogueLoad | OwnLoad


def window_hours(windows: Iterable[tuple[float, float]]) -> float:
    """Return the hours of the day that the windows cover together [h]."""
    covered = 0.0
    reached = 0.0
    split = [
        part
        for start, end in windows
        for part in ([(start, end)] if end > start else [(start, 24.0), (0.0, end)])
    ]
    for start, end in sorted(split):
        covered += max(0.0, end - max(start, reached))
        reached = max(reached, end)
    return covered


def row_refusals(rows: Sequence[Load], pointer: str) -> list[tuple[str, str]]:
    """Return where a row's hours do not fit in its windows, or its watts are out of order."""
    errors: list[tuple[str, str]] = []
    for index, row in enumerate(rows):
        at = f"{pointer}/{index}"
        if row.windows and row.hours_per_day is not None:
            fits = window_hours([(w.start_hour, w.end_hour) for w in row.windows])
            if row.hours_per_day > fits + 1e-9:
                errors.append(
                    (
                        f"{at}/hours_per_day",
                        f"{row.hours_per_day:g} h do not fit in windows of {fits:g} h; widen "
                        "windows or lower hours_per_day",
                    )
                )
        if isinstance(row, OwnLoad):
            if row.watts_low is not None and row.watts_low > row.watts:
                errors.append((f"{at}/watts_low", "must not be above watts; lower it or omit it"))
            if row.watts_high is not None and row.watts_high < row.watts:
                errors.append((f"{at}/watts_high", "must not be below watts; raise it or omit it"))
    return errors
