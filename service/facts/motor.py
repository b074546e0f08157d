"""A motor as far as it is known: from its nameplate, from a telephone call, from its maker."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.quantities.fields import SAFE_REFERENCE, choice, number, quantity, text

MotorKindId = Literal[
    "compressor_scroll",
    "compressor_reciprocating",
    "well_pump",
    "sump_pump",
    "pool_pump",
    "refrigerator",
    "garage_door",
    "furnace_blower",
    "drive_fed",
    "other",
]
Letter = Literal[
    "A", "B", "C", "D", "E", "F", "G", "H", "J", "K", "L", "M", "N", "P", "R", "S", "T", "U"
]
WireSize = Literal["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0"]


Circuit = Annotated[
    Literal["both_legs", "leg_1", "leg_2", "one_leg"],
    choice(
        "240 V on both legs, or 120 V on one of them; one_leg: not known which.",
        example="both_legs",
    ),
]


class MotorWire(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The conductors from the backed-up panel to a motor."""

    length: Annotated[
        float, quantity("ft", "One way, from the panel to the motor.", ge=0, le=5280, example=60)
    ]
    size: Annotated[WireSize, choice("American wire gauge.", example="10")] = "10"
    material: Annotated[
        Literal["copper", "aluminum"], choice("What they are made of.", example="copper")
    ] = "copper"


class SoftStarter(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A soft starter that is fitted, as its seller claims it."""

    current_percent: Annotated[
        float,
        quantity(
            "%",
            "Locked-rotor amps that it lets through at most; sellers claim 25 to 50 %.",
            ge=25,
            le=100,
            example=50.0,
        ),
    ]
    switches_start_capacitor: Annotated[
        bool,
        Meta(description="Whether it also switches a start capacitor in.", examples=[True]),
    ] = False


class Motor(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One motor that is to start in an outage; whatever is not known stays away."""

    id: Annotated[
        str,
        text(
            "The caller's own id of the motor.",
            example="condenser",
            max_length=64,
            pattern=SAFE_REFERENCE,
        ),
    ]
    kind: Annotated[
        MotorKindId,
        choice(
            "What it is and drives; drive_fed: through an electronic drive, whatever it drives.",
            example="compressor_scroll",
        ),
    ]
    locked_rotor_a: (
        Annotated[
            float,
            quantity("A", "Locked-rotor amps (LRA) of the nameplate.", ge=1, le=1000, example=77),
        ]
        | None
    ) = None
    rated_load_a: (
        Annotated[
            float,
            quantity(
                "A", "Rated-load or full-load amps of the nameplate.", ge=0.2, le=200, example=14
            ),
        ]
        | None
    ) = None
    volts: (
        Annotated[
            float, quantity("V", "Rated volts of the nameplate.", ge=100, le=300, example=230)
        ]
        | None
    ) = None
    code_letter: Annotated[
        Letter | None, choice("Locked-rotor code letter of the nameplate.", example="H")
    ] = None
    horsepower: (
        Annotated[float, number("Rated horsepower.", ge=0.05, le=10, example=1.0, unit="hp")] | None
    ) = None
    tons: (
        Annotated[
            float,
            number("Nominal tons of cooling.", ge=1, le=5, example=3.0, unit="ton"),
        ]
        | None
    ) = None
    phases: Annotated[
        Literal[1, 3], choice("Phases of the nameplate; only one is solved.", example=1)
    ] = 1
    circuit: Circuit = "both_legs"
    start_capacitor_kit: Annotated[
        bool,
        Meta(
            description="Whether a start capacitor with its relay is fitted to a compressor.",
            examples=[False],
        ),
    ] = False
    soft_starter: Annotated[
        SoftStarter | None,
        Meta(
            description="Soft starter that is fitted; absent: none.",
            examples=[{"current_percent": 50, "switches_start_capacitor": True}],
        ),
    ] = None
    delay: Annotated[
        bool | None,
        Meta(
            description="Whether a timer or thermostat keeps a compressor off for minutes after "
            "every loss of power; absent: not known.",
            examples=[True],
        ),
    ] = None
    wire: Annotated[
        MotorWire | None,
        Meta(
            description="Conductors to the motor; absent: 50 ft that drop little.",
            examples=[{"length": 60, "size": "10"}],
        ),
    ] = None
    age_years: (
        Annotated[
            float, number("Age of the machine, by telephone.", ge=0, le=80, example=9, unit="year")
        ]
        | None
    ) = None
    hum: Annotated[
        Literal["steady", "on_and_off"] | None,
        choice(
            "How it sounds: a steady hum that rises and falls, or full on and off.",
            example="on_and_off",
        ),
    ] = None
    breaker_a: (
        Annotated[float, quantity("A", "The number on its breaker.", ge=10, le=100, example=30)]
        | None
    ) = None


def motor_refusals(motors: list[Motor], pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the fields of a motor that is broken."""
    found = []
    ids = [motor.id for motor in motors]
    for index, motor in enumerate(motors):
        at = f"{pointer}/{index}"
        if motor.id in ids[:index]:
            found.append((f"{at}/id", "Give every motor an id of its own."))
        locked, rated = motor.locked_rotor_a, motor.rated_load_a
        if locked is not None and rated is not None and locked < LEAST_LOCKED * rated:
            words = (
                f"Locked-rotor amps are at least {LEAST_LOCKED:g} times the rated-load amps of a "
                "motor across the line; for one behind a drive state the kind drive_fed."
            )
            found.append((f"{at}/locked_rotor_a", words))
        if motor.volts is not None and (motor.volts < _LEAST_240) != (motor.circuit != "both_legs"):
            words = "A motor of 208 to 240 V is on both legs, one of 110 to 127 V on one of them."
            found.append((f"{at}/volts", words))
        if motor.code_letter is not None and motor.horsepower is None:
            found.append((f"{at}/horsepower", "A code letter says kVA a horsepower: state both."))
        if motor.wire is not None and (motor.wire.size, motor.wire.material) == ("14", "aluminum"):
            found.append((f"{at}/wire/size", "Aluminum wire begins at 12."))
        if motor.soft_starter is not None and not motor.kind.startswith("compressor"):
            words = "Leave it away: soft starters are made for compressors across the line."
            found.append((f"{at}/soft_starter", words))
    return found


#: Rated volts from which a motor is one for both legs [V]. Standing: derived, our choice.
_LEAST_240 = 180.0
#: Least locked-rotor by rated-load amps of a motor across the line. Standing: derived, our choice.
LEAST_LOCKED = 2.0


def with_id(motor: Motor, name: str) -> Motor:
    """Return the motor under another id."""
    return replace(motor, id=name)


def with_locked_rotor(motor: Motor, amps: float) -> Motor:
    """Return the motor with locked-rotor amps of its nameplate [A]."""
    return replace(motor, locked_rotor_a=amps)
