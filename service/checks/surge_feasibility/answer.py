"""What the surge-feasibility check answers."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Struct

from service.findings import Answer, Verdict
from service.quantities.fields import out, said

Word = Literal[
    "starts",
    "starts_lights_dip",
    "uncertain",
    "starts_but_not_carried",
    "does_not_start",
    "not_a_surge_problem",
]


Limit = Literal["surge-amps", "surge-time", "breakaway-torque", "motor-volts", "running-amps"]


class Remedy(Struct, kw_only=True, forbid_unknown_fields=True):
    """One thing changed, and the start tried again."""

    id: Annotated[str, said("Id of the remedy.", example="soft-starter")]
    word: Annotated[Word, said("What the start comes to then.", example="starts")]
    statement: Annotated[
        str, said("The remedy in one sentence.", example="With a soft starter it starts.")
    ]


class Margin(Struct, kw_only=True, forbid_unknown_fields=True):
    """How far a start stays from one of its limits, and how far it had better stay."""

    limit: Annotated[Limit, said("Which limit.", example="surge-amps")]
    value: Annotated[float, out("1", "What there is by what is needed.", example=1.32, decimals=3)]
    wanted: Annotated[float, out("1", "What it had better be, at least.", example=1.1, decimals=3)]
    met: Annotated[bool, said("Whether it is.", example=True)]


class Evidence(Struct, kw_only=True, forbid_unknown_fields=True):
    """What the motor's amps are taken from, at its rated volts."""

    basis: Annotated[
        Literal["nameplate", "code_letter", "rated_load_amps", "horsepower", "tons", "breaker"],
        said("Best evidence of the locked-rotor amps.", example="nameplate"),
    ]
    locked_rotor_low_a: Annotated[
        float, out("A", "Low end of the locked-rotor amps.", example=69.3, decimals=1)
    ]
    locked_rotor_a: Annotated[float, out("A", "Locked-rotor amps used.", example=77.0, decimals=1)]
    locked_rotor_high_a: Annotated[
        float, out("A", "High end of the locked-rotor amps.", example=84.7, decimals=1)
    ]
    rated_load_low_a: Annotated[
        float, out("A", "Low end of the running amps.", example=14.0, decimals=1)
    ]
    rated_load_a: Annotated[float, out("A", "Running amps used.", example=14.0, decimals=1)]
    rated_load_high_a: Annotated[
        float, out("A", "High end of the running amps.", example=14.0, decimals=1)
    ]


class MotorStart(Struct, kw_only=True, forbid_unknown_fields=True):
    """One motor: whether it starts last, with everything else running."""

    id: Annotated[str, said("The caller's id of the motor.", example="condenser")]
    verdict: Annotated[Verdict, said("How this motor stands.", example="conditional")]
    word: Annotated[Word, said("What its start comes to.", example="does_not_start")]
    statement: Annotated[
        str, said("The start in one sentence.", example="condenser: does not start: never moves.")
    ]
    evidence: Annotated[
        Evidence | None, said("What its amps are taken from; null: nothing.", example=None)
    ]
    pessimistic: Annotated[
        Word | None, said("The start at the pessimistic corner; null: not solved.", example=None)
    ]
    optimistic: Annotated[
        Word | None, said("The start at the optimistic corner; null: not solved.", example=None)
    ]
    start_seconds: Annotated[
        float | None,
        out("s", "Time to its speed; null: it does not reach it.", example=0.12, decimals=3),
    ] = None
    least_bus_percent: Annotated[
        float | None,
        out("%", "Lowest volts at the panel.", example=94.1, decimals=1, rounding="down"),
    ] = None
    least_motor_percent: Annotated[
        float | None,
        out(
            "%",
            "Lowest volts at the motor, of its rated volts.",
            example=91.0,
            decimals=1,
            rounding="down",
        ),
    ] = None
    start_amps: Annotated[
        float | None,
        out(
            "A",
            "Amps at standstill if the inverter had no ceiling, with what runs beside it.",
            example=82.4,
            decimals=1,
            rounding="up",
        ),
    ] = None
    most_amps: Annotated[
        float | None,
        out("A", "Most amps of the inverter.", example=78.2, decimals=1, rounding="up"),
    ] = None
    most_kva: Annotated[
        float | None, out("kVA", "Most kVA of the inverter.", example=18.1, decimals=2)
    ] = None
    ceiling_seconds: Annotated[
        float | None, out("s", "Time at the inverter's ceiling.", example=0.06, decimals=3)
    ] = None
    least_amps_that_move_it: Annotated[
        float | None,
        out("A", "Hand check: least amps that move its load.", example=45.1, decimals=1),
    ] = None
    divider_percent: Annotated[
        float | None,
        out(
            "%",
            "Hand check: volts at the locked motor if the inverter had no ceiling.",
            example=96.5,
            decimals=1,
        ),
    ] = None
    first_rating_a: Annotated[
        float | None, out("A", "Hand check: highest rating counted.", example=62.0, decimals=1)
    ] = None
    largest_load_beside_w: Annotated[
        float | None,
        out(
            "W",
            "Largest part of what runs beside it with which it starts; null: not looked for.",
            example=1850.0,
            decimals=0,
            rounding="down",
        ),
    ] = None
    margins: Annotated[
        list[Margin],
        said(
            "Margins at nominal values; they warn and change no word. Empty: not solved.",
            example=[],
        ),
    ] = []
    remedies: Annotated[list[Remedy], said("What was tried, each by itself.", example=[])] = []


class Steady(Struct, kw_only=True, forbid_unknown_fields=True):
    """What the inverter carries once everything runs."""

    continuous_a: Annotated[
        float, out("A", "Continuous amps of all units, a leg.", example=25.0, decimals=1)
    ]
    leg_likely_a: Annotated[
        float,
        out(
            "A",
            "Amps of the heavier leg, 60 % of the loads of unknown leg on it.",
            example=14.3,
            decimals=1,
            rounding="up",
        ),
    ]
    leg_most_a: Annotated[
        float,
        out(
            "A",
            "Amps of the heavier leg, all loads of unknown leg on it.",
            example=19.2,
            decimals=1,
            rounding="up",
        ),
    ]
    neutral_most_a: Annotated[
        float,
        out("A", "Amps of the neutral then.", example=9.1, decimals=1, rounding="up"),
    ]
    running_kw: Annotated[
        float, out("kW", "Power of everything that runs.", example=3.9, decimals=2, rounding="up")
    ]
    running_kva: Annotated[
        float, out("kVA", "kVA of everything that runs.", example=4.1, decimals=2, rounding="up")
    ]


class SurgeFeasibilityAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """Whether the inverter starts the motors, and carries what runs."""

    motors: Annotated[
        list[MotorStart], said("The motors, as sent, on the planned source.", example=[])
    ]
    steady: Annotated[Steady, said("What runs once all have started.", example=None)]
    restart_order: Annotated[
        list[str],
        said("Ids in the order that asks least: largest start first.", example=["condenser"]),
    ]
