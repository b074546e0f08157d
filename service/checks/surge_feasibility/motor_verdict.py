"""How one motor stands: its word, what must be done first, what was tried."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.nominal_start import Start
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.start_measures import longest_below
from service.checks.surge_feasibility.start_outcome import (
    LIGHTS_DIP,
    NOT_CARRIED,
    NOT_STARTED,
    STARTS,
    UNCERTAIN,
)
from service.findings import Verdict
from service.published.motors import motor_kind

WORDS: dict[int, an.Word] = {
    NOT_STARTED: "does_not_start",
    NOT_CARRIED: "starts_but_not_carried",
    UNCERTAIN: "uncertain",
    LIGHTS_DIP: "starts_lights_dip",
    STARTS: "starts",
}
#: Volts of a deep dip [1], and the shallower one that is deep when it lasts [1], [s].
#: Standing: derived, our choice; compare the ITI curve, 80 % for 10 s, from memory.
_DEEP, _LONG_DIP, _LONG = 0.80, 0.90, 0.5


class MotorVerdict(NamedTuple):
    """A verdict, the conditions it hangs on, and what to add to the motor's sentence."""

    verdict: Verdict
    conditions: tuple[str, ...]
    because: str


def motor_verdict(
    request: SurgeFeasibilityRequest, solved: tried.Solved, lane: int, place: int
) -> MotorVerdict:
    """Return how a motor stands that could be solved."""
    motor = request.motors[place]
    words = {name: int(judged.word[lane]) for name, (judged, _) in solved.of.items()}
    bare = words[tried.BARE]
    against = words[tried.UNEQUALISED] < LIGHTS_DIP
    if bare >= LIGHTS_DIP:
        timer = "Restarted at once, against pressure, it does not start surely." if against else ""
        return _that_starts(request, solved, lane, place, _Way(tried.BARE, (), timer, against))
    why = reason(request, solved, lane)
    transfer = request.transfer
    alone = words[tried.ALONE] >= LIGHTS_DIP
    # A remedy is tried on a machine whose pressures are equal.
    presses = motor_kind(motor.kind).pressure_unequalised > 0
    if alone and transfer is not None and (transfer.kind == "manual" or transfer.sheds_for_starts):
        how = "by hand" if transfer.kind == "manual" else "by listed load control"
        first = f"the other loads are off before {motor.id} starts, {how}"
        way = _Way(tried.ALONE, (first,), f"{why} With nothing beside it starts.", presses)
        return _that_starts(request, solved, lane, place, way)
    if motor.soft_starter is None and _soft_helps(motor.kind, words):
        fitted = f"a soft starter of at most half the locked-rotor amps is fitted to {motor.id}"
        way = _Way(tried.SOFT, (fitted,), f"{why} With a soft starter it starts.", presses)
        return _that_starts(request, solved, lane, place, way)
    if alone:
        why += " It starts only with the other loads off first, which nothing does by itself."
    open_ = bare == UNCERTAIN or (alone and transfer is None)
    return MotorVerdict(Verdict.UNDETERMINED if open_ else Verdict.FAIL, (), why)


def _soft_helps(kind: str, words: dict[str, int]) -> bool:
    return bool(motor_kind(kind).soft_startable) and words[tried.SOFT] >= LIGHTS_DIP


class _Way(NamedTuple):
    """How a motor starts: the version that does, what must be so first, if a delay must be."""

    version: str
    conditions: tuple[str, ...]
    because: str
    needs_delay: bool


def _that_starts(
    request: SurgeFeasibilityRequest, solved: tried.Solved, lane: int, place: int, way: _Way
) -> MotorVerdict:
    motor = request.motors[place]
    conditions = list(way.conditions)
    sags = deep_dip(solved.of[way.version][1], lane)
    if sags and any(load.life_support for load in request.running or []):
        why = "Life support hangs on a bus whose volts sag deeply while it starts."
        return MotorVerdict(Verdict.UNDETERMINED, (), why)
    if request.running is None:
        return MotorVerdict(Verdict.UNDETERMINED, (), "What else runs when it starts is not known.")
    if sags:
        conditions.append(f"nothing on the panel minds the sag while {motor.id} starts")
    needs_delay = way.needs_delay and motor.delay is not True
    if needs_delay:
        conditions.append(f"a timer keeps {motor.id} off for minutes after every loss of power")
    because = way.because if needs_delay or way.version != tried.BARE else ""
    return MotorVerdict(
        Verdict.CONDITIONAL if conditions else Verdict.PASS, tuple(conditions), because
    )


