"""A place judged, as the answer shows it."""

from __future__ import annotations

from math import inf

from service.checks.clearance.answer import (
    EdgeInterval,
    ForbiddenStretch,
    PlaceAnswer,
    PlacedAt,
    UnitPlaces,
)
from service.checks.clearance.barriers import bollard_count
from service.checks.clearance.fit import Fit
from service.checks.clearance.hazard_rules import protected_run
from service.checks.clearance.inches import feet_and_inches, to_inches
from service.checks.clearance.judged import Judged
from service.checks.clearance.lens import INCH
from service.checks.clearance.positions_of import reason_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.to_panel import way_to_panel
from service.findings import Verdict
from service.quantities.units import si

_FOOT = si(1.0, "ft")


def place_answer(request: ClearanceRequest, rules: RuleNumbers, judged: Judged) -> PlaceAnswer:
    """Return one place."""
    spot, fit = judged.spot, judged.fit
    way, route = fit.solved.walkway, way_to_panel(spot, fit)
    return PlaceAnswer(
        id=spot.name,
        pointer=spot.pointer,
        verdict=judged.verdict,
        wanted=sum(fit.counts),
        placed=judged.placed,
        arrangement=_arrangement(request, fit),
        units=[_unit(request, spot, fit, at) for at in range(len(request.units))],
        way_before_in=None if way.before == inf else to_inches(way.before, "down"),
        way_left_in=None if way.after == inf else to_inches(way.after, "down"),
        to_panel_low_ft=None if route is None else route[0] / _FOOT,
        to_panel_high_ft=None if route is None else route[1] / _FOOT,
        barriers=_barriers(rules, fit),
        fails_by=[one.rule for one in judged.held if one.verdict is Verdict.FAIL],
    )


def _arrangement(request: ClearanceRequest, fit: Fit) -> list[PlacedAt]:
    arrangement = fit.solved.arrangement
    slides = arrangement.ranges or ()
    return [
        PlacedAt(
            unit=request.units[kind].id,
            left_in=to_inches(x, "up"),
            left_text=feet_and_inches(x, "up"),
            slides_from_in=to_inches(lo, "up"),
            slides_to_in=to_inches(hi, "down"),
            bottom_in=fit.scene.units[kind].bottom / INCH,
        )
        for (kind, x), (lo, hi) in zip(arrangement.positions, slides, strict=True)
    ]


def _unit(request: ClearanceRequest, spot: Spot, fit: Fit, at: int) -> UnitPlaces:
    edges, solved = fit.solved.edges[at], fit.solved
    return UnitPlaces(
        unit=request.units[at].id,
        permitted=[
            EdgeInterval(
                from_in=to_inches(lo, "up"),
                to_in=to_inches(hi, "down"),
                from_text=feet_and_inches(lo, "up"),
                to_text=feet_and_inches(hi, "down"),
            )
            for lo, hi in edges.allowed
            # Between two sixteenths nothing can be marked.
            if to_inches(lo, "up") <= to_inches(hi, "down")
        ],
        forbidden=[_forbidden(spot, *ban) for ban in sorted(set(edges.forbidden))],
        largest_count=solved.most[at],
        largest_by_room=solved.room[at],
    )


def _forbidden(spot: Spot, lo: float, hi: float, code: int) -> ForbiddenStretch:
    reason = reason_of(spot, code)
    return ForbiddenStretch(
        from_in=to_inches(lo, "down"),
        to_in=to_inches(hi, "up"),
        rule=reason.rule,
        pointer=reason.pointer,
        statement=reason.words,
    )


def _barriers(rules: RuleNumbers, fit: Fit) -> int | None:
    if not fit.barriers or rules.vehicle is None or not fit.solved.arrangement.positions:
        return None
    lo, hi = protected_run(fit)
    return bollard_count(hi - lo, rules.vehicle.bollard_spacing)
