"""The sentences of safety and scope."""

from __future__ import annotations

from service.checks.conductor_sizing.parts import parts_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
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
    "export-rise": (
        "While it feeds into the grid the volts rise along the whole path to the service; an "
        "inverter shuts down where they rise too far."
    ),
}


def cautions(request: ConductorSizingRequest, *, source: bool) -> list[Caution]:
    """Return the cautions that fit."""
    parts = parts_of(request)
    ids = ["licensed-wiring", "aluminum-terminations"]
    if any(part.buried for part in parts):
        ids.append("call-before-digging")
    if any(part.place == "rooftop" for part in parts):
        ids.append("rooftop-heat")
    if source:
        ids.append("export-rise")
    return [ESTIMATE_NOT_DESIGN, *(Caution(id=one, text=_TEXTS[one]) for one in ids)]
