"""How every motor of a request stands on each of its sources, and what the sources carry."""

from __future__ import annotations

from typing import NamedTuple

from service.check import Arrays
from service.checks.surge_feasibility.motor_verdict import MotorVerdict, motor_verdict
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.source import Source, sources_of
from service.checks.surge_feasibility.starts import Starts
from service.checks.surge_feasibility.versions import Solved
from service.facts import Motor
from service.findings import Verdict


class Judgement(NamedTuple):
    """The motors of a request on one source, and how each stands."""

    source: Source
    made: Starts | None
    found: Solved | None
    motors: list[MotorVerdict]


def judgements(request: SurgeFeasibilityRequest, columns: Arrays, row: int) -> list[Judgement]:
    """Return how the motors stand on each source, the planned one first."""
    offsets = columns["source_offsets"]
    solved = columns["solved"][offsets[row] : offsets[row + 1]]
    sources = sources_of(request.inverter, request.generator)
    made = columns["made"][offsets[row] : offsets[row + 1]]
    return [
        Judgement(source, starts, found, _motors(request, source, starts, found))
        for source, starts, found in zip(sources, made, solved, strict=True)
    ]


def _motors(
    request: SurgeFeasibilityRequest, source: Source, made: Starts | None, found: Solved | None
) -> list[MotorVerdict]:
    lanes = {} if made is None else {place: lane for lane, place in enumerate(made.places)}
    return [
        motor_verdict(request, source, found, lanes[place], place)
        if found is not None and place in lanes
        else _unsolved(motor, source)
        for place, motor in enumerate(request.motors)
    ]


def _unsolved(motor: Motor, source: Source) -> MotorVerdict:
    """Return how a motor stands whose start is not solved."""
    if motor.circuit == "both_legs" and source.volts < 240.0:
        return MotorVerdict(Verdict.FAIL, (), "The source has no 240 V.")
    if motor.kind == "drive_fed":
        return MotorVerdict(Verdict.PASS, (), "Its drive brings it up without a surge.")
    if motor.phases == 3:
        return MotorVerdict(Verdict.UNDETERMINED, (), "Three-phase motors are not solved.")
    return MotorVerdict(Verdict.UNDETERMINED, (), "Nothing is known that gives its amps.")
