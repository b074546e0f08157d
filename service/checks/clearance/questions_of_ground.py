"""What to ask of the ground before a wall: how wide it is, and what ends it."""

from __future__ import annotations

from service.checks.clearance.asked import Asked
from service.checks.clearance.fit import lens_of
from service.checks.clearance.judged import Judged
from service.checks.clearance.lens import INCH, NOMINAL
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import LOW_VOLTS, RuleNumbers
from service.checks.clearance.scenes import unknown_ground
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import needs_working_space
from service.checks.clearance.wall_lane import front_plane
from service.findings import AskBy

#: What ends a way that is not known: taken as grounded, or not.
GROUNDED_OR_NOT = ("block", "wood_fence")


def unknown_ends(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[str]:
    """Return pointers of what is opposite and not known, where a depth hangs on it."""
    if not any(
        needs_working_space(unit, rules, NOMINAL)
        and (unit.volts_to_ground is None or unit.volts_to_ground > LOW_VOLTS)
        for unit in request.units
    ):
        return []
    return [
        f"{spot.pointer}/way/{at}/opposite"
        for at, part in enumerate(spot.way)
        if part.opposite is None
    ]


def of_the_ground(request: ClearanceRequest, rules: RuleNumbers, chosen: Judged) -> list[Asked]:
    """Return what is not known of the ground before the chosen place."""
    ends = [
        Asked(
            pointer,
            "what ends the way before the wall",
            "What stands opposite the wall: block, brick or concrete, metal, wood, or nothing?",
            AskBy.PHOTO,
            GROUNDED_OR_NOT,
            "Above 150 V the working space is deeper before what is grounded.",
            moves=True,
            minor=True,
        )
        for pointer in unknown_ends(request, rules, chosen.spot)
    ]
    return [*_of_the_way(rules, chosen), *ends]


def _of_the_way(rules: RuleNumbers, chosen: Judged) -> list[Asked]:
    spot = chosen.spot
    length = chosen.fit.scene.walls[0].length
    if spot.kind == "garage" or not unknown_ground(spot, lens_of(spot), length):
        return []
    front = max(front_plane(unit) for unit in chosen.fit.scene.units)
    need = front + max(rules.walkway, rules.working_middle[1]) + 24.0 * INCH
    ways = [
        [{"left": 0.0, "length": round(length / INCH, 4), "clear": round(clear / INCH, 4)}]
        for clear in (need, front)
    ]
    return [
        Asked(
            f"{spot.pointer}/way",
            "the way before the wall",
            "How wide is it from the wall to the fence, measured with a tape at the narrowest "
            "point and wherever it changes?",
            AskBy.VISIT,
            tuple(ways),
            "Way and working space must stay before a unit.",
            moves=True,
        )
    ]
