"""The rules of a control cable: its longest lead, and how it keeps apart from power."""

from __future__ import annotations

from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.facts import ControlCable
from service.findings import Finding, Verdict
from service.quantities.comparison import reaches

Row = tuple[Finding, str | None]

#: Least distance of class 2 conductors from power where neither lies in a raceway [in].
#: Source: NEC 725.136(I). Standing: from memory, not verified.
_APART = 2.0
#: Insulation with which class 1 conductors may share with power of a dwelling [V].
#: Source: NEC 725.48(B), 300.3(C)(1). Standing: from memory, not verified.
_POWER_VOLTS = 600


def control_cable(request: ConductorSizingRequest, length: float) -> list[Row]:
    """Return the findings on a control cable of a length [ft]; none of any other circuit."""
    if request.circuit.kind != "control_cable":
        return []
    cable = request.circuit.control or ControlCable()
    return [(_lead(cable, length), None), *_apart(cable)]


def _lead(cable: ControlCable, length: float) -> Finding:
    rule = "control-lead"
    if cable.most_length is None:
        words = f"What lead its maker allows is not stated; this one is {length:.0f} ft."
        return Finding(rule=rule, verdict=Verdict.UNDETERMINED, statement=words)
    fits = bool(reaches(cable.most_length, length, "length"))
    words = f"The lead is {length:.0f} ft, and its maker allows {cable.most_length:.0f} ft."
    return Finding(
        rule=rule,
        verdict=Verdict.PASS if fits else Verdict.FAIL,
        statement=words,
        actual=length,
        limit=cable.most_length,
        unit="ft",
    )


def _apart(cable: ControlCable) -> list[Row]:
    """Return how it keeps apart: class 2 never beside power, class 1 by its insulation."""
    rule = "control-separation"
    if cable.circuit_class is None or cable.beside_power is None:
        words = "Class of the control circuit, or whether it lies beside power, is not stated."
        return [(Finding(rule=rule, verdict=Verdict.UNDETERMINED, statement=words), None)]
    if cable.beside_power:
        return _sharing(cable, rule)
    if cable.circuit_class == "class_1":
        words = "A class 1 cable that lies by itself needs no distance of its own."
        return [(Finding(rule=rule, verdict=Verdict.PASS, statement=words), None)]
    if cable.separation is None:
        words = f"A class 2 cable keeps {_APART:g} in from power outside a raceway."
        condition = f"the control cable keeps {_APART:g} in from power or lies in a raceway"
        return [(Finding(rule=rule, verdict=Verdict.CONDITIONAL, statement=words), condition)]
    enough = bool(reaches(cable.separation, _APART, "length"))
    words = f"A class 2 cable keeps {_APART:g} in from power, and this one {cable.separation:g} in."
    verdict = Verdict.PASS if enough else Verdict.FAIL
    return [(Finding(rule=rule, verdict=verdict, statement=words), None)]


def _sharing(cable: ControlCable, rule: str) -> list[Row]:
    if cable.circuit_class == "class_2":
        words = "A class 2 cable may not share raceway or enclosure with power without a barrier."
        return [(Finding(rule=rule, verdict=Verdict.FAIL, statement=words), None)]
    if cable.insulation_volts is None:
        words = "A class 1 cable beside power is insulated for its volts; which is not stated."
        return [(Finding(rule=rule, verdict=Verdict.UNDETERMINED, statement=words), None)]
    words = f"A class 1 cable beside power is insulated for {_POWER_VOLTS} V"
    if cable.insulation_volts >= _POWER_VOLTS:
        words += ", and may share only with circuits that work together with it."
        condition = "the control cable and the power beside it work together"
        return [(Finding(rule=rule, verdict=Verdict.CONDITIONAL, statement=words), condition)]
    words += f", and this one for {cable.insulation_volts} V."
    return [(Finding(rule=rule, verdict=Verdict.FAIL, statement=words), None)]
