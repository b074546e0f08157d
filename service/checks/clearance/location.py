"""Which class of location a unit is in, for the energies that the code sums."""

from __future__ import annotations

from service.checks.clearance.spots import Spot
from service.facts.siting_readings import LocationClass
from service.facts.siting_spots import SitingGarage
from service.facts.siting_unit import SitingUnit


def location_of(spot: Spot, kind: SitingUnit) -> LocationClass:
    """Return the class of location of a kind of unit at a spot.

    Notes
    -----
    A unit that stands on the ground outdoors is outdoors, one that hangs is on an exterior wall.
    A garage of which it is not known whether it is attached is taken as attached. Source: rules
    aggregate-energy-* of table siting_rules.
    """
    if spot.kind == "room":
        return "utility_room"
    if isinstance(spot.place, SitingGarage):
        return "detached_garage" if spot.place.attached is False else "attached_garage"
    return "exterior_wall" if kind.mount == "wall" else "outdoors"


#: Classes of location in words.
LOCATION_WORDS = {
    "utility_room": "utility and storage rooms",
    "attached_garage": "the attached garage",
    "detached_garage": "the detached garage",
    "exterior_wall": "exterior walls",
    "outdoors": "the ground outdoors",
}
