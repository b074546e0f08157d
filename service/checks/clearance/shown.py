"""A place judged, as the answer shows it."""

from __future__ import annotations

from math import inf
from typing import Final

from service.checks.clearance.answer import (
    Barriers,
    EdgeInterval,
    ForbiddenStretch,
    PlaceAnswer,
    PlacedAt,
    UnitPlaces,
)
from service.checks.clearance.barriers import bollards, parking_depth_left, wheel_barriers
from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.hazard_rules import protected_run
from service.checks.clearance.inches import feet_and_inches, to_inches
from service.checks.clearance.judged import Judged
from service.checks.clearance.lens import INCH
from service.checks.clearance.position_rules import way_of
from service.checks.clearance.positions_of import reason_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers, VehicleNumbers
from service.checks.clearance.solve import slides_of
from service.checks.clearance.spots import Spot
from service.checks.clearance.to_panel import way_to_panel
from service.checks.clearance.wall_lane import Ban, front_plane
from service.facts.siting_spots import SitingGarage
from service.findings import Verdict
from service.quantities.units import si

_FOOT = si(1.0, "ft")


def place_answer(request: ClearanceRequest, rules: RuleNumbers, judged: Judged) -> PlaceAnswer:
    """Return one place."""
    spot, fit = judged.spot, judged.fit
    way, route = way_of(fit), way_to_panel(spot, fit)
    return PlaceAnswer(
        id=spot.name,
        pointer=spot.pointer,
        verdict=judged.verdict,
        wanted=sum(fit.counts),
        placed=judged.placed,
        arrangement=_arrangement(request, fit),
        units=[_unit(request, judged, at) for at in range(len(request.units))],
        way_before_in=None if way.before == inf else to_inches(way.before, "down"),
        way_left_in=None if way.after == inf else to_inches(way.after, "down"),
        to_panel_low_ft=None if route is None else route[0] / _FOOT,
        to_panel_high_ft=None if route is None else route[1] / _FOOT,
        barriers=_barriers(rules, spot, fit),
        fails_by=[one.rule for one in judged.held if one.verdict is Verdict.FAIL],
    )


def _arrangement(request: ClearanceRequest, fit: Fit) -> list[PlacedAt]:
    arrangement = fit.solved.arrangement
    slid = slides_of(fit.scene, fit.solved)
    return [
        PlacedAt(
            unit=request.units[kind].id,
            left_in=to_inches(x, "up"),
            left_text=feet_and_inches(x, "up"),
            slides_from_in=to_inches(lo, "up"),
            slides_to_in=to_inches(hi, "down"),
            bottom_in=fit.scene.units[kind].bottom / INCH,
        )
        for (kind, x), (lo, hi) in zip(arrangement.positions, slid, strict=True)
    ]


#: Rules that fewer units, or units elsewhere on the wall, may keep.
_BY_NUMBER: Final = frozenset(("clear-positions", "location-energy", "placed-units"))


def _unit(request: ClearanceRequest, judged: Judged, at: int) -> UnitPlaces:
    spot, solved = judged.spot, judged.fit.solved
    edges = solved.edges[at]
    # Where a rule forbids a single unit too, none may hang there.
    barred = any(one.verdict is Verdict.FAIL and one.rule not in _BY_NUMBER for one in judged.held)
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
        forbidden=[_forbidden(spot, *ban) for ban in _by_reason(edges.forbidden)],
        largest_count=0 if barred else solved.most[at],
        largest_by_room=solved.room[at],
    )


def _by_reason(bans: tuple[Ban, ...]) -> list[Ban]:
    """Return the stretches that a reason forbids, its own overlaps joined, from left to right."""
    found: list[Ban] = []
    for lo, hi, code in sorted(bans, key=lambda ban: (ban[2], ban[0])):
        if found and found[-1][2] == code and lo < found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], hi), code)
        else:
            found.append((lo, hi, code))
    return sorted(found)


def _forbidden(spot: Spot, lo: float, hi: float, code: int) -> ForbiddenStretch:
    reason = reason_of(spot, code)
    return ForbiddenStretch(
        from_in=to_inches(lo, "down"),
        to_in=to_inches(hi, "up"),
        rule=reason.rule,
        pointer=reason.pointer,
        statement=reason.words,
    )


def _barriers(rules: RuleNumbers, spot: Spot, fit: Fit) -> Barriers | None:
    numbers, wall, place = rules.vehicle, spot.garage_wall, spot.place
    if not fit.exposed or numbers is None:
        return None
    if wall is None or not isinstance(place, SitingGarage):
        return None
    lo, hi = protected_run(fit)
    front, back = max(front_plane(unit) for unit in fit.scene.units), wall.side == "back"
    depth = lens_of(spot).read(place.depth, -1)
    wheels = wheel_barriers(lo, hi, numbers.wheel_length, numbers.wheel_gap) if back else ()

    def left(distance: float, thickness: float) -> float | None:
        found = parking_depth_left(depth, front, distance, thickness)
        return to_inches(max(found, 0.0), "down") if back else None

    return Barriers(
        bollards_at_in=[x / INCH for x in bollards(lo, hi, numbers.bollard_spacing)],
        bollards_from_wall_in=to_inches(front + numbers.bollard_clearance, "up"),
        depth_left_in=left(numbers.bollard_clearance, numbers.bollard_diameter),
        wheel_barriers_at_in=[x / INCH for x in _on_wall(wheels, numbers, fit)],
        depth_left_wheel_in=left(numbers.wheel_distance, numbers.wheel_width),
    )


def _on_wall(wheels: tuple[float, ...], numbers: VehicleNumbers, fit: Fit) -> tuple[float, ...]:
    """Return the row of wheel barriers, shifted to lie before the wall where it can [m]."""
    if not wheels:
        return wheels
    beyond = wheels[-1] + numbers.wheel_length - fit.scene.walls[0].length
    shift = max(-wheels[0], 0.0) - max(beyond, 0.0)
    return tuple(x + shift for x in wheels)
