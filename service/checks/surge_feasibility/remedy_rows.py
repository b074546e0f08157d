"""What was tried for a motor, in words."""

from __future__ import annotations

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.motor_verdict import SPOKEN, WORDS, others_off
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.softened import could_be_softened
from service.checks.surge_feasibility.source import Source
from service.published.motors import motor_kind

#: A start as it stands is that of a machine whose pressures are equal: what a delay sees to.
_IDS = {tried.BARE: "delay-timer"}


def remedies(
    request: SurgeFeasibilityRequest, source: Source, solved: tried.Solved, lane: int, place: int
) -> list[an.Remedy]:
    """Return what was tried for a motor that does not surely start."""
    motor = request.motors[place]
    waits = motor.delay is not True and bool(motor_kind(motor.kind).pressure_unequalised)
    soft = could_be_softened(motor)
    off = others_off(request, place)
    shown = [
        (tried.SHED, f"With {off} it"),
        (tried.SEQUENCED, "Started in order, largest first, it"),
        *([(tried.SOFT, "With a soft starter at half its locked-rotor amps it")] if soft else []),
        *([(tried.SOFT_SHED, f"With a soft starter and {off} it")] if soft else []),
        *([(tried.BARE, "Kept off for minutes after every loss of power it")] if waits else []),
        *([(tried.UNIT, "With one more unit it")] if source.kind == "inverter" else []),
        (tried.WIRE, "With its wire two sizes larger it"),
    ]
    found = []
    for name, words in shown:
        word = WORDS[int(solved.of[name][0].word[lane])]
        found.append(
            an.Remedy(id=_IDS.get(name, name), word=word, statement=f"{words} {SPOKEN[word]}.")
        )
    return found
