"""Every default that entered where the request is silent."""

from __future__ import annotations

from typing import Final

from service.checks.clearance.lens import INCH, UNSTATED
from service.checks.clearance.questions_of_ground import GROUNDED_OR_NOT, unknown_ends
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import escape_way_of
from service.checks.clearance.spots import Spot, SpotKind, spots_of
from service.checks.clearance.unit_boxes import (
    UNKNOWN_VOLTS,
    USUAL_BOTTOM,
    USUAL_STANDOFF,
    USUAL_VOLTS,
)
from service.codes import default_permit_date
from service.codes.siting_equipment import siting_equipment
from service.codes.siting_lengths import length_origins
from service.facts.siting_objects import CornerOpening, Opening, WallEquipment
from service.facts.siting_spots import SitingGarage, SitingWall
from service.facts.siting_unit import SitingUnit
from service.findings import Assumption

#: Why a door is taken to open away from the units.
_DOORS: Final[dict[SpotKind, str]] = {
    "wall": "common practice, no source: outer doors open into the dwelling",
    "garage": "common practice, no source: the door to the dwelling opens into it",
    "room": "until it is told; that it opens into the room is tried",
}


def assumptions(request: ClearanceRequest, rules: RuleNumbers) -> list[Assumption]:
    """Return every default that entered."""
    found: list[Assumption] = []
    if request.permit_date is None and request.edition is None:
        found.append(
            Assumption(
                pointer="/permit_date",
                value=default_permit_date().isoformat(),
                reason="the release's default date",
                source="release_defaults/permit_date/value",
            )
        )
    for at, unit in enumerate(request.units):
        found += _of_the_unit(unit, f"/units/{at}")
    for spot in spots_of(request):
        found += _of_the_spot(spot)
        found += [
            Assumption(
                pointer=pointer,
                value=GROUNDED_OR_NOT[0],
                range=list(GROUNDED_OR_NOT),
                reason="the safe side: what ends the way is grounded, as masonry is",
            )
            for pointer in unknown_ends(request, rules, spot)
        ]
    return found


def _of_the_unit(unit: SitingUnit, at: str) -> list[Assumption]:
    found = []
    if unit.standoff is None:
        found.append(
            Assumption(
                pointer=f"{at}/standoff",
                value=USUAL_STANDOFF,
                range=[0.0, USUAL_STANDOFF],
                reason="common practice, no source: brackets keep up to 4 in",
            )
        )
    if unit.bottom is None:
        value = USUAL_BOTTOM if unit.mount == "wall" else 0.0
        reason = (
            "common practice, no source: a usual height, which whoever hangs it chooses"
            if unit.mount == "wall"
            else "it stands on the ground"
        )
        found.append(Assumption(pointer=f"{at}/bottom", value=value, reason=reason))
    if unit.clearances is None:
        found += [
            Assumption(
                pointer=f"{at}/clearances/{side}",
                value=0.0,
                range=[0.0, 36.0],
                reason="none until the instructions are at hand",
            )
            for side in ("left", "right", "top", "front")
        ]
    if unit.worked_on_live is None:
        found.append(
            Assumption(
                pointer=f"{at}/worked_on_live",
                value=True,
                range=[True, False],
                reason="the safe side: a working space is kept before it",
            )
        )
    if unit.volts_to_ground is None:
        found.append(
            Assumption(
                pointer=f"{at}/volts_to_ground",
                value=USUAL_VOLTS,
                range=[USUAL_VOLTS, UNKNOWN_VOLTS],
                reason="derived: a split-phase system; a pass holds in the next row too",
            )
        )
    return found


def _of_the_spot(spot: Spot) -> list[Assumption]:
    found, place = [], spot.place
    first = spot.garage_wall is None or spot.pointer.endswith("/walls/0")
    if spot.measured_by is None and first:
        found.append(
            Assumption(
                pointer=f"{spot.place_at}/measured_by",
                value=UNSTATED,
                range=list(length_origins()),
                reason="the widest error, until it is said how the lengths were had",
                source=f"siting_lengths/{UNSTATED}/inches",
            )
        )
    if isinstance(place, SitingWall):
        found += _of_the_wall(place, spot.place_at)
    if isinstance(place, SitingGarage) and place.attached is None and first:
        found.append(
            Assumption(
                pointer=f"{spot.place_at}/attached",
                value=True,
                range=[True, False],
                reason="most garages are; it must then be separated from the dwelling",
            )
        )
    for at, thing in enumerate(spot.objects):
        pointer = f"{spot.pointer}/objects/{at}"
        if isinstance(thing, Opening | CornerOpening) and thing.leads_to is None:
            found.append(
                Assumption(
                    pointer=f"{pointer}/leads_to",
                    value="dwelling",
                    range=["dwelling", "garage", "other"],
                    reason="the safe side",
                )
            )
        if isinstance(thing, Opening) and thing.what == "door" and thing.swing is None:
            found.append(
                Assumption(
                    pointer=f"{pointer}/swing",
                    value="in",
                    range=["in", "out", "slides"],
                    reason=_DOORS[spot.kind],
                )
            )
        if isinstance(thing, WallEquipment) and thing.depth is None:
            found.append(
                Assumption(
                    pointer=f"{pointer}/depth",
                    value=round(siting_equipment()[thing.what].depth / INCH, 6),
                    reason="common practice, no source",
                    source=f"siting_equipment/{thing.what}/depth",
                )
            )
    return found


def _of_the_wall(place: SitingWall, at: str) -> list[Assumption]:
    found = [
        Assumption(
            pointer=f"{at}/{end}",
            value="wall",
            range=["wall", "open"],
            reason="the safe side: no working space passes the end",
        )
        for end, stated in (("left_end", place.left_end), ("right_end", place.right_end))
        if stated is None
    ]
    if place.route is None:
        found.append(
            Assumption(
                pointer=f"{at}/route",
                value=True,
                range=[True, False],
                reason="the safe side: people must be able to pass",
            )
        )
    if escape_way_of(place) is None:
        found.append(
            Assumption(
                pointer=f"{at}/escape_way",
                value=False,
                range=[False, True],
                reason="until it is known which openings and yards lead through it",
            )
        )
    return found
