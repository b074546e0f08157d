"""The numbers behind the chosen place, line by line."""

from __future__ import annotations

from service.checks.clearance.judged import Judged
from service.checks.clearance.lens import INCH
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.wall_lane import front_plane
from service.codes.siting_rules import siting_rule
from service.findings import WorkingLine


def working(request: ClearanceRequest, rules: RuleNumbers, chosen: Judged) -> list[WorkingLine]:
    """Return what the places of the chosen wall are worked out with."""
    found: list[WorkingLine] = []
    scene = chosen.fit.scene
    for at, (unit, kind) in enumerate(zip(scene.units, request.units, strict=True)):
        wall = scene.walls[at]
        found += [
            _line(f"{kind.id}: front from the wall", "stand-off + depth", front_plane(unit)),
            _line(f"{kind.id}: last left edge", "wall - width", wall.length - unit.width),
            _line(f"{kind.id}: to the next unit", "spacing, or the maker's sides", unit.gap),
        ]
        if wall.walkway > 0.0:
            need = front_plane(unit) + wall.walkway
            found.append(_line(f"{kind.id}: ground for the way", "front + way", need))
        if unit.working_width > 0.0:
            need = front_plane(unit) + rules.working_low
            found.append(
                _line(
                    f"{kind.id}: ground for its working space",
                    "front + depth of Table 110.26(A)(1)",
                    need,
                    "working-space-depth-150",
                    rules,
                )
            )
    found.append(
        _line(
            "From openings of the dwelling", "as printed", rules.opening, "opening-distance", rules
        )
    )
    for kind_at, x in chosen.fit.solved.arrangement.positions:
        found.append(_line(f"{request.units[kind_at].id}: left edge", "first place that fits", x))
    return found


def _line(
    quantity: str,
    expression: str,
    metres: float,
    rule: str | None = None,
    rules: RuleNumbers | None = None,
) -> WorkingLine:
    source = None
    if rule is not None and rules is not None:
        source = siting_rule(rule, rules.chain).cite().id
    return WorkingLine(
        quantity=quantity, expression=expression, value=metres / INCH, unit="in", source=source
    )
