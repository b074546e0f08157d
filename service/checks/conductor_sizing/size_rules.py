"""The constraints on the size of the phases, each with its own size."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import size_name
from service.checks.conductor_sizing.circuit_kinds import KINDS
from service.checks.conductor_sizing.conditions_of_use import (
    NOT_PERMITTED,
    SHORT_PART_EXCEPTED,
    TOO_HOT,
)
from service.checks.conductor_sizing.constraints import (
    CONDITIONS,
    DROP,
    PARALLEL,
    PROTECTION,
    SIZES_AT_HAND,
    SMALL_CONDUCTOR,
    TERMINALS,
)
from service.checks.conductor_sizing.motor_rules import MOTOR_WORDS
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.tables import COLUMNS
from service.findings import Finding, Verdict

#: Constraint -> its rule, what would let a smaller size do.
RULES = {
    TERMINALS: ("terminal-temperature", "Fewer amps would, or terminals marked 75 degC."),
    CONDITIONS: ("conditions-of-use", "A cooler route, or fewer circuits together, would."),
    PROTECTION: ("breaker-protects", "A smaller breaker would, where the amps allow it."),
    SMALL_CONDUCTOR: ("small-conductor", "A smaller breaker would, where the amps allow it."),
    PARALLEL: ("parallel-sets", "One set instead of several would."),
    SIZES_AT_HAND: ("sizes-at-hand", "A terminal or a cable that takes a smaller conductor would."),
    DROP: ("voltage-drop", "A shorter run, or a larger drop that is put up with, would."),
}
#: What helps where no size meets a constraint.
_HELPS = {
    TERMINALS: "two sets in parallel, or a terminal that takes more",
    CONDITIONS: "a cooler route, an insulation for hotter or wet places, fewer circuits together",
    PROTECTION: "two sets in parallel",
    SMALL_CONDUCTOR: "a larger conductor or a smaller breaker",
    PARALLEL: "one set, or conductors of 1/0 AWG and larger",
    SIZES_AT_HAND: "parallel sets",
    DROP: "parallel sets, a shorter run, or the equipment nearer to the panel",
}


def size_rules(request: ConductorSizingRequest, sized: Sized) -> list[Finding]:
    """Return a finding for every constraint, in the order in which they are worked through."""
    smallest = sized.found.smallest[sized.lane]
    return [
        _finding(request, sized, constraint, int(smallest[constraint]))
        for constraint in RULES
        if constraint != SIZES_AT_HAND and (constraint != PARALLEL or request.circuit.sets > 1)
    ]


def _finding(request: ConductorSizingRequest, sized: Sized, constraint: int, size: int) -> Finding:
    rule, _ = RULES[constraint]
    why = _why(request, sized, constraint)
    if size < 0:
        return Finding(
            rule=rule,
            verdict=Verdict.FAIL,
            statement=f"{why} No size meets it. It would help: {_HELPS[constraint]}.",
        )
    if sized.size < 0 and constraint == int(sized.found.governing[sized.lane]):
        return Finding(
            rule=rule,
            verdict=Verdict.FAIL,
            statement=(
                f"{why} That takes {name(size)} or larger, which the other rules leave out. It "
                f"would help: {_HELPS[constraint]}."
            ),
        )
    return Finding(
        rule=rule,
        verdict=Verdict.PASS,
        statement=f"{why} That takes {name(size)} or larger.",
    )


def name(size: int) -> str:
    """Return a size as it is said: 4 AWG, 250 kcmil."""
    return said(size_name(size))


def said(shown: str | None) -> str:
    """Return the name of a size with its unit."""
    if shown is None:
        return "none"
    unit = "kcmil" if shown.isdigit() and int(shown) >= 250 else "AWG"
    return f"{shown} {unit}"


def _why(request: ConductorSizingRequest, sized: Sized, constraint: int) -> str:
    found, lane, current = sized.found, sized.lane, sized.current
    breaker = float(found.device.rating[lane])
    if request.circuit.kind == "motor_branch" and constraint in MOTOR_WORDS:
        return MOTOR_WORDS[constraint]
    return {
        TERMINALS: (
            f"At the terminals {current.raised:.4g} A stand in the column of "
            f"{COLUMNS[int(found.column[lane])]} degC."
        ),
        CONDITIONS: _conditions(sized),
        PROTECTION: _protection(request, breaker),
        SMALL_CONDUCTOR: f"Behind a breaker of {breaker:g} A small conductors are capped.",
        PARALLEL: f"{request.circuit.sets} sets lie in parallel, each of 1/0 AWG or larger.",
        SIZES_AT_HAND: "No conductor above 500 kcmil is pulled; beyond it sets lie in parallel.",
        DROP: _drop(request, sized),
    }[constraint]


def _conditions(sized: Sized) -> str:
    conditions, lane = sized.found.conditions, sized.lane
    code = int(conditions.code[lane])
    factor = conditions.factor[lane][: len(sized.parts)]
    if code == NOT_PERMITTED:
        return "The insulation or cable may not lie where a part of the run lies."
    if code == TOO_HOT:
        return "A part of the run is hotter than its insulation is made for."
    line = (
        f"Where it is hottest and fullest {factor.min():.3g} of the ampacity is left, for "
        f"{sized.current.amps:.4g} A."
    )
    if code == SHORT_PART_EXCEPTED:
        line += (
            " A short hot part of no more than 10 ft and a tenth of the run is left out; the table "
            "by distance leaves out none, since a shorter run may not."
        )
    return line


def _protection(request: ConductorSizingRequest, breaker: float) -> str:
    if request.circuit.kind == "storage_output":
        return (
            f"The breaker of {breaker:g} A protects a conductor of no less ampacity: on the output "
            "of storage the next size up is not counted on."
        )
    return (
        f"The breaker of {breaker:g} A protects a conductor of no less ampacity, or of the next "
        "standard rating below it."
    )


def _drop(request: ConductorSizingRequest, sized: Sized) -> str:
    circuit = request.circuit
    length = sized.length / 0.3048
    target = KINDS[circuit.kind].target * 100
    if request.drop_target_percent is not None:
        target = request.drop_target_percent
    line = f"{length:.0f} ft one way at {sized.current.amps:.4g} A and {circuit.volts:g} V"
    if sized.size >= 0:
        drop = 100.0 * float(sized.found.drop[sized.lane, 0]) / circuit.volts
        line += f" take {drop:.2f} % in {name(sized.size)}"
    line += f"; the target is {target:g} %"
    if request.path_drop_percent:
        line += f", of which other parts of the path take {request.path_drop_percent:g} %"
    return f"{line}."
