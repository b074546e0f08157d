"""What a generator beside the battery starts and carries, by how it joins."""

from __future__ import annotations

from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.motor_rows import motor_row
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.steady import steady
from service.checks.surge_feasibility.words import lowered
from service.findings import Finding, Verdict

_ALONE = {
    "running-amps": "running-amps-on-generator",
    "running-power": "running-power-on-generator",
}
_JOINS = {
    None: (
        Verdict.CONDITIONAL,
        "How the generator joins is not known; nothing of it is counted.",
        "the generator feeds a listed input of the inverter",
    ),
    "inverter_input": (
        Verdict.PASS,
        "The generator feeds the inverter's input and starts no motor itself; nothing of it is "
        "counted.",
        None,
    ),
    "parallel": (
        Verdict.CONDITIONAL,
        "The generator runs beside the inverter: its kW are counted for what runs, not for starts.",
        "inverter and generator are listed to run side by side",
    ),
}


def generator_rules(
    request: SurgeFeasibilityRequest, stands: list[Judgement]
) -> tuple[list[Finding], list[str]]:
    """Return the findings on a generator beside an inverter, and the conditions they hang on.

    What it does not start or carry alone stays off while it does: a condition, no failure.
    """
    generator = request.generator
    if request.inverter is None or generator is None:
        return [], []
    if generator.connection != "transfer_switch":
        verdict, statement, condition = _JOINS[generator.connection]
        finding = Finding(rule="generator-connected", verdict=verdict, statement=statement)
        return [finding], [] if condition is None else [condition]
    alone = stands[1]
    findings, conditions = [], []
    for place, motor in enumerate(request.motors):
        row = motor_row(request, alone, place, shown=False)
        starts = row.verdict is Verdict.PASS
        findings.append(
            Finding(
                rule="starts-on-generator",
                verdict=Verdict.PASS if starts else Verdict.CONDITIONAL,
                statement=f"On the generator alone {lowered(row.statement)}",
                actual=row.least_bus_percent,
                limit=100.0 * alone.source.dropout if row.least_bus_percent is not None else None,
                unit="%" if row.least_bus_percent is not None else None,
            )
        )
        if not starts:
            conditions.append(f"{motor.id} stays off while the generator carries the home")
    carried = steady(request, alone.source)
    for finding in carried.findings:
        if finding.verdict is not Verdict.PASS:
            finding.verdict = Verdict.CONDITIONAL
        finding.rule = _ALONE[finding.rule]
        finding.statement = f"On the generator alone {lowered(finding.statement)}"
        findings.append(finding)
    if any(finding.verdict is not Verdict.PASS for finding in carried.findings):
        kilowatts = alone.source.power / 1000.0
        conditions.append(f"no more than {kilowatts:g} kW run while the generator carries the home")
    return findings, conditions
