"""The sentences of safety and scope."""

from __future__ import annotations

from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.spots import spots_of
from service.facts.siting_objects import GasVent, WallEquipment
from service.facts.siting_spots import SitingGarage
from service.findings import ESTIMATE_NOT_DESIGN, Caution

_TEXTS = {
    "siting-as-adopted": (
        "The numbers are those of published or remembered texts: the local building and fire "
        "departments hold their own, and may ask for more."
    ),
    "listing-and-instructions": (
        "The unit's listing and its maker's instructions decide where they ask for more room, "
        "another height or another wall."
    ),
    "gas-utility-decides": (
        "How far electrical equipment stays from gas meters and vents is the gas utility's word: "
        "ask before anything is hung near one, and never move gas piping yourself."
    ),
    "services-in-walls": (
        "Find pipes and wires before drilling into a wall; shut off what may be hit."
    ),
    "call-before-digging": (
        "Call the underground service alert before any digging, and wait for the marks."
    ),
    "parked-vehicles": (
        "A barrier protects from a slow vehicle alone; where one is charged or repaired, keep the "
        "unit farther away."
    ),
    "vented-cells": (
        "A battery that gives off gas when charged needs ventilation, which is not worked out here."
    ),
    "flood-indoors": (
        "In a flood hazard area what is electrical in a garage, a basement or a crawl space stands "
        "above the flood too: ask for the flood elevation there, which is not held here."
    ),
    "ember-zone": (
        "Where wildfire threatens, the strip next to the house is kept free of what burns."
    ),
}


def cautions(request: ClearanceRequest) -> list[Caution]:
    """Return the cautions that fit."""
    ids = ["siting-as-adopted", "listing-and-instructions"]
    spots = spots_of(request)
    things = [thing for spot in spots for thing in spot.objects]
    gas = any(
        isinstance(one, GasVent) or (isinstance(one, WallEquipment) and one.what == "gas_meter")
        for one in things
    )
    if gas or not spots:
        ids.append("gas-utility-decides")
    if any(unit.mount == "wall" for unit in request.units):
        ids.append("services-in-walls")
    if any(place.to_panel is not None and place.to_panel.trench for place in request.places):
        ids.append("call-before-digging")
    if any(isinstance(place, SitingGarage) for place in request.places):
        ids.append("parked-vehicles")
    if any(spot.kind != "wall" for spot in spots):
        ids += ["vented-cells", "flood-indoors"]
    if any(spot.kind == "wall" for spot in spots) or not spots:
        ids.append("ember-zone")
    return [ESTIMATE_NOT_DESIGN, *(Caution(id=one, text=_TEXTS[one]) for one in ids)]
