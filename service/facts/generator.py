"""A generator that may join the battery in an outage."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.facts.loads import Window
from service.quantities.fields import choice, number, quantity

#: Least distance of the charges at which a generator starts and stops [%]: own choice; nearer to
#: each other it would start many times an hour.
LEAST_BAND_PERCENT = 5.0
QualityClass = Literal["g1", "g2", "g3"]


class LiquidFuel(Struct, tag="liquid", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """Fuel from a tank."""

    fuel: Annotated[
        Literal["gasoline", "diesel", "propane"], choice("Which fuel.", example="propane")
    ]
    full_load_gal_per_hour: (
        Annotated[
            float,
            number("Use at full load.", ge=0.01, le=100, example=1.5, unit="gal/h"),
        ]
        | None
    ) = None
    half_load_gal_per_hour: (
        Annotated[
            float,
            number("Use at half load.", ge=0.01, le=100, example=0.95, unit="gal/h"),
        ]
        | None
    ) = None
    tank: Annotated[
        float, quantity("gal", "Fuel at hand when the outage starts.", ge=0, le=5000, example=8)
    ]
    refills: Annotated[
        int,
        Meta(
            ge=0,
            le=100,
            description="How often somebody refills the tank in the outage.",
            examples=[0],
        ),
    ] = 0


class PipedGas(Struct, tag="piped_gas", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """Natural gas from the utility, as long as the utility delivers it."""

    full_load_ft3_per_hour: (
        Annotated[
            float,
            number("Use at full load.", ge=1, le=5000, example=150.0, unit="ft3/h"),
        ]
        | None
    ) = None
    half_load_ft3_per_hour: (
        Annotated[
            float,
            number("Use at half load.", ge=1, le=5000, example=95.0, unit="ft3/h"),
        ]
        | None
    ) = None


class GeneratorSet(Struct, forbid_unknown_fields=True, kw_only=True):
    """A generator, when it starts and stops, and what it burns."""

    rated_kw: Annotated[
        float, quantity("kW", "Rated power on the fuel it burns.", ge=0.1, le=200, example=7.0)
    ]
    fuel: Annotated[
        LiquidFuel | PipedGas,
        Meta(
            description="What it burns.",
            examples=[{"kind": "liquid", "fuel": "propane", "tank": 8}],
        ),
    ]
    connection: Annotated[
        Literal["inverter_input", "transfer_switch"] | None,
        choice(
            "inverter_input: listed input of the battery's inverter, charges it and shares the "
            "load; transfer_switch: it carries the home without the battery. Absent: unknown.",
            example="inverter_input",
        ),
    ] = None
    start_percent: (
        Annotated[
            float,
            quantity("%", "Charge at or below which it starts.", ge=0, le=95, example=25.0),
        ]
        | None
    ) = None
    stop_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Charge at or above which it stops, five points above the floor at least.",
                ge=5,
                le=100,
                example=85.0,
            ),
        ]
        | None
    ) = None
    charge_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Largest power at which it charges; absent: the battery's own.",
                ge=0,
                le=200,
                example=3.0,
            ),
        ]
        | None
    ) = None
    usable_part: (
        Annotated[
            float,
            number("Part of the rated power that is used.", ge=0.1, le=1, example=0.8),
        ]
        | None
    ) = None
    quiet_hours: (
        Annotated[
            list[Window],
            Meta(
                description="Hours of the day in which it must not run; absent: none.",
                min_length=1,
                max_length=4,
                examples=[[{"start_hour": 22, "end_hour": 7}]],
            ),
        ]
        | None
    ) = None
    quality_class: Annotated[
        QualityClass | None,
        choice("Performance class of ISO 8528-5 on its data sheet.", example="g2"),
    ] = None
    voltage_distortion_percent: (
        Annotated[
            float,
            quantity("%", "Total harmonic distortion of its voltage.", ge=0, le=50, example=4.0),
        ]
        | None
    ) = None


def generator_refusals(generator: GeneratorSet | None, pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the fields of a generator that is broken."""
    if generator is None:
        return []
    found = []
    start, stop = generator.start_percent, generator.stop_percent
    if start is not None and stop is not None and stop < start + LEAST_BAND_PERCENT:
        words = f"Let it stop at least {LEAST_BAND_PERCENT:g} points above the charge it starts at."
        found.append((f"{pointer}/stop_percent", words))
    fuel = generator.fuel
    names = (
        ("full_load_gal_per_hour", "half_load_gal_per_hour")
        if isinstance(fuel, LiquidFuel)
        else ("full_load_ft3_per_hour", "half_load_ft3_per_hour")
    )
    full, half = (getattr(fuel, name) for name in names)
    if full is not None and half is not None and not half <= full <= 2 * half:
        found.append(
            (
                f"{pointer}/fuel/{names[1]}",
                "Use at half load lies between half of the use at full load and all of it.",
            )
        )
    return found


def with_connection(
    generator: GeneratorSet, value: Literal["inverter_input", "transfer_switch"]
) -> GeneratorSet:
    """Return the generator with another connection."""
    return replace(generator, connection=value)
