"""The check's request worked out of what a site assessment knows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.checks.surge_feasibility.evidence import motor_evidence
from service.checks.surge_feasibility.questions import whole_values
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.site_motors import site_motors
from service.checks.surge_feasibility.site_running import site_running
from service.facts import (
    Candidate,
    Equipment,
    GeneratorSet,
    GeneratorSource,
    Motor,
    Site,
    heat_derating_of,
    inverter_of,
    with_locked_rotor,
)
from service.facts.site import electrical_rules

#: Least power of a generator that is counted, and most motors [kW], [1]: bounds of the contract.
_LEAST_KW, _MOST_MOTORS = 0.5, 6
#: Fields that hold more than a number or a word -> where they stand in a site.
_TRIED = {
    "/inverter/surge": "/candidates/*/inverter/surge",
    "/transfer": "/equipment/transfer",
}


def from_site(site: Site, candidate: Candidate | None, answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it."""
    if candidate is None:
        return FromSite(None, ("/candidates",), {})
    known = site_motors(site)
    if known is None:
        stated = site.home is not None and site.home.motors is not None
        return FromSite(None, ("/home/motors" if stated else "/wishes/loads",), {})
    if len(known.motors) > _MOST_MOTORS:
        return FromSite(None, ("/home/motors",), {})
    inverter = inverter_of(candidate.inverter, candidate.battery)
    if inverter is None:
        return FromSite(None, ("/candidates/*/battery/continuous_kw",), {})
    equipment = site.equipment or Equipment()
    request = SurgeFeasibilityRequest(
        inverter=inverter,
        generator=_generator(equipment.generator),
        motors=known.motors,
        running=site_running(site),
        transfer=equipment.transfer,
        heat_derating=heat_derating_of(answers),
        state=site.place.state,
        permit_date=site.permit_date,
        confirmed_rules=electrical_rules(site),
    )
    pointers = {
        "/inverter": "/candidates/*/inverter",
        "/transfer": "/equipment/transfer",
        "/generator/connection": "/equipment/generator/connection",
        "/permit_date": "/permit_date",
    }
    trials = {
        _TRIED[pointer]: values
        for pointer, values in whole_values(request).items()
        if pointer in _TRIED
    }
    if known.stated:
        return FromSite(request, (), pointers | {"/motors": "/home/motors"}, trials)
    unread = [index for index, motor in enumerate(known.motors) if motor.locked_rotor_a is None]
    asked = {f"/motors/{index}/locked_rotor_a": "/home/motors" for index in unread}
    if unread:
        trials |= _trials(known.motors)
    return FromSite(request, (), pointers | asked, trials)


def _trials(motors: list[Motor]) -> dict[str, tuple[Any, ...]]:
    """Return the whole list of motors with nameplates at both ends of what they may say."""
    return {
        "/home/motors": tuple([_read(motor, end) for motor in motors] for end in ("low", "high"))
    }


def _read(motor: Motor, end: str) -> Motor:
    evidence = motor_evidence(motor)
    if motor.locked_rotor_a is not None:
        return motor
    # Of a motor of which nothing is known, from a small pump's to a large compressor's amps.
    ends = {"low": 10.0, "high": 150.0}
    amps = ends[end] if evidence is None else float(getattr(evidence, end))
    return with_locked_rotor(motor, amps)


def _generator(planned: GeneratorSet | None) -> GeneratorSource | None:
    if planned is None or planned.rated_kw < _LEAST_KW:
        return None
    return GeneratorSource(rated_kw=planned.rated_kw, connection=planned.connection)
