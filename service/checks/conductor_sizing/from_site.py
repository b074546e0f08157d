"""The check's request worked out of what a site assessment knows: each unit's own circuit."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.checks.conductor_sizing.questions import ways_of
from service.checks.conductor_sizing.request import Circuit, ConductorSizingRequest
from service.facts import (
    Candidate,
    DistanceRun,
    Equipment,
    Home,
    SegmentsRun,
    Site,
    Terminals,
    inverter_of,
)
from service.facts.panel_way import panel_way_of
from service.facts.site import electrical_rules

_DISTANCE, _RUN = "/home/battery_distance", "/home/battery_run"


def from_site(site: Site, candidate: Candidate | None, answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it.

    Every unit has a circuit of its own to the panel; they are alike, so that one stands for all.
    """
    if candidate is None:
        return FromSite(None, ("/candidates",), {})
    inverter = inverter_of(candidate.inverter, candidate.battery)
    if inverter is None:
        return FromSite(None, ("/candidates/*/battery/continuous_kw",), {})
    home = site.home or Home()
    # Where nobody stated a distance, that of the place where the units hang stands.
    distance = panel_way_of(answers) if home.battery_distance is None else home.battery_distance
    run: DistanceRun | SegmentsRun
    if home.battery_run is not None:
        run = SegmentsRun(segments=home.battery_run)
    elif isinstance(distance, float | int):
        run = DistanceRun(length=float(distance))
    else:
        return FromSite(None, (_DISTANCE,), {})
    ends = (site.equipment or Equipment()).terminals or Terminals()
    circuit = Circuit(
        kind="storage_output",
        amps=inverter.continuous_a,
        kw=inverter.continuous_kw,
        volts=float(inverter.volts),
        most_breaker_a=inverter.most_breaker_a,
        near=ends.near,
        far=ends.far,
    )
    request = ConductorSizingRequest(
        circuit=circuit,
        run=run,
        state=site.place.state,
        permit_date=site.permit_date,
        confirmed_rules=electrical_rules(site),
    )
    pointers = {
        "/circuit/most_breaker_a": "/candidates/*/inverter/most_breaker_a",
        "/circuit/near": "/equipment/terminals/near",
        "/circuit/far": "/equipment/terminals/far",
        "/permit_date": "/permit_date",
        "/run/segments": _RUN,
        "/run": _RUN,
    }
    trials = {_RUN: tuple(alone["segments"] for alone in ways_of(run))}
    return FromSite(request, (), pointers, trials if trials[_RUN] else {})
