"""What the neutral carries, and whether a size of it does."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import neutral_of
from service.checks.conductor_sizing.place_rules import label
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_range import LARGEST
from service.checks.conductor_sizing.size_rules import name, said
from service.checks.conductor_sizing.sized import Sized
from service.findings import Finding, Verdict
from service.published.raceways import raceways

_RULE = "neutral"


def neutral_rule(request: ConductorSizingRequest, sized: Sized) -> list[tuple[Finding, str | None]]:
    """Return the neutral beside phases that have a size, with what it carries."""
    found = sized.neutral_found
    if sized.size < 0 or not found.pulled:
        return []
    sets = request.circuit.sets
    words = f"The neutral carries {found.amps:.4g} A"
    if sets > 1:
        words += f", divided among {sets} sets"
    if neutral_of(request.circuit) == "sensing":
        words = "The neutral serves to measure volts and carries nothing"
    if found.size < 0:
        words += (
            f": no size up to {said(LARGEST)} does in the column of the terminals and under the "
            "conditions of use. It would help: more sets in parallel, or a smaller unbalance."
        )
        return [(Finding(rule=_RULE, verdict=Verdict.FAIL, statement=words), None)]
    words += (
        f". That takes {name(found.size)} or larger, no smaller than a ground of its own material "
        "by the breaker."
    )
    cable = next((part.way for part in sized.parts if part.way not in raceways()), None)
    if cable is not None and found.size > sized.size:
        words += f" {label(cable)} has one of its phases' size."
        condition = f"the neutral of {label(cable)} is of no less than {name(found.size)}"
        return [(Finding(rule=_RULE, verdict=Verdict.CONDITIONAL, statement=words), condition)]
    return [(Finding(rule=_RULE, verdict=Verdict.PASS, statement=words), None)]
