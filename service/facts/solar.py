"""Solar arrays as the caller describes them."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.quantities.fields import choice, number, quantity

Coupling = Literal["ac", "dc"]

_Shade = Annotated[
    float, quantity("%", "Part of the sun that shade takes.", ge=0, le=100, example=5.0)
]


class SolarArray(Struct, forbid_unknown_fields=True, kw_only=True):
    """Modules in one plane, and the inverter behind them."""

    dc_kw: Annotated[
        float,
        quantity("kW", "Rated DC power of the modules.", ge=0, le=1000, example=5.0),
    ]
    tilt: Annotated[
        float, number("Tilt from the horizontal.", ge=0, le=90, example=20.0, unit="deg")
    ]
    azimuth: Annotated[
        float,
        number(
            "Direction it faces, clockwise from north: 180 is south.",
            ge=0,
            le=360,
            example=180.0,
            unit="deg",
        ),
    ]
    coupling: Annotated[
        Coupling,
        choice(
            "ac: behind an inverter of its own on the AC bus; dc: on the battery's DC side.",
            example="ac",
        ),
    ]
    inverter_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "AC power of its inverter, or DC power its charge controller takes; absent: "
                "rated DC power over 1.3.",
                ge=0.05,
                le=1000,
                example=3.8,
            ),
        ]
        | None
    ) = None
    shading_percent: Annotated[
        _Shade | Annotated[list[_Shade], Meta(min_length=12, max_length=12)] | None,
        Meta(
            description="Part of the sun that shade takes, of the year or of the twelve months "
            "from January; absent: none, and asked.",
            examples=[5.0],
        ),
    ] = None


class Solar(Struct, forbid_unknown_fields=True, kw_only=True):
    """The solar that is there or planned, and how it behaves in an outage."""

    arrays: Annotated[
        list[SolarArray],
        Meta(
            description="Arrays, one plane each.",
            min_length=1,
            max_length=6,
            examples=[[{"dc_kw": 5.0, "tilt": 20, "azimuth": 180, "coupling": "ac"}]],
        ),
    ]
    backed_up: Annotated[
        bool | None,
        Meta(
            description="Whether it is connected on the backed-up side of the transfer; if not, "
            "it is dark in an outage. Absent: taken as not.",
            examples=[True],
        ),
    ] = None
    system_losses_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Soiling, mismatch, wiring, age and the like, without shade and inverter.",
                ge=0,
                le=60,
                example=14.0,
            ),
        ]
        | None
    ) = None
    temperature_coefficient: (
        Annotated[
            float,
            number("Power lost per kelvin above 25 degC.", ge=0, le=1, example=0.4, unit="%/K"),
        ]
        | None
    ) = None
    yield_factor: (
        Annotated[
            float,
            number(
                "Multiple of the typical year's sun; 1: the data as they stand.",
                ge=0.2,
                le=2,
                example=1.0,
            ),
        ]
        | None
    ) = None


class NoRestart(Struct, tag="none", tag_field="mode", forbid_unknown_fields=True, kw_only=True):
    """Once the battery has run down it stays dark until the grid is back."""


class BlackStart(
    Struct, tag="pv_black_start", tag_field="mode", forbid_unknown_fields=True, kw_only=True
):
    """Sun on the AC bus brings the bus back."""

    least_kw: Annotated[
        float,
        quantity(
            "kW", "Least solar power that it takes, as its maker says.", ge=0, le=100, example=0.5
        ),
    ]
    wait: Annotated[
        float,
        quantity("min", "Time that power must have lasted.", ge=0, le=120, example=5.0),
    ]


class DcRestart(
    Struct, tag="dc_restart", tag_field="mode", forbid_unknown_fields=True, kw_only=True
):
    """Sun on the DC side charges the battery with the loads off, until the bus is turned on."""

    restart_charge_percent: Annotated[
        float,
        quantity(
            "%",
            "Charge at which the bus is turned on, as its maker says.",
            ge=1,
            le=100,
            example=15.0,
        ),
    ]


#: What happens after the battery has run down to its floor and the bus is lost.
Restart = NoRestart | BlackStart | DcRestart


def with_sun_backed_up(solar: Solar, value: bool) -> Solar:
    """Return the solar as one that stands on the backed-up side, or does not."""
    return replace(solar, backed_up=value)
