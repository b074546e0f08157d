"""Bollards before units that vehicles may reach, as a fix."""

from __future__ import annotations

from collections.abc import Iterator

from service.checks.clearance.barriers import bollard_count
from service.checks.clearance.hazard_rules import protected_run
from service.checks.clearance.inches import in_words
from service.checks.clearance.judged import Judged
from service.checks.clearance.lens import INCH
from service.checks.clearance.moved_objects import with_spot
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.tries import CONTRACTOR, Try
from service.checks.clearance.wall_lane import front_plane
from service.facts.siting_length import MeasuredLength
from service.facts.siting_spots import Barrier


def added_bollards(request: ClearanceRequest, rules: RuleNumbers, chosen: Judged) -> Iterator[Try]:
    """Yield the wall with approved bollards before the units that vehicles may reach."""
    spot, fit, numbers = chosen.spot, chosen.fit, rules.vehicle
    if spot.garage_wall is None or numbers is None or not fit.exposed:
        return
    lo, hi = protected_run(fit)
    apart = max(front_plane(unit) for unit in fit.scene.units) + numbers.bollard_clearance
    count = bollard_count(hi - lo, numbers.bollard_spacing)
    words = (
        f"Add {count} approved bollards {in_words(apart, 'up')} from the wall, from "
        f"{in_words(lo, 'down')} to {in_words(hi, 'up')} from its left end."
    )

    def exactly(length: float) -> MeasuredLength:
        return MeasuredLength(value=length / INCH, within=0.0)

    bollards = Barrier(
        what="bollards",
        from_wall=exactly(apart),
        left=exactly(lo),
        width=exactly(hi - lo),
        approved=True,
    )
    made = with_spot(request, spot, barriers=[*spot.garage_wall.barriers, bollards])
    yield Try("add-bollards", CONTRACTOR, words, made, len(fit.shown))
