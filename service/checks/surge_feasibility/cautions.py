"""The sentences of safety and scope."""

from __future__ import annotations

from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import ESTIMATE_NOT_DESIGN, Caution

_TEXTS = {
    "nameplate-rules": (
        "The motor's nameplate and the instructions of both makers, of motor and inverter, rule "
        "over anything worked out here."
    ),
    "test-on-site": (
        "Start every motor on the battery alone before the system is handed over, with everything "
        "on that is meant to run: the model knows one motor at a time and no first-cycle peaks."
    ),
    "refrigerant-trades": (
        "Start kits, soft starters and timers inside a cooling unit are work for a licensed "
        "contractor, as its maker allows."
    ),
    "heat-derates": (
        "The inverter's ratings are taken as printed: in hotter air than its data sheet names it "
        "gives less."
    ),
    "generator-dips": (
        "A generator sags while a motor starts, by how much is its maker's to say; screens, "
        "computers and medical devices may mind."
    ),
    "motor-life-support": (
        "Life support must not hang on a bus on which motors start: give it a source of its own."
    ),
}


def cautions(request: SurgeFeasibilityRequest) -> list[Caution]:
    """Return the cautions that fit."""
    ids = ["nameplate-rules", "test-on-site"] if request.motors else []
    if any(motor.kind.startswith("compressor") for motor in request.motors):
        ids.append("refrigerant-trades")
    inverter, heat = request.inverter, request.heat_derating
    if inverter is not None and inverter.derating is None and heat is None:
        ids.append("heat-derates")
    if request.generator is not None:
        ids.append("generator-dips")
    if any(load.life_support for load in request.running or []):
        ids.append("motor-life-support")
    return [ESTIMATE_NOT_DESIGN, *(Caution(id=one, text=_TEXTS[one]) for one in ids)]
