"""A battery inverter by its data sheet, as far as it bears on motors and running loads."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.facts.battery import Battery
from service.quantities.fields import choice, number, quantity

#: Least part of a rating that heat may leave [1]. Standing: derived, our choice.
LEAST_LEFT = 0.05


class SurgeRating(Struct, forbid_unknown_fields=True, kw_only=True):
    """What one unit gives for so long, as its data sheet prints it: amps, or kVA."""

    seconds: Annotated[
        float, quantity("s", "How long it gives them.", ge=0.02, le=3600, example=10.0)
    ]
    amps: (
        Annotated[float, quantity("A", "Amps at the unit's volts.", ge=0.5, le=2000, example=37.5)]
        | None
    ) = None
    kva: (
        Annotated[
            float,
            quantity("kVA", "kVA, where no amps are printed.", ge=0.05, le=500, example=9.0),
        ]
        | None
    ) = None


class Derating(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the heat takes from the continuous rating, by the data sheet."""

    ambient: Annotated[
        float, quantity("degF", "Hottest air around the unit.", ge=-40, le=176, example=113.0)
    ]
    above: Annotated[
        float,
        quantity("degF", "Air up to which the rating holds.", ge=-40, le=176, example=104.0),
    ]
    percent_per_kelvin: Annotated[
        float,
        number("Lost a kelvin above that.", ge=0, le=20, example=2.0, unit="%/K"),
    ]


class Inverter(Struct, forbid_unknown_fields=True, kw_only=True):
    """One battery inverter by its data sheet, and how many of them."""

    continuous_a: (
        Annotated[
            float,
            quantity(
                "A", "Continuous amps of one unit at its volts.", ge=0.5, le=1000, example=25.0
            ),
        ]
        | None
    ) = None
    continuous_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Continuous kW of one unit, where no amps are printed; read as kVA.",
                ge=0.05,
                le=200,
                example=6.0,
            ),
        ]
        | None
    ) = None
    leg_a: (
        Annotated[
            float,
            quantity(
                "A",
                "Continuous amps of one leg of one unit, where that is less.",
                ge=0.5,
                le=1000,
                example=20.0,
            ),
        ]
        | None
    ) = None
    derating: Annotated[
        Derating | None,
        Meta(
            description="What the heat takes; absent: nothing is taken off.",
            examples=[{"ambient": 113, "above": 104, "percent_per_kelvin": 2}],
        ),
    ] = None
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
    count: (
        Annotated[
            int, Meta(ge=1, le=20, description="Units side by side; absent: one.", examples=[1])
        ]
        | None
    ) = None
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
    most_breaker_a: (
        Annotated[
            float,
            quantity(
                "A",
                "Largest breaker that the nameplate of one unit allows.",
                ge=10,
                le=4000,
                example=60,
            ),
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

    battery_surge_kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Most power that the batteries of one unit give for the seconds of a start, at its "
                "AC side; absent: not known.",
                ge=0.1,
                le=500,
                example=14.0,
            ),
        ]
        | None
    ) = None


def continuous_amps(inverter: Inverter) -> float:
    """Return the printed continuous amps of one unit at its volts [A]."""
    if inverter.continuous_a is not None:
        return inverter.continuous_a
    return (inverter.continuous_kw or 0.0) * 1000.0 / inverter.volts


def surge_amps(rating: SurgeRating, inverter: Inverter) -> float:
    """Return the amps of a surge rating at the inverter's volts [A]."""
    if rating.amps is not None:
        return rating.amps
    return (rating.kva or 0.0) * 1000.0 / inverter.volts


def left_in_the_heat(heat: Derating | None) -> float:
    """Return the part of the continuous rating that the heat leaves [1].

    Notes
    -----
    ``1 - slope max(0, ambient - above)``.
    Source: derived; the slope is the data sheet's.
    """
    if heat is None:
        return 1.0
    kelvin = max(0.0, heat.ambient - heat.above) * 5.0 / 9.0
    return max(0.0, 1.0 - heat.percent_per_kelvin / 100.0 * kelvin)


def inverter_refusals(
    inverter: Inverter, pointer: str, *, rated: bool = False
) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the fields of an inverter that is broken.

    `rated`: its continuous power may also be stated elsewhere.
    """
    found = []
    stated = (inverter.continuous_a is not None) + (inverter.continuous_kw is not None)
    if stated == 2 or (stated == 0 and not rated):
        words = "State the continuous amps, or the continuous kW where no amps are printed."
        found.append((f"{pointer}/continuous_a", words))
    found += _battery_refusals(inverter, pointer)
    ratings = inverter.surge or []
    for index, rating in enumerate(ratings):
        if (rating.amps is None) == (rating.kva is None):
            words = "State the amps of a surge rating, or its kVA where no amps are printed."
            found.append((f"{pointer}/surge/{index}/amps", words))
    if found or not stated:
        return found
    amps = [surge_amps(rating, inverter) for rating in ratings]
    for index in range(1, len(ratings)):
        later = ratings[index].seconds > ratings[index - 1].seconds
        if not later or amps[index] >= amps[index - 1]:
            words = "List the ratings by time: each longer than the one before, with fewer amps."
            found.append((f"{pointer}/surge/{index}", words))
    if ratings and amps[-1] < continuous_amps(inverter):
        words = "A surge rating is no less than the continuous amps."
        found.append((f"{pointer}/surge/{len(ratings) - 1}", words))
    if left_in_the_heat(inverter.derating) < LEAST_LEFT:
        words = "So hot nothing is left of the rating: move the unit, or read the data sheet again."
        found.append((f"{pointer}/derating", words))
    if inverter.leg_a is not None and inverter.leg_a > continuous_amps(inverter):
        words = "Amps of one leg are no more than the continuous amps; leave them away."
        found.append((f"{pointer}/leg_a", words))
    return found


def _battery_refusals(inverter: Inverter, pointer: str) -> list[tuple[str, str]]:
    least, most = inverter.battery_kw, inverter.battery_surge_kw
    if least is None or most is None or most >= least:
        return []
    words = "What the batteries give for seconds is no less than what they sustain."
    return [(f"{pointer}/battery_surge_kw", words)]


def inverter_of(inverter: Inverter | None, battery: Battery) -> Inverter | None:
    """Return a candidate's inverter, what it does not state taken from its battery.

    None where neither states the continuous power.
    """
    made = inverter or Inverter(volts=120 if battery.split_phase is False else 240)
    if made.continuous_a is None and made.continuous_kw is None:
        if battery.continuous_kw is None:
            return None
        made = replace(made, continuous_kw=battery.continuous_kw)
    if made.count is None:
        made = replace(made, count=battery.count or 1)
    return made
