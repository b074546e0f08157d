"""What the surge-feasibility check takes."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
from msgspec import Meta, Struct
from msgspec.structs import replace

from service.check import FieldError
from service.facts import (
    Circuit,
    ConfirmedRules,
    GeneratorSource,
    HeatDerating,
    Inverter,
    Motor,
    PermitDate,
    Reference,
    StateCode,
    Transfer,
    generator_source_refusals,
    heat_refusals,
    inverter_refusals,
    motor_refusals,
)
from service.quantities.fields import choice, number, quantity, text


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


class SurgeFeasibilityRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """Motors, an inverter and what runs beside them, to learn whether they start."""

    reference: Reference | None = None
    inverter: Annotated[
        Inverter | None,
        Meta(
            description="The battery inverter; absent: the generator carries the home alone.",
            examples=[{"continuous_a": 25, "surge": [{"seconds": 10, "amps": 37.5}]}],
        ),
    ] = None
    generator: Annotated[
        GeneratorSource | None,
        Meta(
            description="Generator that may join or carry the home alone; absent: none.",
            examples=[{"rated_kw": 12, "connection": "transfer_switch"}],
        ),
    ] = None
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
    heat_derating: Annotated[
        HeatDerating | None,
        Meta(
            description="What heat leaves of the inverter's power on the hottest days; absent: "
            "nothing is taken off beyond its own derating.",
            examples=[{"power_percent_low": 62, "power_percent_high": 80}],
        ),
    ] = None
    state: StateCode | None = None
    permit_date: PermitDate | None = None
    confirmed_rules: ConfirmedRules = []


def refusals(request: SurgeFeasibilityRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    found = motor_refusals(request.motors, "/motors")
    inverter, generator = request.inverter, request.generator
    if inverter is None and generator is None:
        found.append(("/inverter", "State the inverter, or the generator that carries it alone."))
    if inverter is not None:
        found += inverter_refusals(inverter, "/inverter")
    found += heat_refusals(request.heat_derating, "/heat_derating")
    if inverter is None and request.heat_derating is not None:
        words = "It speaks of the inverter: state the inverter, or leave the heat away."
        found.append(("/heat_derating", words))
    if generator is not None:
        found += generator_source_refusals(generator, "/generator")
    planned = inverter or generator
    if planned is not None and planned.volts == 120:
        both = [i for i, motor in enumerate(request.motors) if motor.circuit == "both_legs"]
        words = "A source of 120 V gives no 240 V: say leg_1, or state the volts of the source."
        found += [(f"/motors/{index}/circuit", words) for index in both]
    if (
        inverter is not None
        and generator is not None
        and generator.connection == "parallel"
        and inverter.volts != generator.volts
    ):
        words = "Inverter and generator run side by side at the same volts."
        found.append(("/generator/volts", words))
    return [FieldError(*row) for row in found]


def with_less(
    request: SurgeFeasibilityRequest, continuous: float, surge: float
) -> SurgeFeasibilityRequest:
    """Return the request with parts of the inverter's continuous and surge ratings [1]."""
    inverter = request.inverter
    if inverter is None:
        return replace(request, heat_derating=None)

    def part(value: float | None, left: float) -> float | None:
        return None if value is None else value * left

    less = replace(
        inverter,
        continuous_a=part(inverter.continuous_a, continuous),
        continuous_kw=part(inverter.continuous_kw, continuous),
        leg_a=part(inverter.leg_a, continuous),
        surge=None
        if inverter.surge is None
        else [
            replace(one, amps=part(one.amps, surge), kva=part(one.kva, surge))
            for one in inverter.surge
        ],
    )
    return replace(request, inverter=less, heat_derating=None)


def starting(request: SurgeFeasibilityRequest) -> bytes:
    """Return what the starts hang on: requests that differ in the heat stated alone are alike."""
    return msgspec.json.encode(replace(request, heat_derating=None, reference=None))
