"""What the outage-runtime check answers."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Struct, UnsetType

from service.checks.outage_runtime.year_answer import YearResult
from service.findings import Answer
from service.quantities.fields import out, said


class Reading(Struct, kw_only=True, forbid_unknown_fields=True):
    """One reading of the runtime: a level of use, a capacity, a charge at the start."""

    use: Annotated[Literal["low", "typical", "high"], said("Level of use.", example="typical")]
    capacity: Annotated[
        Literal["now", "end_of_warranty"],
        said("Capacity as it is now, or when the warranty ends.", example="now"),
    ]
    start: Annotated[
        Literal["reserve", "stated", "full"],
        said("Charge at the start of the outage.", example="reserve"),
    ]
    start_kwh: Annotated[
        float,
        out("kWh", "Energy stored at the start.", example=4.8, decimals=3, rounding="down"),
    ]
    hours_to_dark: Annotated[
        float,
        out(
            "h",
            "Hours until the backed-up circuits go dark.",
            example=14.2,
            decimals=2,
            rounding="down",
        ),
    ]
    at_least: Annotated[
        bool,
        said(
            "Whether it outlasts the simulated time, so that the hours are a floor.", example=False
        ),
    ]
    normal_hours: Annotated[
        float | None,
        out(
            "h",
            "Hours until normal loads go off; null: there are none.",
            example=14.2,
            decimals=2,
            rounding="down",
        ),
    ]
    comfort_hours: Annotated[
        float | None,
        out(
            "h",
            "Hours until comfort loads go off; null: there are none.",
            example=9.1,
            decimals=2,
            rounding="down",
        ),
    ]
    dark_at_hour: Annotated[
        float | None,
        out(
            "h",
            "Local hour of day at which it goes dark; null: it does not.",
            example=8.2,
            rounding="down",
        ),
    ]
    ended_by: Annotated[
        Literal["energy", "power", "nothing"],
        said("What ends it: stored energy, inverter power, or nothing.", example="energy"),
    ]


class Event(Struct, kw_only=True, forbid_unknown_fields=True):
    """One thing that happens in the outage, at typical use, now, from the start charge."""

    hours: Annotated[
        float, out("h", "Hours after the outage starts.", example=9.1, rounding="down")
    ]
    hour_of_day: Annotated[float, out("h", "Local hour of day.", example=3.1, rounding="down")]
    event: Annotated[
        Literal["start", "comfort_off", "normal_off", "over_power", "dark"],
        said("What happens.", example="comfort_off"),
    ]
    statement: Annotated[str, said("In one sentence.", example="Comfort loads go off.")]


class DailyEnergy(Struct, kw_only=True, forbid_unknown_fields=True):
    """Energy the chosen loads take in a day of the outage's season."""

    low_kwh: Annotated[float, out("kWh", "At low use.", example=3.1, decimals=3, rounding="up")]
    typical_kwh: Annotated[
        float, out("kWh", "At typical use.", example=5.3, decimals=3, rounding="up")
    ]
    high_kwh: Annotated[float, out("kWh", "At high use.", example=12.4, decimals=3, rounding="up")]


class PowerNeed(Struct, kw_only=True, forbid_unknown_fields=True):
    """Running power by the usual diversity rule; starting currents are another check."""

    all_day_kw: Annotated[
        float,
        out(
            "kW",
            "Loads that are on or cycle all day, all at once.",
            example=0.4,
            decimals=3,
            rounding="up",
        ),
    ]
    with_largest_kw: Annotated[
        float,
        out(
            "kW", "With the largest other load beside them.", example=1.9, decimals=3, rounding="up"
        ),
    ]
    with_two_largest_kw: Annotated[
        float,
        out(
            "kW",
            "With the two largest other loads, at high use.",
            example=3.4,
            decimals=3,
            rounding="up",
        ),
    ]
    all_at_once_kw: Annotated[
        float,
        out("kW", "Everything at once, at high use.", example=4.2, decimals=3, rounding="up"),
    ]
    largest_start_kw: Annotated[
        float | None,
        out(
            "kW",
            "The largest of the stated starting powers beside the running ones; null: none stated.",
            example=4.0,
            decimals=3,
            rounding="up",
        ),
    ]
    largest: Annotated[
        list[str], said("The two largest other loads at high use.", example=["Microwave oven"])
    ]
    continuous_kw: Annotated[
        float | None,
        out(
            "kW",
            "What the units carry continuously; null: unknown.",
            example=5.0,
            decimals=3,
            rounding="down",
        ),
    ]


