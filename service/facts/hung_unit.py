"""The unit that is to hang somewhere: its size and finish, and what its data sheet allows."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.quantities.fields import choice, number, quantity

Colour = Literal["white", "light_grey", "medium", "dark"]
Enclosure = Literal["painted_steel", "stainless_steel", "aluminum"]

AirFahrenheit = Annotated[
    float,
    quantity("degF", "Temperature of the air of which it speaks.", ge=-76, le=212, example=122),
]


class HungUnit(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """The unit: its size, its colour, how it hangs."""

    width: Annotated[float, quantity("in", "Along the wall.", ge=2, le=240, example=30.0)]
    height: Annotated[float, quantity("in", "Of its front.", ge=2, le=240, example=40.0)]
    depth: Annotated[float, quantity("in", "Out from the wall.", ge=1, le=120, example=8.0)]
    standoff: (
        Annotated[
            float,
            quantity(
                "in",
                "From the wall to its back; absent: up to 4 in, as is the sunnier.",
                ge=0,
                le=60,
                example=2.0,
            ),
        ]
        | None
    ) = None
    bottom: (
        Annotated[
            float,
            quantity(
                "in", "Its lower edge above the ground; for shades.", ge=0, le=600, example=24.0
            ),
        ]
        | None
    ) = None
    colour: Annotated[
        Colour | None,
        choice(
            "Colour of its faces; absent: light grey, and a pass holds for all.", example="dark"
        ),
    ] = None
    absorptance: (
        Annotated[
            float,
            number(
                "Part of sunlight that its faces take in, where it is known; it goes before the "
                "colour.",
                ge=0.02,
                le=1,
                example=0.45,
            ),
        ]
        | None
    ) = None
    mass: (
        Annotated[float, quantity("lb", "Weight of the unit.", ge=1, le=20_000, example=265.0)]
        | None
    ) = None
    enclosure: Annotated[
        Enclosure | None, choice("What its shell is of.", example="painted_steel")
    ] = None
    lag_hours: (
        Annotated[
            float,
            number(
                "Time constant with which it follows the air, where it is known; it goes before "
                "the mass.",
                ge=0,
                le=48,
                example=3.0,
                unit="h",
            ),
        ]
        | None
    ) = None
    losses: (
        Annotated[
            float,
            quantity(
                "W",
                "Heat given off inside; enters only where the limits speak of the air inside.",
                ge=0,
                le=20_000,
                example=150.0,
            ),
        ]
        | None
    ) = None


class OperatingLimits(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Temperatures that the unit's data sheet allows."""

    highest: AirFahrenheit | None = None
    lowest: AirFahrenheit | None = None
    speak_of: Annotated[
        Literal["ambient", "inside"],
        choice(
            "What they speak of: the air around the unit, which allows for its own heat already, "
            "or the air inside it.",
            example="ambient",
        ),
    ] = "ambient"


class DeratingPoint(Struct, forbid_unknown_fields=True, kw_only=True):
    """A point of the derating curve."""

    temperature: AirFahrenheit
    percent: Annotated[
        float, quantity("%", "Part of its rated power there.", ge=0, le=100, example=50.0)
    ]


DeratingCurve = Annotated[
    list[DeratingPoint],
    Meta(
        description="Curve of the data sheet, rising in temperature, of the air that the "
        "limits speak of: straight between points, the first one's part below it, nothing "
        "above the last; absent: not known. The equivalent ambient with lag is read in it.",
        min_length=1,
        max_length=24,
        examples=[[{"temperature": 104, "percent": 100}]],
    ),
]


def sheet_refusals(
    limits: OperatingLimits | None, derating: list[DeratingPoint] | None, at: str
) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between limits and curve that is broken."""
    found = []
    known = limits or OperatingLimits()
    if known.highest is not None and known.lowest is not None and known.highest < known.lowest:
        words = "The highest temperature is no lower than the lowest: exchange them."
        found.append((f"{at}/limits/highest", words))
    points = derating or []
    for place, (below, above) in enumerate(pairwise(points), 1):
        if above.temperature < below.temperature:
            words = "Order the points by rising temperature."
            found.append((f"{at}/derating/{place}/temperature", words))
    return found + _of_the_curve(points, at)


def _of_the_curve(points: list[DeratingPoint], at: str) -> list[tuple[str, str]]:
    """Return what no curve does: it rises once at most, then falls, and has no third value."""
    found, fell = [], False
    for place, (below, above) in enumerate(pairwise(points), 1):
        if fell and above.percent > below.percent:
            words = "Heat gives no power back: a curve that fell does not rise again."
            found.append((f"{at}/derating/{place}/percent", words))
        fell = fell or above.percent < below.percent
    for place in range(2, len(points)):
        if points[place - 2].temperature == points[place].temperature:
            words = "Send one or two points at a temperature: the part below it and that above."
            found.append((f"{at}/derating/{place}/temperature", words))
    return found
