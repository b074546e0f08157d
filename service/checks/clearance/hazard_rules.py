"""Vehicles, floods and reach: what may hit a unit, drown it, or keep a hand off its handle."""

from __future__ import annotations

from service.checks.clearance.barriers import bollard_count
from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.held import Held, cited
from service.checks.clearance.inches import in_words, to_inches
from service.checks.clearance.lens import INCH, NOMINAL, UNSTATED, Lens
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import bottom_of, level_gap
from service.checks.clearance.vehicle_zone import kept_by_barriers, zone_of
from service.checks.clearance.wall_lane import SAME, front_plane
from service.codes.siting_rules import siting_length
from service.facts.siting_spots import SitingGarage, SitingWall
from service.facts.siting_unit import SitingUnit
from service.findings import Verdict, rank
from service.quantities.comparison import at_least

_VEHICLE = ("vehicle-path-height", "vehicle-back-reach", "vehicle-side-reach")


def hazard_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit) -> list[Held]:
    """Return how vehicles, floods and reach stand at a spot."""
    found = [_handle(request, rules)]
    if isinstance(spot.place, SitingGarage):
        found.append(_in_garage(rules, spot, spot.place, fit))
    elif isinstance(spot.place, SitingWall):
        found += [_on_drive(spot.place, rules), _flood(request, rules, spot, spot.place)]
        found += _above_ground(request, rules)
    return found


def protected_run(fit: Fit) -> tuple[float, float]:
    """Return from where to where along the wall units stand that vehicles may reach [m]."""
    return min(lo for lo, _ in fit.exposed), max(hi for _, hi in fit.exposed)


def _in_garage(rules: RuleNumbers, spot: Spot, place: SitingGarage, fit: Fit) -> Held:
    rule = "vehicle-protection"
    sources = cited(rules.chain, *_VEHICLE, "bollard-spacing", "bollard-clearance")
    if not fit.shown:
        words = "Nothing fits on this wall, so nothing is to be protected."
        return Held(rule, Verdict.UNDETERMINED, words, sources=sources)
    if not fit.exposed:
        if fit.sure_of_vehicles:
            words = "The units hang clear of where vehicles come, or behind approved barriers."
            if _at_the_edge(rules, spot, fit):
                words += (
                    " One is within half an inch of where they reach: measure it again, the "
                    "authority may read the edge otherwise."
                )
            return Held(rule, Verdict.PASS, words, sources=sources)
        words = "As stated the units hang clear of vehicles; not over all that is not known."
        condition = "a tape shows the units clear of the way of vehicles, or barriers protect them"
        return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)
    lo, hi = protected_run(fit)
    run = f"{in_words(lo, 'down')} to {in_words(hi, 'up')} from the left end of the wall"
    numbers = rules.vehicle
    if numbers is None:
        words = (
            "This edition asks for an approved barrier where storage is exposed to vehicles, and "
            "leaves where that is to the authority."
        )
        condition = f"an approved barrier protects the units at {run}, if the authority asks for it"
        return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)
    count = bollard_count(hi - lo, numbers.bollard_spacing)
    words = f"Vehicles may reach the units: {count} bollards, or an approved barrier, at {run}."
    words += _depth_left(rules, spot, place, fit)
    condition = f"{count} bollards or another approved barrier protect the units at {run}"
    wall = spot.garage_wall
    if wall is not None and any(barrier.approved is None for barrier in wall.barriers):
        condition += ", or the barriers there are confirmed to be as the code asks"
    return Held(
        rule, Verdict.CONDITIONAL, words, float(count), None, "1", sources, condition=condition
    )


def _at_the_edge(rules: RuleNumbers, spot: Spot, fit: Fit) -> bool:
    """Return whether a unit hangs at the very edge of where vehicles reach."""
    near = siting_length("vehicle-edge-caution", rules.chain)
    length, lens = fit.scene.walls[0].length, lens_of(spot)
    for kind, x in fit.shown:
        unit = fit.scene.units[kind]
        front, end = front_plane(unit), x + unit.width
        # As if it stood out a little farther, towards the path.
        zone = zone_of(spot, front + near, unit.bottom, rules, lens, length)
        kept = kept_by_barriers(spot, front, rules, lens)
        if any(lo <= x + SAME and end <= hi + SAME for lo, hi in kept):
            continue
        if zone is not None and x < zone[1] + near and end > zone[0] - near:
            return True
    return False


