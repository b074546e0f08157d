"""What is carried once everything runs: amps of the legs, power, the batteries."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.evidence import motor_evidence
from service.checks.surge_feasibility.leg_amps import (
    BOTH_LEGS,
    LEG_1,
    LegAmps,
    leg_amps,
    usual_share,
)
from service.checks.surge_feasibility.motor_verdict import SPREAD_OUT
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.running_va import CONNECTIONS, Ends, load_va, motor_va
from service.checks.surge_feasibility.source import Source
from service.checks.surge_feasibility.words import up
from service.findings import Finding, Verdict
from service.quantities.comparison import reaches


class Carried(NamedTuple):
    """The numbers, the findings, the conditions they hang on."""

    numbers: an.Steady
    findings: list[Finding]
    conditions: list[str]
    largest_va: float
    known: bool
    continuous_va: float
    running_va: float
    fits: bool


def steady(request: SurgeFeasibilityRequest, source: Source) -> Carried:
    """Return what a source carries once all motors have started."""
    loads = [(load_va(load), CONNECTIONS[load.circuit]) for load in request.running or []]
    ends = [motor_va(motor) for motor in request.motors]
    # One leg is all that a source of 120 V has.
    one_leg = source.volts < 240.0
    legs = np.array(
        [
            [LEG_1 if one_leg else code for _, code in loads]
            + [LEG_1 if one_leg else CONNECTIONS[motor.circuit] for motor in request.motors]
            or [BOTH_LEGS]
        ]
        * 3
    )
    steady_va = [va for va, _ in loads]
    va = np.array([[*steady_va, *(getattr(end, name) for end in ends)] or [0j] for name in _ENDS])
    whole = np.arange(va.shape[1]) >= len(loads)
    amps = leg_amps(va, legs, usual_share(va, legs, whole), whole)
    totals = va.sum(axis=1)
    total = complex(totals[_NOMINAL])
    numbers = an.Steady(
        continuous_a=source.leg,
        leg_likely_a=float(amps.likely[_NOMINAL]),
        leg_most_a=float(amps.most[_HIGH]),
        neutral_most_a=float(amps.neutral[_HIGH, 2]),
        running_kw=total.real / 1000,
        running_kva=abs(total) / 1000,
    )
    # Motors of which nothing is known, and loads that nobody named, take amps not counted here.
    known = request.running is not None and all(end.high for end in ends)
    findings, conditions = [_legs(source, numbers, amps, known)], []
    if findings[0].verdict is Verdict.FAIL and _guessed(request):
        findings[0].verdict = Verdict.UNDETERMINED
        findings[0].statement += " The amps of a motor are a guess: the nameplate decides."
    if findings[0].verdict is Verdict.CONDITIONAL:
        conditions.append(SPREAD_OUT)
    if math.isfinite(source.power):
        findings.append(_power("running-power", source.power, totals.real, known, _RATED))
    if source.battery is not None:
        findings.append(_power("battery-power", source.battery, totals.real, known, _BATTERIES))
    largest = float(np.abs(va[_HIGH]).max())
    # Amps of motors that nobody stated are taken at their low end: nothing fails for a guess.
    running = float(abs(totals[_LOW]))
    fits = not any(finding.verdict is Verdict.FAIL for finding in findings)
    return Carried(
        numbers, findings, conditions, largest, known, source.continuous_va, running, fits
    )


_ENDS = Ends._fields
_LOW, _NOMINAL, _HIGH = range(3)
_RATED, _BATTERIES = "the generator is rated", "the batteries give"


def _guessed(request: SurgeFeasibilityRequest) -> bool:
    """Return whether the amps of a motor are no more than a guess."""
    found = [motor_evidence(motor) for motor in request.motors if motor.kind != "drive_fed"]
    return any(one is not None and one.guessed for one in found)


def _legs(source: Source, numbers: an.Steady, legs: LegAmps, known: bool) -> Finding:
    what = source.kind if not source.joined else "inverter with the generator beside it"
    on = " on the heavier leg" if source.volts >= 240.0 else ""
    limit = numbers.continuous_a
    likely, least = float(legs.likely[_HIGH]), float(legs.least[_LOW])
    fits_most, fits_likely, may_fit = (
        bool(reaches(limit, amps, "current")) for amps in (numbers.leg_most_a, likely, least)
    )
    # The same with what the running amps of the motors are usually.
    usual = bool(reaches(limit, float(legs.likely[_NOMINAL]), "current"))
    if not may_fit:
        verdict, words = Verdict.FAIL, f"more than the {what} carries"
        if legs.most[_LOW] > legs.least[_LOW] * (1 + 1e-9):
            words += ", however the circuits of unknown leg are spread"
    elif not fits_likely:
        verdict = Verdict.UNDETERMINED
        words = f"more than the {what} carries unless " + (
            "the running amps of the motors lie at the low end of what is known"
            if usual or legs.most[_NOMINAL] == legs.least[_NOMINAL]
            else "the 120 V circuits lie well on both legs"
        )
    elif not known:
        verdict, words = Verdict.UNDETERMINED, "of what is stated; not all of it is known"
    elif not fits_most:
        verdict = Verdict.CONDITIONAL
        words = "which it carries if the 120 V circuits are spread over both legs"
    else:
        verdict, words = Verdict.PASS, f"which the {what} carries"
        if numbers.leg_most_a > 0.9 * limit:
            words += ", with less than a tenth left over"
    amps = numbers.leg_most_a if fits_likely else likely if may_fit else least
    statement = f"Everything together takes {up(amps)} A{on}, {words}."
    return Finding(
        rule="running-amps",
        verdict=verdict,
        statement=statement,
        actual=amps,
        limit=limit,
        unit="A",
    )


def _power(
    rule: str, limit: float, running: NDArray[np.float64], known: bool, words: str
) -> Finding:
    high, low = float(running[_HIGH]), float(running[_LOW])
    enough, may = (bool(reaches(limit, watts, "power")) for watts in (high, low))
    open_ = Verdict.UNDETERMINED
    kilo = (high if may else low) / 1000.0
    return Finding(
        rule=rule,
        verdict=Verdict.FAIL if not may else Verdict.PASS if enough and known else open_,
        statement=f"Everything together takes {up(kilo)} kW, and {words} {limit / 1000.0:g} kW.",
        actual=kilo,
        limit=limit / 1000.0,
        unit="kW",
    )
