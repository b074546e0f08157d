"""Facts that are not known for sure: what stands in for them, and what they might be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from msgspec import Struct
from msgspec import inspect as mi

from service.assessment.fact_defaults import ESSENTIAL_SET, FACT_DEFAULTS
from service.assessment.pointers import filled
from service.assessment.request import SiteAssessmentRequest
from service.facts import Equipment, FactCoarse, FactOneOf, FactRange, FactUnknown, Home

#: Facts of which the higher end asks more of a battery; of the others the lower one does.
_HIGHER_IS_HARDER = {"/home/monthly_kwh", "/home/well_pump_watts", "/home/battery_distance"}


#: Every site fact in a few words.
LABELS = {
    "/home/type": "the kind of home",
    "/home/monthly_kwh": "the energy of a month",
    "/home/medical_equipment": "the medical equipment",
    "/home/well_pump": "the well pump",
    "/home/well_pump_watts": "the well pump's power",
    "/home/sump_pump": "the sump pump",
    "/home/internet": "the internet",
    "/home/battery_distance": "the distance from the battery to the panel",
    "/equipment/reserve_percent": "the charge kept for outages",
    "/wishes/essential_set": "the loads that are wanted",
    "/wishes/season": "the season",
}
PUMP_WATTS = "/home/well_pump_watts"
ESSENTIAL_SET_POINTER = "/wishes/essential_set"


@dataclass(frozen=True, slots=True)
class OpenFact:
    """A site fact that has no single value yet.

    ``value`` stands in for it, ``values`` are what it might be, the hardest last; ``asked`` is
    how its field declares that it is asked, ``reason`` why the value stands in.
    """

    pointer: str
    value: Any
    values: tuple[Any, ...]
    asked: Mapping[str, Any]
    reason: str

    @property
    def label(self) -> str:
        """Return the fact in a few words."""
        return LABELS[self.pointer]

    @property
    def range(self) -> list[Any]:
        """Return its values: numbers from low to high, words the hardest last."""
        numbers = all(isinstance(value, float) for value in self.values)
        return sorted(self.values) if numbers else list(self.values)


@cache
def _declared(group: type[Struct]) -> dict[str, Mapping[str, Any]]:
    info = mi.type_info(group)
    assert isinstance(info, mi.StructType)
    return {
        field.name: field.type.extra["fact"]
        for field in info.fields
        if isinstance(field.type, mi.Metadata) and field.type.extra and "fact" in field.type.extra
    }


def declared_facts() -> dict[str, Mapping[str, Any]]:
    """Return every site fact: pointer -> how it is asked."""
    return {
        f"/{group}/{name}": asked
        for group, struct in (("home", Home), ("equipment", Equipment))
        for name, asked in _declared(struct).items()
    }


def _order(pointer: str, values: tuple[Any, ...]) -> tuple[Any, ...]:
    known = FACT_DEFAULTS.get(pointer)
    if known is not None and set(values) <= set(known.values):
        return tuple(sorted(values, key=known.values.index))
    return tuple(sorted(values, reverse=pointer not in _HIGHER_IS_HARDER))


def _ends(pointer: str, stated: Any, asked: Mapping[str, Any]) -> OpenFact | None:
    """Return the open fact of a stated range, choice or coarse answer; None: not stated."""
    if isinstance(stated, FactRange):
        ends = _order(pointer, (stated.low, stated.high))
        likely = (stated.low + stated.high) / 2 if stated.likely is None else stated.likely
        return OpenFact(pointer, likely, ends, asked, "The likely value of the stated range.")
    if isinstance(stated, FactOneOf):
        values = _order(pointer, tuple(dict.fromkeys(stated.values)))
        return OpenFact(pointer, values[-1], values, asked, "The hardest of the stated values.")
    if isinstance(stated, FactCoarse):
        low, high = asked["x-coarse-answers"][stated.answer]
        ends = _order(pointer, (low, high))
        middle = (low + high) / 2
        return OpenFact(pointer, middle, ends, asked, "The middle of what the answer stands for.")
    known = FACT_DEFAULTS.get(pointer)
    if known is None:
        return None
    return OpenFact(pointer, known.value, known.values, asked, known.reason)


def _facts(request: SiteAssessmentRequest) -> Iterator[tuple[OpenFact | None, str]]:
    home = request.home or Home()
    groups: dict[str, Struct] = {"home": home, "equipment": request.equipment or Equipment()}
    for pointer, asked in declared_facts().items():
        group, name = pointer.split("/")[1:]
        stated = getattr(groups[group], name)
        if pointer == PUMP_WATTS and home.well_pump == "none":
            # Without a pump its watts are no question; while it is unknown they may matter.
            yield None, pointer
            continue
        if stated is None or isinstance(stated, (FactRange, FactOneOf, FactCoarse, FactUnknown)):
            yield _ends(pointer, stated, asked), pointer


_NO_LOADS = {
    "x-ask-by": "telephone",
    "x-question": "Which appliances must run in an outage, and how many of each?",
}


def resolve(request: SiteAssessmentRequest) -> tuple[SiteAssessmentRequest, list[OpenFact]]:
    """Return the request with plain values in every fact, and the facts that stay open."""
    found: list[OpenFact] = []
    values: list[tuple[str, Any]] = []
    for fact, pointer in _facts(request):
        if fact is None:
            values.append((pointer, None))
            continue
        found.append(fact)
        values.append((pointer, fact.value))
    plain = filled(request, values)
    wishes = request.wishes
    home = plain.home or Home()
    metered = home.interval_watts is not None
    named = bool(wishes.loads or wishes.essential_set) or metered
    if not named and home.monthly_kwh is None:
        fact = OpenFact(
            ESSENTIAL_SET_POINTER,
            ESSENTIAL_SET.value,
            ESSENTIAL_SET.values,
            _NO_LOADS,
            ESSENTIAL_SET.reason,
        )
        found.append(fact)
        plain = filled(plain, [(fact.pointer, fact.value)])
    elif named:
        found = [fact for fact in found if fact.pointer != "/home/monthly_kwh"]
    return plain, found


SEASON = "/wishes/season"


def open_season(worse: str) -> OpenFact:
    """Return the season as an open fact, settled on the worse one."""
    other = "winter" if worse == "summer" else "summer"
    return OpenFact(
        SEASON,
        worse,
        (other, worse),
        {
            "x-ask-by": "telephone",
            "x-question": "Is it the summer or the winter outage that must be carried?",
        },
        "The season that is worse for the candidates together.",
    )
