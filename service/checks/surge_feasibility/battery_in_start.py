"""What a start asks of the batteries behind the inverter, for a moment."""

from __future__ import annotations

from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.words import up
from service.findings import Finding, Verdict
from service.quantities.comparison import reaches


def battery_in_start(request: SurgeFeasibilityRequest, stands: Judgement) -> list[Finding]:
    """Return a finding where the power of the batteries is stated and motors start.

    Each motor starts in the way its verdict takes, at both ends of what is known. What the
    batteries sustain is enough for a moment too; beyond it they may give more for seconds, which
    only their data sheet says.
    """
    source, made, found = stands.source, stands.made, stands.found
    limit, stated = source.battery_start, source.battery_start_stated
    if made is None or found is None or limit is None:
        return []
    rows = []
    for lane, place in enumerate(made.places):
        corners = found.of[stands.motors[place].version][1]
        low = float(corners.optimistic.most_watts[lane])
        rows.append((float(corners.pessimistic.most_watts[lane]), low, request.motors[place].id))
    high, _, name = max(rows)
    enough = bool(reaches(limit, high, "power"))
    may = all(bool(reaches(limit, low, "power")) for _, low, _ in rows)
    takes = f"The start of {name} takes up to {up(high / 1000.0)} kW for a moment"
    gives = f"the batteries {'give' if stated else 'sustain'} {limit / 1000.0:g} kW"
    if enough:
        verdict, words = Verdict.PASS, f"{takes}, and {gives}."
    elif stated and not may and not source.joined:
        verdict, words = Verdict.FAIL, f"{takes}, and {gives} for so long."
    else:
        verdict, words = Verdict.UNDETERMINED, f"{takes}, and {gives}"
        words += "." if stated else "; what they give for seconds is not stated."
        if source.joined:
            words += " What the generator beside them gives to a start is not known."
    return [
        Finding(
            rule="battery-power-in-start",
            verdict=verdict,
            statement=words,
            actual=high / 1000.0,
            limit=limit / 1000.0,
            unit="kW",
        )
    ]
