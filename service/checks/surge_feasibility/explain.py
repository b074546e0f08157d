"""From solved starts to the answer, in words."""

from __future__ import annotations

import math

import numpy as np

from service.check import Includes
from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.arguments import Solvable, solvable
from service.checks.surge_feasibility.assumptions import assumptions
from service.checks.surge_feasibility.cautions import cautions
from service.checks.surge_feasibility.motor_verdict import (
    SPOKEN,
    WORDS,
    MotorVerdict,
    motor_verdict,
    remedies,
    start_amps,
)
from service.checks.surge_feasibility.other_readings import alternatives
from service.checks.surge_feasibility.questions import questions
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.screens import screens
from service.checks.surge_feasibility.steady import Carried, steady
from service.facts import Motor
from service.findings import (
    Basis,
    Finding,
    Series,
    Verdict,
    headline,
    source_refs,
    worst,
    worst_first,
)
from service.published import data_edition, load


def answered(request: SurgeFeasibilityRequest, includes: Includes) -> an.SurgeFeasibilityAnswer:
    """Return the whole answer to a request."""
    with np.errstate(all="ignore"):
        return _answered(request, includes)


def verdict_of(request: SurgeFeasibilityRequest) -> Verdict:
    """Return the verdict of the whole answer to a request."""
    _, _, judged, carried = _judged(request, shown=False)
    return _whole(judged, carried)


def _judged(
    request: SurgeFeasibilityRequest, *, shown: bool
) -> tuple[Solvable | None, tried.Solved | None, list[MotorVerdict], Carried]:
    made = solvable(request)
    found = None if made is None else tried.solved(request, made, shown=shown)
    lanes = {} if made is None else {place: lane for lane, place in enumerate(made.places)}
    judged = [
        motor_verdict(request, found, lanes[place], place)
        if found is not None and place in lanes
        else _unsolved(motor)
        for place, motor in enumerate(request.motors)
    ]
    return made, found, judged, steady(request)


def _unsolved(motor: Motor) -> MotorVerdict:
    """Return how a motor stands whose start is not solved."""
    if motor.kind == "drive_fed":
        return MotorVerdict(Verdict.PASS, (), "Its drive brings it up without a surge.")
    if motor.phases == 3:
        return MotorVerdict(Verdict.UNDETERMINED, (), "Three-phase motors are not solved.")
    return MotorVerdict(Verdict.UNDETERMINED, (), "Nothing is known that gives its amps.")


def _whole(judged: list[MotorVerdict], carried: Carried) -> Verdict:
    return worst([*(one.verdict for one in judged), *(f.verdict for f in carried.findings)])


def _answered(request: SurgeFeasibilityRequest, includes: Includes) -> an.SurgeFeasibilityAnswer:
    made, found, judged, carried = _judged(request, shown=True)
    motors = [_motor(request, made, found, place, one) for place, one in enumerate(judged)]
    verdict = _whole(judged, carried)
    asked = questions(request, verdict, verdict_of)
    conditions = [*(c for one in judged for c in one.conditions), *carried.conditions]
    hangs_on = conditions if verdict is Verdict.CONDITIONAL else []
    order = tried.order_of(request)
    evidence = [] if made is None else made.evidence
    answer = an.SurgeFeasibilityAnswer(
        verdict=verdict,
        headline=headline(verdict, hangs_on, _body(motors, carried), asked),
        summary=_summary(motors, verdict),
        conditions=hangs_on,
        findings=worst_first([*_findings(motors, made), *carried.findings]),
        alternatives=alternatives(request, made, found, carried, verdict),
        assumptions=assumptions(request, made),
        questions=asked,
        cautions=cautions(request),
        sources=source_refs(
            [
                *(source for one in evidence for source in one.sources),
                *(load("island_rules").cite(rule) for rule in load("island_rules").rows),
            ]
        ),
        basis=Basis(code_edition=None, data_edition=data_edition()),
        reference=request.reference,
        motors=motors,
        steady=carried.numbers,
        restart_order=[
            request.motors[place].id for place in sorted(range(len(order)), key=order.__getitem__)
        ],
    )
    if "series" in includes:
        answer.series = [] if found is None or made is None else _series(request, made, found)
    return answer