class UnitsNeeded(Struct, kw_only=True, forbid_unknown_fields=True):
    """How many units of this kind hold the target as assumed, at high use and end of warranty."""

    count: Annotated[int | None, said("Units needed; null: not reachable or no target.", example=3)]
    why: Annotated[
        str,
        said("What decides the number, or why none is enough.", example="Energy decides."),
    ]


class Marginal(Struct, kw_only=True, forbid_unknown_fields=True):
    """What a tenth more would buy, at typical use, now, from the start charge."""

    more_energy_hours: Annotated[
        float, out("h", "Hours gained by a tenth more energy.", example=1.4)
    ]
    more_power_hours: Annotated[
        float, out("h", "Hours gained by a tenth more inverter power.", example=0.0)
    ]
    limited_by: Annotated[
        Literal["energy", "power", "nothing"],
        said("Which of the two ends the outage earlier than it need.", example="energy"),
    ]


class EnergyBalance(Struct, kw_only=True, forbid_unknown_fields=True):
    """Where the stored energy of one reading went, until it went dark or the week was over."""

    reading: Annotated[str, said("Which reading.", example="typical/now/reserve")]
    start_kwh: Annotated[float, out("kWh", "Stored at the start.", example=4.8, decimals=9)]
    served_kwh: Annotated[float, out("kWh", "Served to the loads.", example=4.1, decimals=9)]
    lost_kwh: Annotated[
        float, out("kWh", "Lost on the way and in idling.", example=0.7, decimals=9)
    ]
    end_kwh: Annotated[float, out("kWh", "Stored at the end.", example=0.0, decimals=9)]


class OutageRuntimeAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """How long the chosen loads run, from which charge, at which use, and what ends it."""

    target_hours: Annotated[
        float | None, out("h", "The target held against; null: none.", example=24.0)
    ]
    season: Annotated[Literal["summer", "winter"], said("Season answered for.", example="winter")]
    start_hour: Annotated[float, out("h", "Local hour at which the outage starts.", example=18.0)]
    hours_low: Annotated[
        float,
        out(
            "h",
            "Hours that the asked tier is held at high use, at the end of the warranty, from the "
            "start charge, as assumed.",
            example=6.5,
            rounding="down",
        ),
    ]
    hours_typical: Annotated[
        float,
        out(
            "h",
            "The same at typical use, now, from the start charge.",
            example=14.2,
            rounding="down",
        ),
    ]
    hours_high: Annotated[
        float,
        out(
            "h",
            "The same at low use, now, from full, or from the start charge where it was stated.",
            example=60.1,
            rounding="down",
        ),
    ]
    readings: Annotated[
        list[Reading], said("Use by capacity by start charge, side by side.", example=[])
    ]
    events: Annotated[list[Event], said("What happens, in order.", example=[])]
    daily_energy: Annotated[DailyEnergy, said("Energy of a day.", example=None)]
    power: Annotated[
        PowerNeed | None,
        said("Running power; null where only energy is known.", example=None),
    ]
    marginal: Annotated[Marginal, said("What ends it, by trial.", example=None)]
    units: Annotated[UnitsNeeded, said("Units that hold the target as assumed.", example=None)]
    largest_constant_load_w: Annotated[
        float | None,
        out(
            "W",
            "Largest constant load held to the target at the end of the warranty from the start "
            "charge, as assumed; "
            "null: no target, or an outage that is a matter of the date.",
            example=180.0,
            decimals=1,
            rounding="down",
        ),
    ]
    will_not_run: Annotated[
        list[str], said("Loads of tier shed: off from the first second.", example=["EV charging"])
    ]
    year: Annotated[
        YearResult | None,
        said(
            "How outages fare through a typical year; null: every day of a season is alike.",
            example=None,
        ),
    ]
    energy_balance: Annotated[
        list[EnergyBalance] | UnsetType,
        said(
            "Energy balance of every reading that no trip ends; with ?include=energy_balance.",
            example=[],
        ),
    ] = UNSET