def _depth_left(rules: RuleNumbers, spot: Spot, place: SitingGarage, fit: Fit) -> str:
    """Return what bollards before the back wall leave to park in, in words."""
    numbers, wall = rules.vehicle, spot.garage_wall
    if numbers is None or wall is None or wall.side != "back":
        return ""
    lens = Lens(by=place.measured_by or UNSTATED)
    front = max(front_plane(unit) for unit in fit.scene.units)
    used = front + numbers.bollard_clearance + numbers.bollard_diameter
    left = lens.read(place.depth, -1) - used
    if left <= 0.0:
        return " Bollards leave no depth to park in."
    words = f" Bollards leave {in_words(left, 'down')} of depth to park in"
    if place.vehicle_length is None:
        return f"{words}; the length of the vehicles is not known."
    long = lens.read(place.vehicle_length, 1)
    short = "" if at_least(left, long, "length") else ", less than the vehicle"
    return f"{words}{short}: the vehicle is {in_words(long, 'up')} long."


def _on_drive(place: SitingWall, rules: RuleNumbers) -> Held:
    rule, sources = "vehicle-protection", cited(rules.chain, "vehicle-path-height")
    if place.vehicles is False:
        return Held(rule, Verdict.PASS, "No vehicles come to this wall.")
    known = "come to this wall" if place.vehicles else "may come to this wall"
    words = (
        f"Vehicles {known}: what is exposed to them is protected in a way the authority approves."
    )
    condition = (
        "the units are protected from vehicles in a way that the authority approves"
        if place.vehicles
        else "no vehicles come to this wall, or the units are protected from them"
    )
    return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)


def _flood(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, place: SitingWall) -> Held:
    rule, sources = "flood-height", cited(rules.chain, "flood-freeboard", "bottom-above-ground")
    lowest = min(bottom_of(kind) for kind in request.units) * INCH
    if place.flood is None:
        words = "Whether the ground there is in a flood hazard area is not known."
        condition = "the place is in no flood hazard area, or the units hang above the flood"
        return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)
    lens = NOMINAL._replace(by=spot.measured_by or UNSTATED)
    least = lens.read(place.flood, 1) + rules.freeboard
    sure = lens._replace(lengths=1).read(place.flood, 1) + rules.freeboard
    held = (to_inches(lowest, "down"), to_inches(least, "up"))
    reach = (
        f"reach {in_words(least, 'up')} above it"
        if least > 0.0
        else f"stay {in_words(-least, 'down')} below it"
    )
    words = (
        f"The lowest unit begins {in_words(lowest, 'down')} above the ground; the flood and what "
        f"the code adds {reach}."
    )
    if at_least(lowest, sure, "length"):
        return Held(rule, Verdict.PASS, words, *held, "in", sources)
    if at_least(lowest, least, "length"):
        condition = "a survey confirms the flood elevation at the wall"
        return Held(rule, Verdict.CONDITIONAL, words, *held, "in", sources, condition)
    return Held(rule, Verdict.FAIL, words, *held, "in", sources)


def _above_ground(request: ClearanceRequest, rules: RuleNumbers) -> list[Held]:
    """Return how near to the ground outdoors a unit hangs, where that is too near."""
    hung = [bottom_of(kind) * INCH for kind in request.units if kind.mount == "wall"]
    if not hung or at_least(min(hung), rules.bottom, "length"):
        return []
    words = (
        f"A unit hangs {in_words(min(hung), 'down')} above the ground; outdoors "
        f"{in_words(rules.bottom)} are usual, for splash and leaves."
    )
    held = (to_inches(min(hung), "down"), to_inches(rules.bottom), "in")
    sources = cited(rules.chain, "bottom-above-ground")
    condition = "the instructions allow it to hang so near to the ground"
    return [Held("ground-height", Verdict.CONDITIONAL, words, *held, sources, condition)]


def highest_handle(kind: SitingUnit, rules: RuleNumbers) -> float:
    """Return the centre of the highest handle, or the top where it is not known [m]."""
    step = kind.height * INCH + level_gap(kind, rules)
    last = bottom_of(kind) * INCH + (kind.stack.levels - 1) * step
    return last + (kind.height if kind.handle is None else kind.handle) * INCH


def _handle(request: ClearanceRequest, rules: RuleNumbers) -> Held:
    found = [_handle_of(kind, rules) for kind in request.units]
    return min(found, key=lambda one: (rank(one.verdict), -(one.actual or 0.0)))


def _handle_of(kind: SitingUnit, rules: RuleNumbers) -> Held:
    rule, sources = "handle-height", cited(rules.chain, "handle-height")
    height, limit = highest_handle(kind, rules), rules.handle
    held = (to_inches(height, "up"), to_inches(limit))
    where = "top" if kind.handle is None else "highest handle"
    words = (
        f"The {where} of {kind.id} is {in_words(height, 'up')} above the ground; the centre of a "
        f"handle is no higher than {in_words(limit)}."
    )
    if at_least(limit, height, "length"):
        return Held(rule, Verdict.PASS, words, *held, "in", sources)
    verdict = Verdict.UNDETERMINED if kind.handle is None else Verdict.FAIL
    return Held(rule, verdict, words, *held, "in", sources)
