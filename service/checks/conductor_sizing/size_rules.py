"""The constraints on the size of the phases, each with its own size."""

from __future__ import annotations

from functools import lru_cache

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
from service.published.conductors import size_unit

#: Constraint -> its rule.
RULES = {
    TERMINALS: "terminal-temperature",
    CONDITIONS: "conditions-of-use",
    PROTECTION: "breaker-protects",
    SMALL_CONDUCTOR: "small-conductor",
    PARALLEL: "parallel-sets",
    SIZES_AT_HAND: "sizes-at-hand",
    DROP: "voltage-drop",
}
_RELAXED = {
    TERMINALS: "Fewer amps would.",
    PROTECTION: "A smaller breaker would, where the amps allow it.",
    SMALL_CONDUCTOR: "A smaller breaker would, where the amps allow it.",
    PARALLEL: "One set instead of several would.",
    SIZES_AT_HAND: "A terminal or a cable that takes a smaller conductor would.",
    DROP: "A shorter run, or a larger drop that is put up with, would.",
}
#: What helps where no size meets a constraint.
_HELPS = {
    TERMINALS: "more sets in parallel, or fewer amps",
    PROTECTION: "more sets in parallel",
    SMALL_CONDUCTOR: "a larger conductor or a smaller breaker",
    PARALLEL: "one set, or conductors of 1/0 AWG and larger",
    SIZES_AT_HAND: "more sets in parallel",
    DROP: "more sets in parallel, a shorter run, or the equipment nearer to the far end",
}


def relaxed(request: ConductorSizingRequest, sized: Sized, constraint: int) -> str:
    """Return what would let a smaller size do."""
    if constraint == CONDITIONS:
        cooler = "A cooler route, or fewer circuits together, would."
        return cooler if _derated(sized) else "Fewer amps would."
    ends = (request.circuit.near.marked, request.circuit.far.marked)
    open_ = any(marked in (None, 60) for marked in ends)
    cold = COLUMNS[int(sized.found.column[sized.lane])] == 60
    if constraint == TERMINALS and cold and open_ and all(part.cap > 60 for part in sized.parts):
        return "Fewer amps would, or terminals marked 75 degC."
    return _RELAXED[constraint]


def _helps(sized: Sized, constraint: int) -> str:
    if constraint != CONDITIONS:
        return _HELPS[constraint]
    code = int(sized.found.conditions.code[sized.lane])
    if code in (NOT_PERMITTED, TOO_HOT):
        return "another insulation or cable, or another route"
    if _derated(sized):
        return "a cooler route, fewer circuits together, more sets in parallel"
    return "more sets in parallel, or fewer amps"


def _derated(sized: Sized) -> bool:
    """Return whether heat or company takes anything away."""
    return bool(sized.found.conditions.factor[sized.lane][: len(sized.parts)].min() < 1.0)


def size_rules(request: ConductorSizingRequest, sized: Sized) -> list[Finding]:
    """Return a finding for every constraint, in the order in which they are worked through."""
    smallest = sized.found.smallest[sized.lane]
    return [
        _finding(request, sized, constraint, int(smallest[constraint]))
        for constraint in RULES
        if constraint != SIZES_AT_HAND and (constraint != PARALLEL or request.circuit.sets > 1)
    ]


def _finding(request: ConductorSizingRequest, sized: Sized, constraint: int, size: int) -> Finding:
    rule = RULES[constraint]
    why = _why(request, sized, constraint)
    if size < 0:
        return Finding(
            rule=rule,
            verdict=Verdict.FAIL,
            statement=f"{why} No size meets it. It would help: {_helps(sized, constraint)}.",
        )
    if sized.size < 0 and constraint == int(sized.found.governing[sized.lane]):
        return Finding(
            rule=rule,
            verdict=Verdict.FAIL,
            statement=(
                f"{why} That takes {name(size)} or larger, which the other rules leave out. It "
                f"would help: {_helps(sized, constraint)}."
            ),
        )
    return Finding(
        rule=rule,
        verdict=Verdict.PASS,
        statement=f"{why} That takes {name(size)} or larger.",
    )


@lru_cache(maxsize=64)
def name(size: int) -> str:
    """Return a size as it is said: 4 AWG, 250 kcmil."""
    return said(size_name(size))


def said(shown: str | None) -> str:
    """Return the name of a size with its unit."""
    if shown is None:
        return "none"
    return f"{shown} {size_unit(shown)}"


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


#: Above this rating the next size up is not allowed [A]. Source: NEC 240.4(B), (C). Standing:
#: secondary.
_NEXT_SIZE_ENDS = 800.0


def _protection(request: ConductorSizingRequest, breaker: float) -> str:
    if breaker > _NEXT_SIZE_ENDS:
        return f"The breaker of {breaker:g} A protects a conductor of no less ampacity."
    if request.circuit.kind == "storage_output":
        return (
            f"The breaker of {breaker:g} A protects a conductor of no less ampacity: on the output "
            "of storage the next size up is not counted on."
        )
    return (
        f"The breaker of {breaker:g} A protects a conductor of no less ampacity, or of one above "
        "the next standard rating below it."
    )


def _drop(request: ConductorSizingRequest, sized: Sized) -> str:
    circuit = request.circuit
    length = sized.length / 0.3048
    target = KINDS[circuit.kind].target * 100
    if request.drop_target_percent is not None:
        target = request.drop_target_percent
    line = f"{length:.0f} ft one way at {sized.current.flowing:.4g} A and {circuit.volts:g} V"
    if sized.size >= 0:
        drop = 100.0 * float(sized.found.drop[sized.lane, 0]) / circuit.volts
        does = "raise the volts by" if KINDS[circuit.kind].source else "drop"
        line += f" {does} {drop:.2f} % in {name(sized.size)}"
    line += f"; the target is {target:g} %"
    if request.path_drop_percent:
        line += f", of which other parts of the path take {request.path_drop_percent:g} %"
    return f"{line}."
