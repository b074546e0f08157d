"""The sentences of safety and scope."""

from __future__ import annotations

from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import OutdoorPlace
from service.findings import ESTIMATE_NOT_DESIGN, Caution

_TEXTS = {
    "heat-screening": (
        "This is a screening and ranking estimate: wind, sky and colour alone make it a band, and "
        "no single temperature of it is a promise."
    ),
    "surface-not-ambient": (
        "A sunlit face gets far hotter than the air: its temperature is never held against a "
        "rated ambient."
    ),
    "direct-sun-instructions": (
        "Many instructions ask for no continuous direct sun whatever the temperature: the maker's "
        "own text decides."
    ),
    "typical-year-extremes": (
        "A typical year has no record summers: hotter days come, and a heat wave repeats them."
    ),
    "endless-shades": (
        "Eaves, fences and neighbours count as without an end: one that ends lets in more sun."
    ),
    "hot-surroundings": (
        "Paving, a fence in the sun and air held at a wall add heat that is not worked out here."
    ),
    "garage-estimate": (
        "How hot a garage gets is a rule of thumb; a thermometer there on a hot afternoon is "
        "worth more: state it as the rise of the air at the unit."
    ),
}


def cautions(request: HeatExposureRequest) -> list[Caution]:
    """Return the cautions that fit."""
    place = request.place
    ids = ["heat-screening", "typical-year-extremes"]
    walls = place.walls if isinstance(place, OutdoorPlace) else []
    if walls or place is None:
        ids += ["surface-not-ambient", "direct-sun-instructions", "hot-surroundings"]
    if not walls:
        ids.append("garage-estimate")
    if any(wall.eave is not None or wall.screens for wall in walls):
        ids.append("endless-shades")
    return [ESTIMATE_NOT_DESIGN, *(Caution(id=one, text=_TEXTS[one]) for one in ids)]
