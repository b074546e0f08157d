"""The start of every motor line by line, for someone who checks it with a pencil."""

from __future__ import annotations

import math

from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.motor_load import standstill_torque
from service.checks.surge_feasibility.motor_verdict import start_amps
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.screens import screens
from service.findings import WorkingLine


def working(request: SurgeFeasibilityRequest, stands: Judgement) -> list[WorkingLine]:
    """Return the lines of every start, from the amps of the evidence to what the source carries."""
    made, found = stands.made, stands.found
    if made is None or found is None:
        return []
    lines: list[WorkingLine] = []
    start = found.of[tried.BARE][1].nominal
    hand = screens(made.case)
    needed = standstill_torque(made.case.load)
    for lane, place in enumerate(made.places):
        name, evidence = request.motors[place].id, made.evidence[lane]
        case = made.case
        locked, volts = float(case.locked_amps[lane]), float(case.rated_volts[lane])
        factor = float(case.locked_power_factor[lane])
        wire, source = (
            complex(case.circuit_impedance[lane]),
            complex(case.source_impedance[lane]),
        )
        cited = evidence.sources[0].id if evidence.sources else None
        kind = f"motor_kinds/{request.motors[place].kind}"
        lines += [
            _line(f"{name}: locked-rotor amps", f"by {evidence.basis}", locked, "A", cited),
            _line(
                f"{name}: locked-rotor kVA at rated volts",
                f"{locked:.1f} A x {volts:g} V / 1000",
                locked * volts / 1000,
                "kVA",
            ),
            _line(
                f"{name}: locked-rotor kW at rated volts",
                f"{locked * volts / 1000:.2f} kVA x power factor {factor:g}",
                locked * volts * factor / 1000,
                "kW",
                kind,
            ),
            _line(
                f"{name}: impedance at standstill",
                f"{volts:g} V / {locked:.1f} A",
                volts / locked,
                "ohm",
            ),
            _line(f"{name}: conductors there and back", "2 x length x (r + jx)", abs(wire), "ohm"),
            _line(
                f"{name}: impedance of the source", "of all units, on its bus", abs(source), "ohm"
            ),
            _line(
                f"{name}: divider at standstill",
                "|Zm| / |Zm + Zc + Zs|, a sum of phasors",
                100 * float(hand.divider[lane]),
                "%",
            ),
            _line(
                f"{name}: least amps that move it",
                f"{locked:.1f} A x sqrt({float(needed[lane]):.3f} / torque at standstill)",
                float(hand.least_amps[lane]),
                "A",
                kind,
            ),
            _line(
                f"{name}: amps at standstill on a source without a ceiling",
                "with what runs beside it",
                start_amps(start, lane),
                "A",
            ),
            _line(
                f"{name}: time to its speed",
                "followed against the ceiling, torque with the square of the volts",
                float(start.started[lane]),
                "s",
            ),
            _line(
                f"{name}: amps once it runs",
                "with what runs beside it, at rated slip",
                float(start.running_amps[lane]),
                "A",
            ),
        ]
    return [line for line in lines if math.isfinite(line.value)]


def _line(
    quantity: str, expression: str, value: float, unit: str, source: str | None = None
) -> WorkingLine:
    return WorkingLine(
        quantity=quantity, expression=expression, value=value, unit=unit, source=source
    )
