"""Whether the units stand on a wall, with their working space and a way before them."""

from __future__ import annotations

from math import inf
from typing import Final

from service.checks.clearance.fit import Fit
from service.checks.clearance.held import Held, cited
from service.checks.clearance.inches import feet_and_inches, in_words, to_inches
from service.checks.clearance.lens import NOMINAL
from service.checks.clearance.positions_of import reason_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import escape_way_of
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import needs_working_space
from service.checks.clearance.walkway_left import WalkwayLeft, walkway_left
from service.checks.clearance.working_space_rule import working_space_rule
from service.facts.siting_spots import SitingWall
from service.findings import Verdict

#: Reasons named where not all stand.
_NAMED: Final = 3


def position_rules(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit
) -> list[Held]:
    """Return whether the units stand, with their working space and a way before them."""
    found = [_stand(request, spot, fit)]
    if any(needs_working_space(kind, rules, NOMINAL) for kind in request.units):
        found.append(working_space_rule(request, rules, spot, fit))
    if isinstance(spot.place, SitingWall):
        found += _walkway(rules, spot.place, fit)
    return found


def wanted(request: ClearanceRequest) -> str:
    """Return how many units are wanted, in words."""
    total = sum(kind.count for kind in request.units)
    return "1 unit" if total == 1 else f"{total} units"


def _stand(request: ClearanceRequest, spot: Spot, fit: Fit) -> Held:
    rule, arrangement = "clear-positions", fit.solved.arrangement
    placed, total = len(arrangement.positions), sum(fit.counts)
    held = (float(placed), float(total), "units")
    at = ", ".join(feet_and_inches(x, "up") for _, x in arrangement.positions)
    if fit.verdict is Verdict.FAIL:
        fit_there = "fits" if placed < 2 else "fit"
        words = f"{placed or 'None'} of {wanted(request)} {fit_there} on this wall"
        words = "The unit fits nowhere on this wall" if total == 1 else words
        return Held(rule, fit.verdict, f"{words}: {_why(spot, fit)}.", *held)
    if not arrangement.complete:
        words = (
            f"As stated there is room for {placed} of {wanted(request)} on this wall; what is not "
            "known may make more."
        )
        return Held(rule, fit.verdict, words, *held)
    words = (
        f"The unit stands with its left edge at {at}."
        if total == 1
        else f"{total} of {wanted(request)} stand with their left edges at {at}."
    )
    if spot.placed:
        words = f"There is room for {wanted(request)}, the first places are at {at}."
    if fit.verdict is Verdict.CONDITIONAL:
        words += " A margin is smaller than the error of the lengths."
        condition = "a tape confirms the lengths that the questions name"
        return Held(rule, fit.verdict, words, *held, condition=condition)
    if fit.verdict is Verdict.UNDETERMINED:
        words += " What is not known of the wall may take the room."
    return Held(rule, fit.verdict, words, *held)


def _why(spot: Spot, fit: Fit) -> str:
    """Return what takes most of the wall, in words."""
    taken: dict[int, float] = {}
    for edges in fit.solved.edges:
        for lo, hi, code in edges.forbidden:
            taken[code] = max(taken.get(code, 0.0), hi - lo if hi > lo else inf)
    found: list[str] = []
    for code in sorted(taken, key=lambda one: -taken[one]):
        words = reason_of(spot, code).words
        if words not in found:
            found.append(words)
        if len(found) == _NAMED:
            break
    return "; ".join(found) if found else "the wall is too short for so many at their spacing"


def way_of(fit: Fit) -> WalkwayLeft:
    """Return the way before the wall without the units and with them, where they stand [m]."""
    return walkway_left(fit.scene.walls[0], fit.scene.units, fit.shown)


def _walkway(rules: RuleNumbers, place: SitingWall, fit: Fit) -> list[Held]:
    """Return the way that stays before the wall."""
    need = fit.scene.walls[0].walkway
    if need <= 0.0:
        return []
    way = way_of(fit)
    sources = cited(rules.chain, "walkway", "escape-court-width")
    limit = to_inches(need)
    if way.after == inf:
        words = f"The way before the wall was not measured; {in_words(need)} must stay."
        # Whether the units fit says the rest.
        return [Held("walkway", Verdict.UNDETERMINED, words, None, limit, "in", sources)]
    words = (
        f"{feet_and_inches(way.after, 'down')} of way is left where it is narrowest, "
        f"{feet_and_inches(way.before, 'down')} before; {in_words(need)} must stay."
    )
    held = (to_inches(way.after, "down"), limit, "in", sources)
    if way.before < need - 1e-9:
        words += " It is too narrow already."
        condition = "the authority accepts the way that is too narrow already"
        return [Held("walkway", Verdict.CONDITIONAL, words, *held, condition)]
    if place.route is None and escape_way_of(place) is None:
        words += " Whether anybody must pass is not known; the way is kept as if somebody must."
    return [Held("walkway", Verdict.PASS, words, *held)]
