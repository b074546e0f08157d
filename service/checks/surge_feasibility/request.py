"""What the surge-feasibility check takes."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.check import FieldError
from service.facts import Circuit, Motor, Reference, motor_refusals
from service.quantities.fields import choice, number, quantity, text


class SurgeRating(Struct, forbid_unknown_fields=True, kw_only=True):
    """Amps that one unit gives for so long, as its data sheet prints them."""

    seconds: Annotated[
        float, quantity("s", "How long it gives them.", ge=0.02, le=3600, example=10.0)
    ]
    amps: Annotated[
        float, quantity("A", "Amps at the unit's volts.", ge=0.5, le=2000, example=37.5)
    ]


class Inverter(Struct, forbid_unknown_fields=True, kw_only=True):
    """One battery inverter by its data sheet, and how many of them."""

    continuous_a: Annotated[
        float,
        quantity("A", "Continuous amps of one unit at its volts.", ge=0.5, le=1000, example=25.0),
    ]
    surge: (
        Annotated[
            list[SurgeRating],
            Meta(
                description="Ratings above continuous; absent: not known, and none is counted.",
                min_length=1,
                max_length=4,
                examples=[[{"seconds": 0.4, "amps": 62}, {"seconds": 10, "amps": 37.5}]],
            ),
        ]
        | None
    ) = None
    volts: Annotated[
        Literal[120, 240], choice("Its volts; 240: split-phase, 120/240 V.", example=240)
    ] = 240
    count: Annotated[int, Meta(ge=1, le=20, description="Units side by side.", examples=[1])] = 1
    surge_sharing_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Part of a unit's surge that every further unit adds, by its maker; absent: none.",
                ge=0,
                le=100,
                example=90.0,
            ),
        ]
        | None
    ) = None
    beyond_rating: Annotated[
        Literal["folds_back", "trips"] | None,
        choice(
            "What it does beyond its ratings, by its maker: lets the volts sag, or shuts down; "
            "absent: not known.",
            example="folds_back",
        ),
    ] = None
    resistance_ohm: (
        Annotated[
            float, number("Output resistance of one unit.", ge=0, le=5, example=0.02, unit="ohm")
        ]
        | None
    ) = None
    reactance_ohm: (
        Annotated[
            float, number("Output reactance of one unit.", ge=0, le=5, example=0.05, unit="ohm")
        ]
        | None
    ) = None
    trip_percent: (
        Annotated[
            float,
            quantity(
                "%", "Volts below which it shuts down, of its own.", ge=10, le=90, example=50.0
            ),
        ]
        | None
    ) = None
    trip_seconds: (
        Annotated[
            float,
            quantity("s", "Time below them until it does.", ge=0.01, le=10, example=0.16),
        ]
        | None
    ) = None
    battery_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Most power that the batteries of one unit sustain, at its AC side.",
                ge=0.1,
                le=500,
                example=7.0,
            ),
        ]
        | None
    ) = None


class RunningLoad(Struct, forbid_unknown_fields=True, kw_only=True):
    """A load that runs already when the motor starts."""

    name: Annotated[str, text("What it is.", example="lights and plugs", max_length=60)]
    watts: Annotated[
        float, quantity("W", "Its power while it runs.", ge=0, le=50_000, example=600.0)
    ]
    power_factor: (
        Annotated[float, number("Its power factor, lagging.", ge=0.1, le=1, example=0.97)] | None
    ) = None
    circuit: Circuit = "one_leg"
    nature: Annotated[
        Literal["constant_impedance", "constant_power"] | None,
        choice(
            "Heaters and motors give way as the volts sag, electronics take the more amps; absent: "
            "the worse of both.",
            example="constant_power",
        ),
    ] = None
    life_support: Annotated[
        bool,
        Meta(description="Whether life or health hangs on it.", examples=[False]),
    ] = False


class Transfer(Struct, forbid_unknown_fields=True, kw_only=True):
    """How the backed-up circuits come to the battery."""

    kind: Annotated[
        Literal["automatic", "manual"], choice("By itself, or by hand.", example="automatic")
    ]
    connected_load_va: (
        Annotated[
            float,
            quantity(
                "VA",
                "Calculated load of everything behind it.",
                ge=0,
                le=500_000,
                example=9000,
            ),
        ]
        | None
    ) = None
    managed_load_va: (
        Annotated[
            float,
            quantity(
                "VA",
                "Set-point of listed load management; absent: there is none.",
                ge=0,
                le=500_000,
                example=5500,
            ),
        ]
        | None
    ) = None
    sheds_for_starts: Annotated[
        bool,
        Meta(
            description="Whether listed load control takes other loads off before a motor starts.",
            examples=[False],
        ),
    ] = False


class SurgeFeasibilityRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """Motors, an inverter and what runs beside them, to learn whether they start."""

    reference: Reference | None = None
    inverter: Annotated[
        Inverter,
        Meta(
            description="The battery inverter.",
            examples=[{"continuous_a": 25, "surge": [{"seconds": 10, "amps": 37.5}]}],
        ),
    ]
    motors: Annotated[
        list[Motor],
        Meta(
            description="Motors that are to start; an empty list: only what is steady is judged.",
            max_length=6,
            examples=[[{"id": "condenser", "kind": "compressor_scroll", "locked_rotor_a": 77}]],
        ),
    ]
    running: (
        Annotated[
            list[RunningLoad],
            Meta(
                description="Loads that run already; absent: not known.",
                max_length=40,
                examples=[[{"name": "lights and plugs", "watts": 600}]],
            ),
        ]
        | None
    ) = None
    transfer: Annotated[
        Transfer | None,
        Meta(
            description="How the backed-up circuits are transferred; absent: not known.",
            examples=[{"kind": "automatic", "connected_load_va": 9000}],
        ),
    ] = None
    confirmed_rules: Annotated[
        list[Literal["backed-up-capacity"]],
        Meta(
            description="Rules that a licensed person confirmed as adopted at the place; a pass "
            "against one of them stands on that word.",
            max_length=1,
            examples=[["backed-up-capacity"]],
        ),
    ] = []


def refusals(request: SurgeFeasibilityRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    found = motor_refusals(request.motors, "/motors")
    ratings = request.inverter.surge or []
    amps = [rating.amps for rating in ratings]
    seconds = [rating.seconds for rating in ratings]
    for index in range(1, len(ratings)):
        if seconds[index] <= seconds[index - 1] or amps[index] >= amps[index - 1]:
            words = "List the ratings by time: each longer than the one before, with fewer amps."
            found.append((f"/inverter/surge/{index}", words))
    if ratings and amps[-1] < request.inverter.continuous_a:
        words = "A surge rating is no less than the continuous amps."
        found.append((f"/inverter/surge/{len(ratings) - 1}/amps", words))
    if request.inverter.volts == 120:
        both = [i for i, motor in enumerate(request.motors) if motor.circuit == "both_legs"]
        words = "A 120 V inverter gives no 240 V: say leg_1, or state the volts of the inverter."
        found += [(f"/motors/{index}/circuit", words) for index in both]
    return [FieldError(*row) for row in found]
