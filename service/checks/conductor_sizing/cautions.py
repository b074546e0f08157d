"""The sentences of safety and scope."""

from __future__ import annotations

from service.checks.conductor_sizing.parts import parts_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.facts import CoarseRun, SegmentsRun
from service.findings import ESTIMATE_NOT_DESIGN, Caution

_TEXTS = {
    "licensed-wiring": (
        "A licensed electrician lays out and makes this circuit; terminals are tightened to the "
        "torque that their maker states."
    ),
    "aluminum-terminations": (
        "Aluminum goes only into terminals marked for it, cleaned and treated as their maker says."
    ),
    "call-before-digging": (
        "Before anybody digs, call 811: the utilities mark their lines without charge."
    ),
    "rooftop-heat": (
        "A raceway on a sunlit roof runs far hotter than the air; raise it or lead it elsewhere."
    ),
    "physical-damage": (
        "Where something may strike it, a raceway is of a kind for that, rigid metal or PVC "
        "Schedule 80."
    ),
    "interrupting-rating": (
        "Every breaker and enclosure is rated for the fault amps that the service can give there."
    ),
    "export-rise": (
        "While it feeds into the grid the volts rise along the whole path to the service; an "
        "inverter shuts down where they rise too far."
    ),
}


def _may_be_buried(request: ConductorSizingRequest) -> bool:
    """Return whether a run that nobody described may well lead through the ground."""
    run = request.run
    if isinstance(run, SegmentsRun):
        return False
    across = isinstance(run, CoarseRun) and run.answer in ("across_yard", "detached_building")
    return across or request.circuit.kind == "building_feeder"


def cautions(request: ConductorSizingRequest, *, source: bool) -> list[Caution]:
    """Return the cautions that fit."""
    parts = parts_of(request)
    ids = ["licensed-wiring", "interrupting-rating", "aluminum-terminations"]
    if any(part.wet for part in parts):
        ids.append("physical-damage")
    if any(part.buried for part in parts) or _may_be_buried(request):
        ids.append("call-before-digging")
    if any(part.place == "rooftop" for part in parts):
        ids.append("rooftop-heat")
    if source:
        ids.append("export-rise")
    return [ESTIMATE_NOT_DESIGN, *(Caution(id=one, text=_TEXTS[one]) for one in ids)]