def reason(request: SurgeFeasibilityRequest, solved: tried.Solved, lane: int) -> str:
    """Return why a motor does not surely start, in one sentence."""
    words, start = solved.of[tried.BARE]
    ratings = start.above_rating[lane]
    speed = float(start.last_speed[lane])
    if not (start.fits[lane] and start.solved[lane]):
        return "Its amps contradict each other, or no steady volts were found."
    if np.isfinite(start.started[lane]):
        if not start.carried[lane]:
            return f"It then runs on {start.running_amps[lane]:.0f} A with what is beside it."
        if not start.within_ratings[lane] and request.inverter.beyond_rating != "folds_back":
            then = {None: "it hangs on what the inverter does then", "trips": "it shuts down"}
            return (
                f"It would take {start_amps(start, lane):.0f} A and be above the highest rating "
                f"for {ratings[0]:.2f} s: {then[request.inverter.beyond_rating]}."
            )
        if words.pessimistic[lane] < LIGHTS_DIP:
            return "At the pessimistic end of what is known it does not start surely."
        return "A contactor may let go as the volts sag."
    if speed <= 0:
        return f"It never moves: it gets {start.most_motor_amps[lane]:.0f} A at most."
    if speed < _CRAWLS:
        return f"It crawls at {100 * speed:.0f} % of its speed."
    return f"It hangs at {100 * speed:.0f} % of its speed."


#: Speed below which a motor is said to crawl [1]. Standing: derived, our choice.
_CRAWLS = 0.5


def start_amps(start: Start, lane: int) -> float:
    """Return the amps that a source without a ceiling would give at standstill [A]."""
    first = start.course
    return float(first.amps[0, 0, lane] + max(float(first.over[0, 0, lane]), 0.0))


def deep_dip(start: Start, lane: int) -> bool:
    """Return whether a start takes the bus down deeply or for long."""
    one = start.lanes(slice(lane, lane + 1))
    bus = one.course.bus / (one.course.bus.min(axis=(0, 1)) / one.least_bus)
    long = longest_below(one.course, bus, np.array([_LONG_DIP]))[0] >= _LONG
    return bool(one.least_bus[0] < _DEEP or long)


def remedies(
    request: SurgeFeasibilityRequest, solved: tried.Solved, lane: int, place: int
) -> list[an.Remedy]:
    """Return what was tried for a motor that does not surely start."""
    motor = request.motors[place]
    soft = motor.soft_starter is None and bool(motor_kind(motor.kind).soft_startable)
    shown = [
        (tried.ALONE, "With nothing else running it"),
        (tried.SEQUENCED, "Started in order, largest first, it"),
        *([(tried.SOFT, "With a soft starter at half its locked-rotor amps it")] if soft else []),
        *([(tried.SOFT_ALONE, "With it and nothing else running it")] if soft else []),
        (tried.UNIT, "With one more unit it"),
        (tried.WIRE, "With its wire two sizes larger it"),
    ]
    found = []
    for name, words in shown:
        word = WORDS[int(solved.of[name][0].word[lane])]
        found.append(an.Remedy(id=name, word=word, statement=f"{words} {SPOKEN[word]}."))
    return found


SPOKEN: dict[an.Word, str] = {
    "starts": "starts",
    "starts_lights_dip": "starts, and lights dip",
    "uncertain": "starts perhaps: ask for data or test on site",
    "starts_but_not_carried": "starts but cannot be carried",
    "does_not_start": "does not start",
    "not_a_surge_problem": "is not a matter of surge",
}
