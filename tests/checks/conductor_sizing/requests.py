"""Requests of an invented circuit, to vary, and their answers."""

import json
from typing import Any

from service.checks.conductor_sizing import CHECK as CONDUCTOR_SIZING
from service.checks.conductor_sizing.answer import ConductorSizingAnswer, MaterialSizing
from service.http.answering import Answering

Body = dict[str, Any]

ANSWERING = Answering(CONDUCTOR_SIZING)
MARKED: Body = {"marked": 75, "smallest": "14", "largest": "500"}
#: A storage output of which everything is known.
STORAGE: Body = {
    "kind": "storage_output",
    "amps": 48,
    "most_breaker_a": 60,
    "near": MARKED,
    "far": MARKED,
    "neutral": "unbalance",
}
WALL: Body = {"length": 150, "place": "outside_wall", "ambient": 104, "way": "pvc40"}


def body(circuit: Body | None = None, *segments: Body, **more: Any) -> Body:
    """Return a request; without segments 150 ft along a hot wall."""
    made = {
        "circuit": STORAGE | (circuit or {}),
        "run": {"kind": "segments", "segments": list(segments) or [WALL]},
        "edition": "nec-2023",
        "confirmed_rules": ["conductor-tables"],
        "drop_target_percent": 2,
        "full_load_hours": 1000,
    }
    return made | more


def answer(made: Body, *includes: str) -> ConductorSizingAnswer:
    """Return the answer to a request, as it comes in."""
    request, _ = ANSWERING.take(json.dumps(made).encode())
    found: ConductorSizingAnswer = CONDUCTOR_SIZING.run(request, frozenset(includes))
    return found


def both(made: Body) -> tuple[MaterialSizing, MaterialSizing]:
    """Return copper and aluminum of the answer to a request."""
    copper, aluminum = answer(made).materials
    return copper, aluminum


def rules(row: MaterialSizing) -> dict[str, str]:
    """Return the verdict of every rule of a material."""
    return {finding.rule: str(finding.verdict) for finding in row.findings}


def refused(made: Body) -> list[str]:
    """Return the pointers at which a request is refused."""
    from service.http.problem import Problem

    try:
        ANSWERING.take(json.dumps(made).encode())
    except Problem as problem:
        return [error.pointer for error in problem.errors]
    return []
