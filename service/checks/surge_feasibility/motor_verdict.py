"""How one motor stands: its word, what must be done first, what was tried."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.judged_start import Judged
from service.checks.surge_feasibility.nominal_start import Start
from service.checks.surge_feasibility.recommended_order import order_of
from service.checks.surge_feasibility.request import RunningLoad, SurgeFeasibilityRequest
from service.checks.surge_feasibility.softened import could_be_softened
from service.checks.surge_feasibility.source import Source
from service.checks.surge_feasibility.start_measures import longest_below
from service.checks.surge_feasibility.start_outcome import (
    FOLDS_BACK,
    LIGHTS_DIP,
    NOT_CARRIED,
    NOT_STARTED,
    STARTS,
    TRIPS,
    UNCERTAIN,
    UNKNOWN,
)
from service.facts import Motor
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
    """How a motor stands, and what its sentence says.

    Attributes
    ----------
    verdict : Verdict
        Of the motor.
    conditions : tuple of str
        What it hangs on.
    because : str
        Why it does not surely start as it stands; empty: it does.
    version, way : str
        Version of its start that the verdict takes, and that in words; empty: as it stands.
    """

    verdict: Verdict
    conditions: tuple[str, ...]
    because: str
    version: str = tried.BARE
    way: str = ""


def motor_verdict(
    request: SurgeFeasibilityRequest, source: Source, solved: tried.Solved, lane: int, place: int
) -> MotorVerdict:
    """Return how a motor stands that could be solved."""
    motor = request.motors[place]
    words = {name: int(judged.word[lane]) for name, (judged, _) in solved.of.items()}
    bare = words[tried.BARE]
    against = words[tried.UNEQUALISED] < LIGHTS_DIP
    if bare >= LIGHTS_DIP:
        timer = "Restarted at once, against pressure, it does not start surely." if against else ""
        return _that_starts(request, solved, lane, place, _Way(tried.BARE, (), timer, against))
    if words[tried.SPREAD] >= LIGHTS_DIP:
        why = "That is with all circuits of unknown leg on one leg."
        spread_out = "With the 120 V circuits spread over both legs"
        way = _Way(tried.SPREAD, (SPREAD_OUT,), why, against, spread_out)
        return _that_starts(request, solved, lane, place, way)
    why = reason(source, solved, lane)
    transfer = request.transfer
    off = others_off(request, place)
    alone = words[tried.SHED] >= LIGHTS_DIP
    # A remedy is tried on a machine whose pressures are equal.
    presses = motor_kind(motor.kind).pressure_unequalised > 0
    spread = (SPREAD_OUT,) if any(on.circuit == "one_leg" for on in _beside(request, place)) else ()
    if alone and transfer is not None and (transfer.kind == "manual" or transfer.sheds_for_starts):
        how = "by hand" if transfer.kind == "manual" else "by listed load control"
        first = f"before {motor.id} starts, {off.replace(' off', ' are off')}, {how}"
        way = _Way(tried.SHED, (first, *spread), why, presses, f"With {off}")
        return _that_starts(request, solved, lane, place, way)
    if could_be_softened(motor) and words[tried.SOFT] >= LIGHTS_DIP:
        fitted = (
            "a soft starter that switches a start capacitor and lets about half of the "
            f"locked-rotor amps through is fitted to {motor.id} and tried on site"
        )
        way = _Way(tried.SOFT, (fitted, *spread), why, presses, "With a soft starter")
        return _that_starts(request, solved, lane, place, way)
    if alone:
        why += " It starts only with the other loads off first, which nothing does by itself."
    open_ = bare == UNCERTAIN or (alone and transfer is None)
    return MotorVerdict(Verdict.UNDETERMINED if open_ else Verdict.FAIL, (), why)


#: Condition of everything that counts on the usual spread of circuits of unknown leg.
SPREAD_OUT = "an electrician spreads the 120 V circuits over both legs"


def _beside(request: SurgeFeasibilityRequest, place: int) -> list[Motor | RunningLoad]:
    motors = [motor for at, motor in enumerate(request.motors) if at != place]
    return [*(request.running or []), *motors]


def others_off(request: SurgeFeasibilityRequest, place: int) -> str:
    """Return what is off in words: all but the motors that start before it, and life support."""
    order = order_of(request)
    before = sorted(
        (rank, request.motors[at].id) for at, rank in enumerate(order) if rank < order[place]
    )
    names = [name for _, name in before]
    names += [load.name for load in request.running or [] if load.life_support]
    if not names:
        return "all other loads off"
    return f"all other loads but {' and '.join(names)} off"


class _Way(NamedTuple):
    """How a motor starts: the version that does, what must be first, if a delay must, in words."""

    version: str
    conditions: tuple[str, ...]
    because: str
    needs_delay: bool
    words: str = ""


def _that_starts(
    request: SurgeFeasibilityRequest, solved: tried.Solved, lane: int, place: int, way: _Way
) -> MotorVerdict:
    motor = request.motors[place]
    conditions = list(way.conditions)
    corners = solved.of[way.version][1]
    sags = deep_dip(corners.nominal, lane) or deep_dip(corners.pessimistic, lane)
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
    verdict = Verdict.CONDITIONAL if conditions else Verdict.PASS
    return MotorVerdict(verdict, tuple(conditions), because, way.version, way.words)


def reason(source: Source, solved: tried.Solved, lane: int) -> str:
    """Return why a motor does not surely start, in one sentence."""
    words, corners = solved.of[tried.BARE]
    start = corners.nominal
    speed = float(start.last_speed[lane])
    if not (start.fits[lane] and start.solved[lane]):
        return "Its amps contradict each other, or no steady volts were found."
    if words.word[lane] == NOT_CARRIED:
        return _OVERLOADED
    if np.isfinite(start.started[lane]):
        return _why_unsure(source, words, start, lane)
    if source.unrated:
        return "It does not start on the continuous amps alone, and no surge rating is stated."
    it = "It" if words.word[lane] < UNCERTAIN else "At the usual values it"
    if speed <= 0:
        return f"{it} never moves: it gets {start.most_motor_amps[lane]:.1f} A at most."
    if speed < _CRAWLS:
        return f"{it} crawls at {100 * speed:.0f} % of its speed."
    return f"{it} hangs at {100 * speed:.0f} % of its speed."


def _why_unsure(source: Source, words: Judged, start: Start, lane: int) -> str:
    """Return why a motor that comes up at nominal values does not surely start."""
    if not start.carried[lane]:
        return _OVERLOADED
    if start.trip_seconds[lane] > source.trip_seconds:
        return (
            f"The volts fall below {100 * source.trip:.0f} % for {start.trip_seconds[lane]:.2f} s, "
            f"and the {source.kind} shuts down after {source.trip_seconds:g} s."
        )
    if not start.within_ratings[lane]:
        then = _BEYOND[source.beyond]
        return (
            f"It would take {start_amps(start, lane):.0f} A and be above the highest rating "
            f"for {start.above_rating[lane][0]:.2f} s: {then}."
        )
    if words.word[lane] <= NOT_CARRIED:
        return "It fails at both ends of what is known."
    if words.pessimistic[lane] < LIGHTS_DIP:
        return "At the pessimistic end of what is known it does not start surely."
    if words.nominal[lane] >= LIGHTS_DIP:
        return "Its amps are a guess: the nameplate decides."
    return _SAGS[source.kind]


_OVERLOADED = "It and what is beside it then take more than is given for long."
_BEYOND = {
    UNKNOWN: "it hangs on what the inverter does then",
    FOLDS_BACK: "it hangs on how far the inverter lets the volts sag",
    TRIPS: "it shuts down",
}
_SAGS = {
    "inverter": "A contactor may let go as the volts sag.",
    "generator": "The volts sag by more than a generator is to dip, 30 %, or a pump to bear, 35 %.",
}
#: Speed below which a motor is said to crawl [1]. Standing: derived, our choice.
_CRAWLS = 0.5


def start_amps(start: Start, lane: int) -> float:
    """Return the amps that a source without a ceiling would give at standstill [A]."""
    return float(start.start_amps[lane])


def deep_dip(start: Start, lane: int) -> bool:
    """Return whether a start takes the bus down deeply or for long."""
    one = start.lanes(slice(lane, lane + 1))
    bus = one.course.bus / (one.course.bus.min(axis=(0, 1)) / one.least_bus)
    long = longest_below(one.course, bus, np.array([_LONG_DIP]))[0] >= _LONG
    return bool(one.least_bus[0] < _DEEP or long)


SPOKEN: dict[an.Word, str] = {
    "starts": "starts",
    "starts_lights_dip": "starts, and lights dip",
    "uncertain": "may start or not",
    "starts_but_not_carried": "cannot be carried once it runs",
    "does_not_start": "does not start",
    "not_a_surge_problem": "is not a matter of surge",
}
