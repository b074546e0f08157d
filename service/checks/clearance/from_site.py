"""The check's request worked out of what a site assessment knows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.checks.clearance.request import ClearanceRequest, unit_with
from service.facts import Candidate, Home, NominalEnergy, Site
from service.facts.home import HomeType
from service.facts.site import siting_rules
from service.facts.siting_readings import HomeOfStorage, SitingReadings
from service.facts.siting_unit import SitingSheet, SitingUnit
from service.findings import AskBy, Question

_UNIT, _SPOTS = "/candidates/*/unit", "/home/battery_spots"
_SIZE = Question(
    pointer=_UNIT,
    label="the size of a unit",
    question="How wide, high and deep is one unit? Which colour is it, and what does it weigh?",
    ask_by=AskBy.RECORD,
    can_change_verdict=False,
    why="A unit hangs where its size, and the room around it, fit.",
)
_WHERE = Question(
    pointer=_SPOTS,
    label="where the battery may hang",
    question="Where might the battery hang: in the garage, at the side of the house, at its back? "
    "How wide is it there at its narrowest, and are doors, windows or meters near?",
    ask_by=AskBy.TELEPHONE,
    can_change_verdict=False,
    why="Doors, windows, meters and the way before a wall decide where a unit may hang.",
)
_HOMES: Mapping[HomeType, HomeOfStorage] = {
    "house": "one_family",
    "townhouse": "townhouse",
    "accessory_unit": "accessory_unit",
    "multi_family_unit": "multi_family",
}


def from_site(site: Site, candidate: Candidate | None, _answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it."""
    if candidate is None:
        return FromSite(None, ("/candidates",), {})
    home = site.home or Home()
    lacking = [_SIZE] if candidate.unit is None else []
    lacking += [] if home.battery_spots else [_WHERE]
    if candidate.unit is None or not home.battery_spots:
        return FromSite(None, tuple(one.pointer for one in lacking), {}, asked=tuple(lacking))
    request = ClearanceRequest(
        units=[_unit(candidate)],
        places=home.battery_spots,
        home=None if home.type is None else _HOMES[home.type],  # type: ignore[index]  # resolved
        state=site.place.state,
        county=site.place.county,
        city=site.place.city,
        permit_date=site.permit_date,
        readings=home.siting_readings or SitingReadings(),
        existing=home.existing_storage,
        anchorage=home.anchorage,
        confirmed_rules=siting_rules(site),
    )
    sheet = "/candidates/*/siting"
    pointers = {
        "/units/0/width": f"{_UNIT}/width",
        "/units/0/height": f"{_UNIT}/height",
        "/units/0/depth": f"{_UNIT}/depth",
        "/units/0/standoff": f"{_UNIT}/standoff",
        "/units/0/bottom": f"{_UNIT}/bottom",
        "/units/0/mass": f"{_UNIT}/mass",
        "/units/0": sheet,
        "/places": _SPOTS,
        "/home": "/home/type",
        "/readings": "/home/siting_readings",
        "/existing": "/home/existing_storage",
        "/confirmed_rules": "/confirmed_rules",
        "/permit_date": "/permit_date",
        "/edition": "/place/state",
        "/anchorage": "/home/anchorage",
    }
    return FromSite(request, (), pointers)


def _unit(candidate: Candidate) -> SitingUnit:
    """Return the candidate's unit; what is rated is the nominal energy, not the usable one."""
    unit, sheet = candidate.unit, candidate.siting or SitingSheet()
    assert unit is not None
    energy, stated = candidate.battery.energy, sheet.energy
    if stated is None and isinstance(energy, NominalEnergy):
        stated = energy.kwh
    return unit_with(
        sheet,
        energy=stated,
        id=candidate.id[:40],
        # A stack is one place: as many columns as all units need.
        count=min(-(-(candidate.battery.count or 1) // sheet.stack.levels), 20),
        width=unit.width,
        height=unit.height,
        depth=unit.depth,
        standoff=unit.standoff,
        bottom=unit.bottom,
        mass=unit.mass,
    )
