"""What is carried once everything runs: legs, the capacity of what is backed up, the batteries."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.arguments import CONNECTIONS, load_va, motor_va
from service.checks.surge_feasibility.leg_amps import BOTH_LEGS, LEG_1, leg_amps
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import Finding, Verdict
from service.physics.backed_up_capacity import SHORT, UNKNOWN, backed_up_capacity
from service.published import load
from service.quantities.comparison import reaches

RULE = "backed-up-capacity"


class Carried(NamedTuple):
    """The numbers, the findings, the conditions they hang on."""

    numbers: an.Steady
    findings: list[Finding]
    conditions: list[str]
    largest_va: float
    known: bool
    continuous_va: float


def steady(request: SurgeFeasibilityRequest) -> Carried:
    """Return what is carried once all motors have started."""
    inverter = request.inverter
    continuous = inverter.continuous_a * inverter.count
    continuous_va = continuous * inverter.volts
    loads = [(load_va(load), CONNECTIONS[load.circuit]) for load in request.running or []]
    loads += [(motor_va(motor), CONNECTIONS[motor.circuit]) for motor in request.motors]
    va = np.array([[one for one, _ in loads] or [0j]])
    legs = np.array([[code for _, code in loads] or [BOTH_LEGS]])
    if inverter.volts == 120:
        # One leg is all there is.
        legs = np.full_like(legs, LEG_1)
    amps = leg_amps(va, legs)
    total = complex(va.sum())
    numbers = an.Steady(
        continuous_a=continuous,
        leg_likely_a=float(amps.likely[0]),
        leg_most_a=float(amps.most[0]),
        neutral_most_a=float(amps.neutral[0, 2]),
        running_kw=total.real / 1000,
        running_kva=abs(total) / 1000,
    )
    # Motors of which nothing is known, and loads that nobody named, take amps not counted here.
    known = request.running is not None and all(motor_va(motor) for motor in request.motors)
    findings, conditions = [_legs(numbers, float(amps.least[0]), known)], []
    if findings[0].verdict is Verdict.CONDITIONAL:
        conditions.append("an electrician spreads the 120 V circuits over both legs")
    capacity, words = _capacity(request, continuous_va)
    findings.append(capacity)
    conditions += words
    if inverter.battery_kw is not None:
        findings.append(_batteries(inverter.battery_kw * inverter.count, total.real / 1000, known))
    largest = max((abs(one) for one, _ in loads), default=0.0)
    return Carried(numbers, findings, conditions, largest, known, continuous_va)


def _legs(numbers: an.Steady, least: float, known: bool) -> Finding:
    limit = numbers.continuous_a
    fits_most, fits_likely, may_fit = (
        bool(reaches(limit, amps, "current"))
        for amps in (numbers.leg_most_a, numbers.leg_likely_a, least)
    )
    if not may_fit:
        verdict, words = Verdict.FAIL, "more than the inverter carries, however they are spread"
    elif not fits_likely:
        verdict = Verdict.UNDETERMINED
        words = "more than the inverter carries unless the 120 V circuits lie well on both legs"
    elif not known:
        verdict, words = Verdict.UNDETERMINED, "of what is stated; not all of it is known"
    elif not fits_most:
        verdict = Verdict.CONDITIONAL
        words = "which it carries if the 120 V circuits are spread over both legs"
    else:
        verdict, words = Verdict.PASS, "which the inverter carries"
        if numbers.leg_most_a > 0.9 * limit:
            words += ", with less than a tenth left over"
    amps = numbers.leg_most_a if fits_likely else numbers.leg_likely_a if may_fit else least
    statement = f"Everything together takes {_up(amps)} A on the heavier leg, {words}."
    return Finding(
        rule="running-amps",
        verdict=verdict,
        statement=statement,
        actual=amps,
        limit=limit,
        unit="A",
    )


def _capacity(request: SurgeFeasibilityRequest, continuous_va: float) -> tuple[Finding, list[str]]:
    transfer = request.transfer
    managed = None if transfer is None else transfer.managed_load_va
    connected = None if transfer is None else transfer.connected_load_va
    automatic = transfer is not None and transfer.kind == "automatic"
    found = backed_up_capacity(
        continuous_va,
        connected or 0.0,
        managed or 0.0,
        automatic,
        connected_known=connected is not None,
        managed=managed is not None,
    )
    code = int(found.code)
    required = float(found.required_va)
    conditions = []
    if code == UNKNOWN:
        verdict = Verdict.UNDETERMINED
        statement = (
            "The calculated load behind the transfer is not stated, so whether the source has the "
            "capacity for it is not known."
        )
    elif code == SHORT:
        verdict = Verdict.FAIL
        statement = (
            f"Behind the transfer stand {_up(required)} VA and the source has "
            f"{math.floor(continuous_va)} VA: less load behind it, load management or more units."
        )
    else:
        statement = (
            f"Behind the transfer stand {_up(required)} VA, and the source has "
            f"{math.floor(continuous_va)} VA."
        )
        verdict = Verdict.PASS
        if RULE not in request.confirmed_rules:
            verdict = Verdict.CONDITIONAL
            conditions.append("the authority reads the capacity rule for backed-up loads so")
        if automatic and managed is not None:
            verdict = Verdict.CONDITIONAL
            conditions.append("listed load management is fitted and set as stated")
    known = code != UNKNOWN
    return (
        Finding(
            rule=RULE,
            verdict=verdict,
            statement=statement,
            sources=[load("island_rules").cite(RULE).id],
            actual=continuous_va if known else None,
            limit=required if known else None,
            unit="VA" if known else None,
        ),
        conditions,
    )


def _batteries(limit: float, running: float, known: bool) -> Finding:
    enough = bool(reaches(limit, running, "power"))
    passes = Verdict.PASS if known else Verdict.UNDETERMINED
    return Finding(
        rule="battery-power",
        verdict=passes if enough else Verdict.FAIL,
        statement=(
            f"Everything together takes {running:.1f} kW, and the batteries give {limit:g} kW."
        ),
        actual=running,
        limit=limit,
        unit="kW",
    )


def _up(number: float) -> str:
    """Return a number rounded up, as a limit is held against."""
    return f"{math.ceil(number * 10 - 1e-9) / 10:g}"
