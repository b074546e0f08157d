"""What heat leaves of a unit's power on the hottest days, handed on from one check to others."""

from __future__ import annotations

from collections.abc import Mapping
from math import floor
from typing import Annotated, Any

from msgspec import Struct

from service.quantities.fields import quantity

_SLACK = 1e-6


class HeatDerating(Struct, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """Part of its continuous power that a unit gives on the hottest days, as estimated."""

    power_percent_low: Annotated[
        float, quantity("%", "Low end of the estimate.", ge=0, le=100, example=62.0)
    ]
    power_percent_high: Annotated[
        float, quantity("%", "High end of the estimate.", ge=0, le=100, example=80.0)
    ]
    power_percent_worst: (
        Annotated[
            float,
            quantity(
                "%",
                "At the worst of all that is not known of the heat; absent: the low end.",
                ge=0,
                le=100,
                example=40.0,
            ),
        ]
        | None
    ) = None

    @property
    def worst(self) -> float:
        """Return the percent at the worst of all that is not known [%]."""
        stated = self.power_percent_worst
        return self.power_percent_low if stated is None else stated

    def said(self) -> str:
        """Return what is left in words, rounded down."""
        ends = (self.power_percent_low, self.power_percent_high, self.worst)
        low, high, worst = (floor(end + _SLACK) for end in ends)
        band = f"{low}" if low == high else f"{low} to {high}"
        tail = f", {worst} % at the worst of all that is not known" if worst < low else ""
        return f"{band} % of the power is left{tail}"


class HeatDeratingWithEnergy(HeatDerating, forbid_unknown_fields=True, kw_only=True, frozen=True):
    """The same, and the part of its usable energy where the heat takes some of that too."""

    energy_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Part of its usable energy, where its data sheet says so; absent: all of it, a "
                "curve of power says nothing of energy.",
                ge=0,
                le=100,
                example=90.0,
            ),
        ]
        | None
    ) = None


def with_energy(heat: HeatDerating | None) -> HeatDeratingWithEnergy | None:
    """Return the same with all of the energy: a curve of power says nothing of it."""
    if heat is None:
        return None
    return HeatDeratingWithEnergy(
        power_percent_low=heat.power_percent_low,
        power_percent_high=heat.power_percent_high,
        power_percent_worst=heat.power_percent_worst,
    )


def heat_refusals(heat: HeatDerating | None, pointer: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the fields that is broken."""
    if heat is None:
        return []
    found = []
    if heat.power_percent_high < heat.power_percent_low:
        words = "The high end is no lower than the low end: exchange them."
        found.append((f"{pointer}/power_percent_high", words))
    if heat.worst > heat.power_percent_low:
        words = "The worst is no better than the low end: correct one of both."
        found.append((f"{pointer}/power_percent_worst", words))
    return found


def heat_derating_of(answers: Mapping[str, Any]) -> HeatDerating | None:
    """Return what heat leaves by the answers of other checks; None where none has worked it out."""
    found = [getattr(answer, "heat_derating", None) for answer in answers.values()]
    return next((one for one in found if isinstance(one, HeatDerating)), None)
