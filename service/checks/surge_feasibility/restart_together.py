"""Motors that nothing keeps from starting in the same moment when the power comes back."""

from __future__ import annotations

import math

from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.motor_verdict import start_amps
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import Finding, Verdict
from service.quantities.comparison import reaches


def restart_together(
    request: SurgeFeasibilityRequest, stands: Judgement
) -> tuple[list[Finding], list[str]]:
    """Return a finding where two motors or more start again at once, and its condition.

    Starts are solved one at a time. Those that no timer holds back call together after an outage;
    where their amps, added, stay within the highest rating, that is no matter.
    """
    made, found = stands.made, stands.found
    if made is None or found is None:
        return [], []
    start = found.of[tried.BARE][1].nominal
    findings: list[Finding] = []
    conditions: list[str] = []
    for held in (False, True):
        rows = [
            (request.motors[place].id, start_amps(start, lane))
            for lane, place in enumerate(made.places)
            if (request.motors[place].delay is True) is held
        ]
        if len(rows) < 2:
            continue
        limit = float(made.case.rating_amps[0, 0])
        amps = math.fsum(one for _, one in rows)
        names = " and ".join([", ".join(name for name, _ in rows[:-1]), rows[-1][0]])
        if not math.isfinite(amps):
            # One of them finds no steady volts at all: its own finding says so.
            continue
        fits = math.isfinite(limit) and bool(reaches(limit, amps, "current"))
        when = "after an outage, or after equal delays," if held else "after an outage"
        findings.append(
            Finding(
                rule="restart-together",
                verdict=Verdict.PASS if fits else Verdict.CONDITIONAL,
                statement=f"{names} start in the same moment {when} and then take {amps:.0f} A.",
                actual=amps,
                limit=limit if math.isfinite(limit) else None,
                unit="A",
            )
        )
        if not fits:
            how = "timers set apart" if held else "timers, or hands,"
            conditions.append(f"{how} keep {names} from starting in the same moment")
    return findings, conditions
