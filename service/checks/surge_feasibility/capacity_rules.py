"""The two rules for what an islanded source must carry, and which of them carries the verdict."""

from __future__ import annotations

import math

from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.steady import Carried
from service.codes import standby_rule
from service.findings import Finding, Verdict
from service.physics.backed_up_capacity import SHORT, UNKNOWN, backed_up_capacity
from service.published import load
from service.quantities.comparison import reaches

RULE = "backed-up-capacity"


def largest_load(carried: Carried) -> Verdict:
    """Return the verdict of the rule for stand-alone systems: the largest single load."""
    if not reaches(carried.continuous_va, carried.largest_va, "power"):
        return Verdict.FAIL
    return Verdict.CONDITIONAL if carried.known else Verdict.UNDETERMINED


def capacity(request: SurgeFeasibilityRequest, carried: Carried) -> tuple[Finding, list[str]]:
    """Return whether the source has the capacity that the code asks for, and on which conditions.

    Where an edition of the place is known to let the rule for backed-up loads carry, it carries.
    Elsewhere a source that breaks it and keeps the rule for stand-alone systems stays open, since
    it is not known which of the two the authority holds.
    """
    continuous_va = carried.continuous_va
    transfer = request.transfer
    managed = None if transfer is None else transfer.managed_load_va
    connected = None if transfer is None else transfer.connected_load_va
    automatic = transfer is not None and transfer.kind == "automatic"
    found = backed_up_capacity(
        continuous_va,
        connected or 0.0,
        managed or 0.0,
        automatic,
        connected_known=connected is not None,
        managed=managed is not None,
    )
    code = int(found.code)
    required = float(found.required_va)
    conditions = []
    if code == UNKNOWN:
        verdict = Verdict.UNDETERMINED
        statement = (
            "The calculated load behind the transfer is not stated, so whether the source has the "
            "capacity for it is not known."
        )
    elif code == SHORT:
        verdict = Verdict.FAIL
        _, rule = standby_rule(request.state or "", request.permit_date)
        other = largest_load(carried)
        statement = (
            f"Behind the transfer stand {math.ceil(required)} VA and the source has "
            f"{math.floor(continuous_va)} VA: less load behind it, load management or more units."
        )
        if rule is None and other is not Verdict.FAIL:
            verdict = Verdict.UNDETERMINED
            statement += (
                " The rule for stand-alone systems it keeps: which of the two the authority holds "
                "at this place and date is not known."
            )
    elif connected is not None and not reaches(connected, carried.running_va, "power"):
        verdict = Verdict.UNDETERMINED
        statement = (
            f"The calculated load behind the transfer is stated as {math.ceil(connected)} VA, and "
            f"what is stated to run behind it takes {math.ceil(carried.running_va)} VA: one of the "
            "two is wrong."
        )
    else:
        statement = (
            f"Behind the transfer stand {math.ceil(required)} VA, and the source has "
            f"{math.floor(continuous_va)} VA."
        )
        verdict = Verdict.PASS
        if RULE not in request.confirmed_rules:
            verdict = Verdict.CONDITIONAL
            conditions.append("the authority reads the capacity rule for backed-up loads so")
        if automatic and managed is not None:
            verdict = Verdict.CONDITIONAL
            conditions.append("listed load management is fitted and set as stated")
    known = code != UNKNOWN
    return (
        Finding(
            rule=RULE,
            verdict=verdict,
            statement=statement,
            sources=[load("island_rules").cite(RULE).id],
            actual=continuous_va if known else None,
            limit=required if known else None,
            unit="VA" if known else None,
        ),
        conditions,
    )