def _motor(
    request: SurgeFeasibilityRequest,
    made: Solvable | None,
    found: tried.Solved | None,
    place: int,
    judged: MotorVerdict,
) -> an.MotorStart:
    motor = request.motors[place]
    if made is None or found is None or place not in made.places:
        word: an.Word = "not_a_surge_problem" if motor.kind == "drive_fed" else "uncertain"
        return an.MotorStart(
            id=motor.id,
            verdict=judged.verdict,
            word=word,
            statement=_sentence(motor.id, word, judged),
            evidence=None,
            pessimistic=None,
            optimistic=None,
        )
    lane = made.places.index(place)
    words, start = found.of[tried.BARE]
    evidence = made.evidence[lane]
    hand = screens(made.case)
    word = WORDS[int(words.word[lane])]
    share = float(found.share[lane])
    beside = made.case.beside_impedance[lane] + made.case.beside_power[lane]
    started = float(start.started[lane])
    known = bool(start.fits[lane] & start.solved[lane])
    return an.MotorStart(
        id=motor.id,
        verdict=judged.verdict,
        word=word,
        statement=_sentence(motor.id, word, judged),
        evidence=an.Evidence(
            basis=evidence.basis,
            locked_rotor_low_a=evidence.low,
            locked_rotor_a=evidence.nominal,
            locked_rotor_high_a=evidence.high,
            rated_load_a=evidence.rated,
        ),
        pessimistic=WORDS[int(words.pessimistic[lane])],
        optimistic=WORDS[int(words.optimistic[lane])],
        start_seconds=_number(started),
        least_bus_percent=_number(100 * start.least_bus[lane], known),
        least_motor_percent=_number(100 * start.least_motor_volts[lane], known),
        start_amps=_number(start_amps(start, lane), known),
        most_amps=_number(start.most_amps[lane], known),
        most_kva=_number(start.most_va[lane] / 1000, known),
        ceiling_seconds=_number(start.ceiling_seconds[lane], known),
        least_amps_that_move_it=_number(hand.least_amps[lane]),
        divider_percent=_number(100 * hand.divider[lane]),
        first_rating_a=_number(hand.first_rating[lane]),
        largest_load_beside_w=_number(max(share, 0.0) * beside.real, not math.isnan(share)),
        remedies=[] if judged.verdict is Verdict.PASS else remedies(request, found, lane, place),
    )


def _number(value: float, known: bool = True) -> float | None:
    """Return a number to say, None where there is none."""
    return float(value) if known and math.isfinite(value) else None


def _sentence(name: str, word: an.Word, judged: MotorVerdict) -> str:
    line = f"{name} {SPOKEN[word]}."
    return f"{line} {judged.because}" if judged.because else line


def _findings(motors: list[an.MotorStart], made: Solvable | None) -> list[Finding]:
    cited = {} if made is None else dict(zip(made.places, made.evidence, strict=True))
    return [
        Finding(
            rule="motor-starts",
            verdict=motor.verdict,
            statement=motor.statement,
            actual=motor.start_amps,
            limit=None if motor.start_amps is None else motor.first_rating_a,
            unit=None if motor.start_amps is None else "A",
            sources=[source.id for source in cited[place].sources] if place in cited else [],
        )
        for place, motor in enumerate(motors)
    ]


def _body(motors: list[an.MotorStart], carried: Carried) -> str:
    starts = " ".join(motor.statement for motor in motors) or "No motor is to start."
    amps = math.ceil(carried.numbers.leg_likely_a)
    return f"{starts} Everything together takes about {amps} A on the heavier leg."


def _summary(motors: list[an.MotorStart], verdict: Verdict) -> str:
    if verdict is Verdict.FAIL:
        return "As it is planned, the battery does not start and carry everything that was chosen."
    if verdict is Verdict.UNDETERMINED:
        return (
            "Whether the battery starts and carries everything that was chosen is not known yet: "
            "some facts are missing."
        )
    names = ", ".join(motor.id for motor in motors) or "the chosen circuits"
    tail = ", if the conditions are met" if verdict is Verdict.CONDITIONAL else ""
    return f"The battery is expected to start and carry {names} beside the chosen circuits{tail}."


def _series(request: SurgeFeasibilityRequest, made: Solvable, found: tried.Solved) -> list[Series]:
    lines = []
    start = found.of[tried.BARE][1]
    for lane, place in enumerate(made.places):
        name = request.motors[place].id
        course = start.course
        time = course.time[..., lane].ravel().tolist()
        for what, unit, values in (
            ("speed", "%", course.speed * 100),
            ("bus volts", "V", course.bus),
            ("motor volts", "V", course.motor_volts),
            ("inverter amps", "A", course.amps),
        ):
            lines.append(
                Series(
                    id=f"{place}/{what.replace(' ', '-')}",
                    label=f"{name}: {what}",
                    x_unit="s",
                    y_unit=unit,
                    x=time,
                    y=values[..., lane].ravel().tolist(),
                )
            )
    return lines
