"""What is said of the breaker and the conductors of a motor branch circuit."""

from __future__ import annotations

from service.checks.conductor_sizing.constraints import PROTECTION, SMALL_CONDUCTOR
from service.checks.conductor_sizing.overcurrent_device import (
    ABOVE_NAMEPLATE,
    ABOVE_STANDARD,
    NAMEPLATE_UNKNOWN,
)
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sized import Sized
from service.findings import Finding, Verdict

_RULE = "overcurrent-device"
#: Constraint -> why it asks for a size. Source: NEC 2023 (NFPA 70) 430.22 and 430.32, by secondary
#: sources; 240.4(D) and (G) from memory, not verified.
MOTOR_WORDS = {
    PROTECTION: (
        "Under its conditions of use too the conductor of a motor has 125 % of its amps: the "
        "motor's overload device protects it, the breaker alone from short circuits."
    ),
    SMALL_CONDUCTOR: "The caps of small conductors do not hold for a motor.",
}


def motor_breaker(
    request: ConductorSizingRequest, sized: Sized
) -> tuple[Finding, str | None] | None:
    """Return whether the breaker of a motor is one that may stand; None: it is no motor."""
    circuit, device = request.circuit, sized.found.device
    code, rating = int(device.code[sized.lane]), float(device.rating[sized.lane])
    if circuit.kind != "motor_branch" or code == ABOVE_STANDARD:
        return None
    words = f"The breaker of the motor is of {rating:g} A"
    if circuit.most_breaker_a is not None:
        words += f"; its nameplate allows {circuit.most_breaker_a:g} A at most."
    else:
        words += (
            "; without a nameplate that says so it is of 250 % of the amps at most, or of the next "
            "standard rating, and may trip when the motor starts if it is much smaller."
        )
    if code == ABOVE_NAMEPLATE:
        return Finding(rule=_RULE, verdict=Verdict.FAIL, statement=words), None
    if code == NAMEPLATE_UNKNOWN:
        condition = f"the nameplate allows a breaker of {rating:g} A"
        return Finding(rule=_RULE, verdict=Verdict.CONDITIONAL, statement=words), condition
    return Finding(rule=_RULE, verdict=Verdict.PASS, statement=words), None
