"""Working space before a unit that is serviced live: how deep, how wide and how high."""

from __future__ import annotations

from math import inf

from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.held import Held, cited
from service.checks.clearance.inches import in_words, to_inches
from service.checks.clearance.lens import NOMINAL
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import volts_of
from service.checks.clearance.wall_lane import (
    PARTS,
    SAME,
    WORKING_HEIGHT,
    Wall,
    front_plane,
    top_of,
)
from service.codes.siting_walls import opposite_materials
from service.findings import Verdict
from service.quantities.comparison import at_least


def working_space_rule(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit) -> Held:
    """Return the working space by the worst that stands opposite; not known is grounded."""
    volts = max(volts_of(kind, NOMINAL) for kind in request.units)
    opposite = opposite_materials()
    worst = max((opposite[part.opposite or "unknown"].condition for part in spot.way), default=2)
    row = "150" if volts <= 150.0 else f"{600 if volts <= 600.0 else 1000}-condition-{worst}"
    depth = rules.working_depth(volts, worst)
    words = (
        f"Before a unit that is serviced live {in_words(depth)} must stay free, "
        f"{in_words(rules.working_width)} wide or as wide as the unit, and as high as a person."
    )
    sources = cited(rules.chain, f"working-space-depth-{row}", "working-space-width")
    held = (None, to_inches(depth), "in", sources)
    needs, most, sure = [], inf, inf
    # A ceiling; a wall outdoors ends below the sky.
    if spot.kind != "wall" and spot.height is not None:
        lens = lens_of(spot)
        most = lens.read(spot.height, -1)
        sure = lens._replace(lengths=1).read(spot.height, -1)
    if not at_least(most, WORKING_HEIGHT, "length"):
        words += (
            f" The ceiling is only {in_words(most, 'down')} high; {in_words(WORKING_HEIGHT)} "
            "must be free."
        )
        return Held("working-space", Verdict.FAIL, words, *held)
    if not at_least(sure, WORKING_HEIGHT, "length"):
        needs.append(f"a tape confirms {in_words(WORKING_HEIGHT)} below the ceiling")
    if _narrowed(fit):
        words += " Beside a unit something stands out farther, and leaves less than that width."
        needs.append(
            "a unit moves away from what stands out farther beside it, so that its working space "
            "is as wide as it must be"
        )
    if needs:
        return Held("working-space", Verdict.CONDITIONAL, words, *held, "; ".join(needs))
    return Held("working-space", Verdict.PASS, words, *held)


def _narrowed(fit: Fit) -> bool:
    """Return whether what stands out farther beside a unit narrows its working space.

    Notes
    -----
    What ends the ground before the wall is met there. Source: NEC 2023, 110.26(A)(2); the bounds
    derived.
    """
    units, walls = fit.scene.units, fit.scene.walls
    standing = [
        (x, x + units[kind].width, front_plane(units[kind]), units[kind].bottom)
        for kind, x in fit.shown
    ]
    solids = {kind: _beside(walls[kind]) for kind in {kind for kind, _ in fit.shown}}
    for kind, x in fit.shown:
        unit, wall = units[kind], walls[kind]
        if unit.working_width <= 0.0:
            continue
        face, below = front_plane(unit) + SAME, max(WORKING_HEIGHT, top_of(unit)) - SAME
        left = -inf if wall.left_open else 0.0
        right = inf if wall.right_open else wall.length
        for x1, x2, out, bottom in (*solids[kind], *standing):
            if out <= face or bottom >= below:
                continue
            if x2 <= x + SAME:
                left = max(left, x2)
            elif x1 >= x + unit.width - SAME:
                right = min(right, x1)
        if right - left < unit.working_width - SAME:
            return True
    return False


def _beside(wall: Wall) -> list[tuple[float, float, float, float]]:
    """Return what is solid and ends no ground: from, to, how far out, from which height [m]."""
    ground = {strip.thing for strip in wall.strips}
    return [
        (k.x1, k.x2, k.y2, k.z1)
        for k in wall.keep_outs
        if k.solid and k.reason // PARTS not in ground
    ]
