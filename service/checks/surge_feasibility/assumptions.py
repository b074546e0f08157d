"""Every value that entered because the request did not state it."""

from __future__ import annotations

from service.checks.surge_feasibility.evidence import USUAL_WIRE, motor_evidence, rated_volts
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.running_va import POWER_FACTOR
from service.checks.surge_feasibility.source import OUTPUT_OHM, REACTANCE, TRIP, TRIP_SECONDS
from service.checks.surge_feasibility.starts import Starts
from service.codes import default_permit_date
from service.facts import Motor
from service.findings import Assumption


def assumptions(request: SurgeFeasibilityRequest, made: Starts | None) -> list[Assumption]:
    """Return the defaults that entered."""
    found = [] if made is None else [*_of_inverter(request), *_of_generator(request)]
    if request.state is not None and request.permit_date is None:
        found.append(
            Assumption(
                pointer="/permit_date",
                value=default_permit_date().isoformat(),
                reason="the release's stated default date",
            )
        )
    return found + _of_running(request, made) + _of_motors(request, made)


def _of_inverter(request: SurgeFeasibilityRequest) -> list[Assumption]:
    inverter = request.inverter
    if inverter is None:
        return []
    found = [
        Assumption(pointer=f"/inverter/{name}", value=value, reason=reason)
        for name, value, reason in (
            ("resistance_ohm", OUTPUT_OHM[0], "derived, our choice: a stiff inverter"),
            ("reactance_ohm", OUTPUT_OHM[1], "derived, our choice: a stiff inverter"),
            ("trip_percent", TRIP * 100, "derived, our choice: usual low-voltage trip"),
            ("trip_seconds", TRIP_SECONDS, "derived, our choice: usual low-voltage trip"),
        )
        if getattr(inverter, name) is None
    ]
    if (
        (inverter.count or 1) > 1
        and inverter.surge is not None
        and inverter.surge_sharing_percent is None
    ):
        reason = "nothing is counted that the maker does not say"
        found.append(
            Assumption(pointer="/inverter/surge_sharing_percent", value=0.0, reason=reason)
        )
    return found


def _of_generator(request: SurgeFeasibilityRequest) -> list[Assumption]:
    generator = request.generator
    if generator is None or (request.inverter and generator.connection != "transfer_switch"):
        return []
    if generator.transient_reactance_percent is not None:
        return []
    low, usual, high = (100.0 * part for part in REACTANCE)
    return [
        Assumption(
            pointer="/generator/transient_reactance_percent",
            value=usual,
            range=[low, high],
            reason="derived: it gives the kVA that a pump motor maker's table asks for",
        )
    ]


def _of_running(request: SurgeFeasibilityRequest, made: Starts | None) -> list[Assumption]:
    found = []
    for index, load in enumerate(request.running or []):
        at = f"/running/{index}"
        if load.power_factor is None:
            reason = "common practice, no source"
            found.append(
                Assumption(pointer=f"{at}/power_factor", value=POWER_FACTOR, reason=reason)
            )
        if load.nature is None and made is not None:
            reason = "the worse reading: electronics take more amps as the volts sag"
            found.append(Assumption(pointer=f"{at}/nature", value="constant_power", reason=reason))
    return found


def _of_motors(request: SurgeFeasibilityRequest, made: Starts | None) -> list[Assumption]:
    found = []
    for index, motor in enumerate(request.motors):
        at = f"/motors/{index}"
        if motor.volts is None:
            reason = "headings of NEC Table 430.248"
            found.append(Assumption(pointer=f"{at}/volts", value=rated_volts(motor), reason=reason))
        solved = made is not None and index in made.places
        evidence = None if motor.kind == "drive_fed" else motor_evidence(motor)
        if motor.rated_load_a is None and evidence is not None:
            found.append(
                Assumption(
                    pointer=f"{at}/rated_load_a",
                    value=evidence.rated,
                    range=[evidence.rated_low, evidence.rated_high],
                    reason=_why_rated(motor),
                )
            )
        if motor.wire is None and solved:
            reason = "derived, our choice: 50 ft of 10 AWG copper"
            found.append(
                Assumption(pointer=f"{at}/wire/length", value=USUAL_WIRE.length, reason=reason)
            )
    return found


def _why_rated(motor: Motor) -> str:
    if motor.horsepower is not None:
        return "NEC Table 430.248, an upper stand-in for its nameplate"
    if motor.tons is not None:
        return "planning range of its tons"
    return "derived from the amps of its start, by the usual ratio of its kind"
