"""What is planned beside the battery, and how it is set."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.fact import FactCoarse, FactOneOf, FactRange, FactUnknown, fact
from service.facts.generator import GeneratorSet
from service.facts.run import Terminals
from service.facts.solar import Restart, Solar
from service.facts.transfer import Transfer
from service.quantities.fields import choice, quantity

#: Coarse answers on the charge kept [%]. Standing: common practice, no source.
CHARGES = {"mostly_empty": (0.0, 25.0), "about_half": (35.0, 65.0), "mostly_full": (75.0, 100.0)}


_Percent = Annotated[
    float, quantity("%", "Percent of the usable energy.", ge=0, le=100, example=60.0)
]


class LoadControl(Struct, forbid_unknown_fields=True, kw_only=True):
    """Listed load control that sheds tiers by itself, by state of charge."""

    comfort_shed_percent: Annotated[
        float,
        quantity("%", "Charge at or below which comfort loads go.", ge=0, le=100, example=50.0),
    ]
    normal_shed_percent: Annotated[
        float,
        quantity("%", "Charge at or below which normal loads go.", ge=0, le=100, example=25.0),
    ]
    hysteresis_percent: Annotated[
        float,
        quantity("%", "Charge above that at which they come back.", ge=1, le=50, example=10.0),
    ]


class Equipment(Struct, forbid_unknown_fields=True, kw_only=True):
    """What is planned beside the battery, and how it is set."""

    reserve_percent: Annotated[
        _Percent
        | FactRange[_Percent]
        | FactOneOf[_Percent]
        | FactCoarse[Literal["mostly_empty", "about_half", "mostly_full"]]
        | FactUnknown
        | None,
        fact(
            "Charge always kept for outages, for every candidate that states none of its own.",
            ask_by="telephone",
            question="Which charge is the battery to keep for outages, in percent?",
            who="owner",
            example=60.0,
            coarse=CHARGES,
        ),
    ] = None
    load_control: Annotated[
        LoadControl | None,
        Meta(
            description="Listed load control, if planned; absent: nothing is shed by itself.",
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
            "What happens above the inverter's continuous power: whole tiers are shed, or the "
            "excess alone goes unserved.",
            example="shed_tiers",
        ),
    ] = None
    solar: Annotated[
        Solar | None,
        Meta(
            description="Solar that is there or planned; absent: none.",
            examples=[{"arrays": [{"dc_kw": 5.0, "tilt": 20, "azimuth": 180, "coupling": "ac"}]}],
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
            examples=[{"rated_kw": 7.0, "fuel": {"kind": "liquid", "fuel": "propane", "tank": 8}}],
        ),
    ] = None
    transfer: Annotated[
        Transfer | None,
        Meta(
            description="How the backed-up circuits come to the battery; absent: not known.",
            examples=[{"kind": "automatic", "connected_load_va": 9000}],
        ),
    ] = None
    terminals: Annotated[
        Terminals | None,
        Meta(
            description="Terminals of the circuit from each unit to the panel; absent: not known.",
            examples=[{"near": {"marked": 75}, "far": {"marked": 75}}],
        ),
    ] = None
