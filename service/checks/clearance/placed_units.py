"""Units as somebody would hang them, held against the places that are permitted."""

from __future__ import annotations

from math import inf

from service.checks.clearance.by_hand import Hand, placed_by_hand
from service.checks.clearance.fit import lens_of
from service.checks.clearance.held import Held, cited
from service.checks.clearance.inches import feet_and_inches, in_words
from service.checks.clearance.interval_set import Interval
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import Scene, scene_of
from service.checks.clearance.solve import edges_of, spans_of
from service.checks.clearance.spots import Spot
from service.checks.clearance.wall_lane import SAME
from service.findings import Verdict


def placed_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return how units placed by hand stand."""
    hands = placed_by_hand(request, spot)
    if not hands:
        return []
    rule, sources = "placed-units", cited(rules.chain, "placement-tolerance")
    lens = lens_of(spot)
    harm = scene_of(spot, request.units, rules, lens._replace(lengths=1, facts=1))
    # Vehicles are a rule of their own: here barriers may stand.
    scene = scene_of(spot, request.units, rules, lens)
    exact = all(hand.error == 0.0 for hand in hands) and harm == scene
    worst = max(_short(harm, hands, 1.0))
    wanted = sum(kind.count for kind in request.units)
    if worst <= SAME and len(hands) < wanted:
        words = f"The units that were placed stand where it is permitted: {len(hands)} of {wanted}."
        condition = "the other units are placed, and judged, too"
        return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]
    if worst <= SAME:
        words = "The units stand where it is permitted as they were placed."
        return [Held(rule, Verdict.PASS, words, sources=sources)]
    short = _short(scene, hands, 0.0)
    most = max(short)
    if exact and most <= rules.tolerance + SAME:
        words = (
            f"A unit is {in_words(most, 'up')} off a permitted place: within what a person who "
            "hangs it can keep, and marginal."
        )
        condition = "a tape confirms the place of the units within the tolerance of hanging them"
        return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]
    if most <= SAME:
        words = "The units stand where it is permitted; a margin is smaller than what is not known."
        condition = "a tape confirms the place of the units and of what is near them"
        return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]
    at = short.index(most)
    placed = f"The unit placed at {feet_and_inches(hands[at].left)}"
    words = (
        f"{placed} is {in_words(most, 'up')} off a permitted place, or too near to the next one."
        if most < inf
        else f"{placed} has no permitted place on this wall."
    )
    helped = scene_of(spot, request.units, rules, lens._replace(lengths=-1, facts=-1))
    able = max(_short(helped, hands, -1.0)) <= SAME
    return [Held(rule, Verdict.UNDETERMINED if able else Verdict.FAIL, words, sources=sources)]


def _short(scene: Scene, hands: list[Hand], end: float) -> list[float]:
    """Return how far each unit is off a permitted place, or too near to the one before it [m]."""
    edges, rooms = edges_of(scene, spans_of(scene)), scene.rooms[0]
    found: list[float] = []
    for at, hand in enumerate(hands):
        off = distance_to(edges[hand.kind].allowed, hand.left, end * hand.error)
        if at:
            before = hands[at - 1]
            gap = max(scene.units[before.kind].gap, scene.units[hand.kind].gap)
            # Between two units the working space of a panel stays, wherever it slides to.
            between = [r.width for r in rooms if before.left < r.x1 and r.x2 <= hand.left + SAME]
            gap = max(gap, *between, 0.0)
            free = hand.left - before.left - scene.units[before.kind].width
            off = max(off, gap - free + end * (hand.error + before.error))
        found.append(off)
    return found


def distance_to(allowed: tuple[Interval, ...], x: float, error: float) -> float:
    """Return how far a left edge is from a permitted stretch [m].

    Parameters
    ----------
    allowed : tuple of (lo, hi)
        [m].
    x : float
        [m].
    error : float
        How far off the edge may be: above 0 all of that must lie in one stretch, below 0 any of it
        may [m].

    Returns
    -------
    float
        Without end where nothing is permitted [m].

    Notes
    -----
    Source: derived.
    """
    return min((max(lo - x + error, x + error - hi, 0.0) for lo, hi in allowed), default=inf)
