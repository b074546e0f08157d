"""Rules between the fields of a request."""

from __future__ import annotations

from service.check import FieldError
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.spots import Spot, spots_of
from service.facts.siting_refusals import place_refusals, repeated, unit_refusals


def refusals(request: ClearanceRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    units, places = request.units, request.places
    found = repeated((u.id for u in units), "/units", "Give every kind an id of its own.", "/id")
    found += repeated(
        (p.id for p in places), "/places", "Give every place an id of its own.", "/id"
    )
    found += repeated(request.confirmed_rules, "/confirmed_rules", "Name every rule once.")
    for index, unit in enumerate(units):
        found += unit_refusals(unit, f"/units/{index}")
    for spot in spots_of(request):
        found += _placed(request, spot)
    for index, place in enumerate(places):
        found += place_refusals(place, units, f"/places/{index}")
    return [FieldError(*row) for row in found]


def _placed(request: ClearanceRequest, spot: Spot) -> list[tuple[str, str]]:
    """Return what is wrong where more units are placed by hand than are wanted."""
    names = [one.unit for one in spot.placed]
    if all(names.count(unit.id) <= unit.count for unit in request.units):
        return []
    words = "Place no more units of a kind than are wanted: correct one of both."
    return [(f"{spot.pointer}/placed", words)]
