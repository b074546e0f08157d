"""One motor of the answer: how its start stands, in numbers and in one sentence."""

from __future__ import annotations

import math

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.margins import margins
from service.checks.surge_feasibility.motor_verdict import SPOKEN, WORDS, MotorVerdict, start_amps
from service.checks.surge_feasibility.remedy_rows import remedies
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.screens import screens
from service.findings import Verdict

_THIN = {
    "surge-amps": "the ratings are close to its start",
    "breakaway-torque": "little torque is left to break it away",
    "motor-volts": "its volts sag far",
    "surge-time": "it uses most of a rating's time",
    "running-amps": "less than a tenth of the continuous amps is left over",
}


def motor_row(
    request: SurgeFeasibilityRequest, stands: Judgement, place: int, *, shown: bool
) -> an.MotorStart:
    """Return one motor on one source; `shown`: with what was tried for it."""
    motor, judged = request.motors[place], stands.motors[place]
    made, found = stands.made, stands.found
    if made is None or found is None or place not in made.places:
        word: an.Word = "uncertain"
        if judged.verdict is Verdict.FAIL:
            word = "does_not_start"
        elif motor.kind == "drive_fed":
            word = "not_a_surge_problem"
        return an.MotorStart(
            id=motor.id,
            verdict=judged.verdict,
            word=word,
            statement=_unsolved(motor.id, word, judged),
            evidence=None,
            pessimistic=None,
            optimistic=None,
        )
    lane = made.places.index(place)
    words, corners = found.of[tried.BARE]
    start = corners.nominal
    evidence = made.evidence[lane]
    hand = screens(made.case)
    word = WORDS[int(words.word[lane])]
    way = int(found.of[judged.version][0].word[lane])
    share = float(found.share[lane])
    known = bool(start.fits[lane] & start.solved[lane])
    kept = margins(made, start, lane, pump=motor.kind.endswith("_pump"))
    # A part of what runs is no answer where life support is among it.
    tells = not math.isnan(share) and not any(r.life_support for r in request.running or [])
    helped = shown and judged.verdict is not Verdict.PASS
    return an.MotorStart(
        id=motor.id,
        verdict=judged.verdict,
        word=word,
        statement=_sentence(motor.id, word, judged, WORDS[way], kept),
        evidence=an.Evidence(
            basis=evidence.basis,
            locked_rotor_low_a=evidence.low,
            locked_rotor_a=evidence.nominal,
            locked_rotor_high_a=evidence.high,
            rated_load_low_a=evidence.rated_low,
            rated_load_a=evidence.rated,
            rated_load_high_a=evidence.rated_high,
        ),
        pessimistic=WORDS[int(words.pessimistic[lane])],
        optimistic=WORDS[int(words.optimistic[lane])],
        start_seconds=_number(float(start.started[lane])),
        least_bus_percent=_number(100 * start.least_bus[lane], known),
        least_motor_percent=_number(100 * start.least_motor_volts[lane], known),
        start_amps=_number(start_amps(start, lane), known),
        most_amps=_number(start.most_amps[lane], known),
        most_kva=_number(start.most_va[lane] / 1000, known),
        ceiling_seconds=_number(start.ceiling_seconds[lane], known),
        least_amps_that_move_it=_number(hand.least_amps[lane]),
        divider_percent=_number(100 * hand.divider[lane]),
        first_rating_a=_number(hand.first_rating[lane]),
        largest_load_beside_w=_number(max(share, 0.0) * made.watts[lane], tells),
        margins=kept,
        remedies=remedies(request, stands.source, found, lane, place) if helped else [],
    )


def _number(value: float, known: bool = True) -> float | None:
    """Return a number to say, None where there is none."""
    return float(value) if known and math.isfinite(value) else None


def _sentence(
    name: str, word: an.Word, judged: MotorVerdict, way: an.Word | None, kept: list[an.Margin]
) -> str:
    """Return how a motor starts: the way first that its verdict takes, then as it stands."""
    line = f"{name} {SPOKEN[word]}."
    if judged.way and way is not None:
        line = f"{judged.way} {name} {SPOKEN[way]}. As it stands it {SPOKEN[word]}."
    if judged.because:
        line += f" {judged.because}"
    thin = [_THIN[margin.limit] for margin in kept if not margin.met]
    if thin and word in ("starts", "starts_lights_dip"):
        line += f" Thin: {'; '.join(thin)}."
    return line


def _unsolved(name: str, word: an.Word, judged: MotorVerdict) -> str:
    if word == "uncertain":
        return f"Whether {name} starts is not known. {judged.because}"
    return f"{name} {SPOKEN[word]}. {judged.because}"
