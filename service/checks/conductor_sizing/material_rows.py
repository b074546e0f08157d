"""A circuit in one material: its sizes, its rules, how far each size reaches, what to bring."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from service.checks.conductor_sizing import answer as an
from service.checks.conductor_sizing import other_rules as other
from service.checks.conductor_sizing.arguments import edition_of_place, size_name
from service.checks.conductor_sizing.conditions_of_use import SHORT_PART_EXCEPTED
from service.checks.conductor_sizing.control_cable import control_cable
from service.checks.conductor_sizing.leg_drop import leg_drop
from service.checks.conductor_sizing.motor_rules import motor_breaker
from service.checks.conductor_sizing.neutral_rule import neutral_rule
from service.checks.conductor_sizing.parts import Part
from service.checks.conductor_sizing.place_rules import earth, places
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import RULES, relaxed, size_rules
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.sizes_at_hand import sizes_at_hand
from service.checks.conductor_sizing.sizing import NO_DEVICE
from service.checks.conductor_sizing.terminal_fit import terminal_fit
from service.checks.conductor_sizing.voltage_drop import loss
from service.facts import CoarseRun, DistanceRun
from service.findings import Finding, Verdict, worst
from service.published import load

RULE = "conductor-tables"
#: Hours of full load a year where none are stated [h]. Standing: common practice, no source: a
#: battery cycled daily for some 3 hours.
FULL_LOAD_HOURS = 1000.0
#: What is pulled beyond the run: a tenth, and at both ends together [m]. Standing: common practice,
#: no source.
_SLACK, _ENDS = 0.10, 12 * 0.3048
_SHORTER_IS_HOTTER = (
    "A larger drop that is put up with would; a shorter run might have no short part to leave out."
)
#: A reach beyond this is no limit [m]: ten miles.
_FAR = 52_800 * 0.3048


class Made(NamedTuple):
    """One material of the answer, and the conditions that it hangs on."""

    row: an.MaterialSizing
    conditions: list[str]


def material_rows(request: ConductorSizingRequest, both: list[Sized]) -> list[Made]:
    """Return both materials of the answer."""
    shared = _shared_rules(request, both[0].parts)
    return [_row(request, one, shared) for one in both]


def _row(request: ConductorSizingRequest, sized: Sized, shared: list[other.Row]) -> Made:
    lane, size = sized.lane, sized.size
    found = sized.found
    rows = _rules(request, sized, shared)
    findings = [finding for finding, _ in rows]
    fits = size >= 0
    governing = int(found.governing[lane])
    rule = RULES[governing]
    volts = request.circuit.volts
    drop = float(found.drop[lane, 0])
    heat = float(loss(np.array([sized.current.flowing]), sized.resistance))
    leg = leg_drop(request, sized)
    hours = FULL_LOAD_HOURS if request.full_load_hours is None else request.full_load_hours
    marginal = bool(found.ground.marginal[lane])
    device = float(found.device.rating[lane])
    row = an.MaterialSizing(
        material=sized.material,  # type: ignore[arg-type]  # one of both
        verdict=worst([finding.verdict for finding in findings]),
        phase=size_name(size),
        neutral=size_name(sized.neutral),
        ground=size_name(sized.ground),
        ground_but_for_rounding=size_name(sized.ground - 1) if marginal else None,
        breaker_a=device or None,
        ampacity_a=float(found.ampacity[lane]) if fits else None,
        drop_v=drop if fits else None,
        drop_percent=100.0 * drop / volts if fits else None,
        leg_drop_percent=None if leg is None else 100.0 * leg,
        loss_w=heat if fits else None,
        loss_kwh_a_year=heat * hours / 1000.0 if fits else None,
        governing="overcurrent-device" if int(found.code[lane]) == NO_DEVICE else rule,
        relax=_shorter(sized, rule) or relaxed(request, sized, governing),
        raceways=sized.raceways if fits else [],
        reach=_reach(sized),
        pull=_pull(request, sized) if fits and not sized.lacks_neutral else [],
        findings=findings,
    )
    conditions = [condition for _, condition in rows if condition is not None]
    return Made(row, list(dict.fromkeys(conditions)))


def _rules(
    request: ConductorSizingRequest, sized: Sized, shared: list[other.Row]
) -> list[other.Row]:
    found = [motor_breaker(request, sized) or other.breaker(request, sized)]
    found += other.existing_breaker(request, sized)
    found += [(finding, None) for finding in size_rules(request, sized)]
    found += sizes_at_hand(request, sized)
    if sized.size >= 0:
        found.append(other.ground(sized))
        found += neutral_rule(request, sized)
        found += other.raceway(sized)
    found += terminal_fit(request, sized)
    return found + shared


def _shared_rules(request: ConductorSizingRequest, parts: list[Part]) -> list[other.Row]:
    """Return the rules that hold of the run and the circuit whatever the material."""
    found = earth(parts)
    found += places(request, parts)
    found += other.building(request)
    found += control_cable(request, sum(part.length for part in parts) / 0.3048)
    found += _length(request)
    found += _edition(request)
    found += _nameplate(request)
    if RULE not in request.confirmed_rules:
        words = "Tables and rules were seen as public transcriptions, not in the code itself."
        finding = Finding(rule=RULE, verdict=Verdict.CONDITIONAL, statement=words)
        found.append((finding, "sizes and rules are confirmed against the code as adopted"))
    return found


def _edition(request: ConductorSizingRequest) -> list[other.Row]:
    """Return whether the edition stated is that of the place and date."""
    if request.edition == "nec-2026":
        words = "What the edition of 2026 says was not seen: the sizes are those of 2023."
        finding = Finding(rule="code-edition", verdict=Verdict.UNDETERMINED, statement=words)
        return [(finding, None)]
    place, known = edition_of_place(request)
    if request.edition is None or not known or place == request.edition:
        return []
    words = (
        f"The edition stated is that of {request.edition[-4:]}; place and date read that of "
        f"{place[-4:]}."
    )
    finding = Finding(rule="code-edition", verdict=Verdict.CONDITIONAL, statement=words)
    return [(finding, f"the authority accepts the edition of {request.edition[-4:]}")]


def _length(request: ConductorSizingRequest) -> list[other.Row]:
    if isinstance(request.run, DistanceRun):
        words = "Where the run leads is not stated: an attic or a roof would take larger sizes."
        finding = Finding(rule="run-places", verdict=Verdict.CONDITIONAL, statement=words)
        return [
            (finding, "no part of the run lies in an attic, on a roof or beside other circuits")
        ]
    if not isinstance(request.run, CoarseRun):
        return []
    table = load("coarse_distances")
    low, high = (table.number(request.run.answer, end) for end in ("low", "high"))
    words = (
        f"The distance is a telephone answer, {low:.0f} to {high:.0f} ft: the table by distance "
        "says what it changes."
    )
    return [(Finding(rule="run-length", verdict=Verdict.UNDETERMINED, statement=words), None)]


def _nameplate(request: ConductorSizingRequest) -> list[other.Row]:
    if request.circuit.kw is None:
        return []
    words = "The amps are worked out of kW; those of the nameplate go before them."
    finding = Finding(rule="nameplate-amps", verdict=Verdict.CONDITIONAL, statement=words)
    return [(finding, "the nameplate states no more amps than these")]


def _reach(sized: Sized) -> list[an.Reach]:
    """Return the sizes at which the longest run grows, to the first that reaches any."""
    found: list[an.Reach] = []
    before = 0.0
    for size, metres in enumerate(sized.up_to.tolist()):
        if metres <= before:
            continue
        name = size_name(size)
        assert name is not None
        feet = min(metres, _FAR) / 0.3048
        found.append(an.Reach(size=name, up_to_ft=math.floor(feet + 1e-6)))
        before = metres
        if metres >= _FAR:
            break
    return found


def _shorter(sized: Sized, rule: str) -> str:
    """Return how short a run lets the next smaller size do; empty: it does not govern."""
    if rule != "voltage-drop" or sized.size <= 0:
        return ""
    metres = float(sized.up_to[sized.size - 1])
    if metres <= 0:
        lifted = int(sized.found.conditions.code[sized.lane]) == SHORT_PART_EXCEPTED
        return _SHORTER_IS_HOTTER if lifted else ""
    feet = math.floor(metres / 0.3048 + 1e-6)
    return f"A run of at most {feet} ft would, or a larger drop that is put up with."


def _pull(request: ConductorSizingRequest, sized: Sized) -> list[an.Pull]:
    sets = request.circuit.sets
    one = (sized.length * (1 + _SLACK) + _ENDS) / 0.3048
    rows = [("phase", sized.size, 2), ("neutral", sized.neutral, 1), ("ground", sized.ground, 1)]
    return [
        an.Pull(use=use, size=name, feet=math.ceil(one * count * sets - 1e-6))  # type: ignore[arg-type]
        for use, size, count in rows
        if (name := size_name(size)) is not None
    ]
