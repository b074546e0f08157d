"""A generator as what starts motors and carries what runs: its rating and its stiffness."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Struct

from service.quantities.fields import choice, quantity


class GeneratorSource(Struct, forbid_unknown_fields=True, kw_only=True):
    """A generator as far as it bears on motors: rating, reactance, how it joins."""

    rated_kw: Annotated[
        float, quantity("kW", "Rated power on the fuel it burns.", ge=0.5, le=200, example=12.0)
    ]
    rated_kva: (
        Annotated[
            float,
            quantity("kVA", "Rated kVA; absent: as many as kW.", ge=0.5, le=250, example=12.0),
        ]
        | None
    ) = None
    volts: Annotated[
        Literal[120, 240], choice("Its volts; 240: split-phase, 120/240 V.", example=240)
    ] = 240
    transient_reactance_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Direct-axis transient reactance of its alternator, saturated, by its data sheet, "
                "on its rated kVA.",
                ge=2,
                le=100,
                example=20.0,
            ),
        ]
        | None
    ) = None
    connection: Annotated[
        Literal["inverter_input", "transfer_switch", "parallel"] | None,
        choice(
            "inverter_input: listed input of the battery's inverter, it starts no motor itself; "
            "transfer_switch: it carries the home without the battery; parallel: beside the "
            "inverter, as both are listed for. Absent: unknown.",
            example="transfer_switch",
        ),
    ] = None


def generator_source_refusals(generator: GeneratorSource, pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between its fields that is broken."""
    if generator.rated_kva is not None and generator.rated_kva < generator.rated_kw:
        return [(f"{pointer}/rated_kva", "Rated kVA are no fewer than rated kW.")]
    return []
