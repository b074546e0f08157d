"""The rules that the places of units keep already: none of them is worse than conditional."""

from __future__ import annotations

from math import inf
from typing import Final

from service.checks.clearance.fit import Fit
from service.checks.clearance.held import Held, cells, cited
from service.checks.clearance.inches import in_words, to_inches
from service.checks.clearance.location import location_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import opening_distance
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import level_gap, spacing_of
from service.facts.siting_objects import (
    Condenser,
    CornerOpening,
    GasVent,
    Opening,
    PoolEdge,
    WallEquipment,
)
from service.facts.siting_spots import SitingWall
from service.findings import Verdict
from service.published import Source

_OUTDOORS: Final = frozenset(("exterior_wall", "outdoors"))


def kept_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit) -> list[Held]:
    """Return the rules that the places keep: of what is there, of each other, of their makers.

    Notes
    -----
    A place that does not keep them is none that is permitted; see `position_rules`.
    """
    found = [*_openings(request, rules, spot), *_gas(request, rules, spot), *_pool(rules, spot)]
    found += [*_equipment(rules, spot, fit), *_spacing(request, rules, spot)]
    if isinstance(spot.place, SitingWall):
        found += _outside_corners(rules, spot, fit)
    return [*found, *_maker(request)]


def _openings(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return the distance to doors and windows of the dwelling."""
    if spot.kind == "room" or (spot.kind == "garage" and not rules.garages_count):
        return []
    counted = (None, "dwelling", "garage") if rules.garages_count else (None, "dwelling")
    if not any(
        isinstance(one, Opening | CornerOpening) and one.leads_to in counted for one in spot.objects
    ):
        return []
    apart = [opening_distance(kind, rules, spot) for kind in request.units]
    distance = min(apart)
    sources = cited(rules.chain, "opening-distance")
    way = "beside it at any height" if rules.any_height else "in a straight line"
    words = (
        f"The places keep {in_words(distance)} {way} from every door and window of the "
        "dwelling, fixed or not."
    )
    verdict, condition = Verdict.PASS, None
    if distance < rules.opening:
        verdict = Verdict.CONDITIONAL
        condition = (
            f"the listing documents a distance of {in_words(distance)} from doors and windows"
        )
        sources += cited(rules.chain, "listed-opening-distance")
        words += " That is less than the code's own by what the listing permits"
        most = max(apart)
        words += f"; other kinds keep {in_words(most)}." if most > distance else "."
    numbers = (None, to_inches(distance), "in", sources, condition)
    return [Held("opening-distance", verdict, words, *numbers)]


def _gas(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return the distance to gas vents, on whose word it stands."""
    if not any(
        isinstance(one, GasVent) or (isinstance(one, WallEquipment) and one.what == "gas_meter")
        for one in spot.objects
    ):
        return []
    limit = to_inches(rules.gas)
    own = request.readings.gas_distance is not None
    sources: tuple[Source, ...] = () if own else cited(rules.chain, "gas-vent-distance")
    words = f"The places keep {in_words(rules.gas)} every way from the vent of a gas regulator"
    words += ", as the request states." if own else "; the local gas utility may ask for more."
    return [Held("gas-vent-distance", Verdict.PASS, words, None, limit, "in", sources)]


def _pool(rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return the distance to a pool."""
    if not any(isinstance(one, PoolEdge) for one in spot.objects):
        return []
    words = f"The places keep {in_words(rules.pool)} from the pool's inside wall, level."
    held = (None, to_inches(rules.pool), "in", cited(rules.chain, "pool-distance"))
    return [Held("pool-distance", Verdict.PASS, words, *held)]


def _equipment(rules: RuleNumbers, spot: Spot, fit: Fit) -> list[Held]:
    """Return the room and the working space of what is there."""
    rows = [
        one.what if isinstance(one, WallEquipment) else "condenser"
        for one in spot.objects
        if isinstance(one, WallEquipment | Condenser)
    ]
    if not rows:
        return []
    sources = cells("siting_equipment", *dict.fromkeys(rows))
    sources += cited(rules.chain, "working-space-width", "working-space-depth-150")
    words = "The places keep the room, and the working space, of what is there already."
    if not any(room.short for room in fit.scene.rooms[0]):
        return [Held("equipment-space", Verdict.PASS, words, sources=sources)]
    words += " Even without the units one of them has not the working space it needs."
    condition = "the authority accepts a working space that is too small already"
    verdict = Verdict.CONDITIONAL
    return [Held("equipment-space", verdict, words, sources=sources, condition=condition)]


def _spacing(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return the spacing that units keep from each other, and from what is there already."""
    rule, sources = "unit-spacing", cited(rules.chain, "unit-spacing")
    apart = [spacing_of(kind, rules) for kind in request.units]
    stacked = [
        level_gap(kind, rules)
        for kind in request.units
        if kind.stack.levels > 1 and not kind.stack.one_cabinet
    ]
    there = {one.where for one in request.existing}
    here = {location_of(spot, kind) for kind in request.units}
    # On a wall or before it is the same place, whatever energies are summed.
    beside = bool(here & there) or (bool(here & _OUTDOORS) and bool(there & _OUTDOORS))
    several = sum(kind.count for kind in request.units) > 1
    if not (several or stacked or beside):
        return []
    least = min([*(apart if several else []), *stacked], default=rules.spacing)
    words = (
        f"The units keep {in_words(least)} between them"
        if several or stacked
        else ("The unit keeps its distance from the storage that is there already")
    )
    if len(set(apart)) > 1 and several:
        words += ", and two of different kinds the larger of their spacings"
    needs = []
    if least < rules.spacing:
        words += ", which a fire test in their listing must document"
        needs.append(f"the listing documents a spacing of {in_words(least)}")
    if beside:
        words += "; where the storage stands that is there already is not known"
        needs.append(
            f"the units keep {in_words(rules.spacing)} from the storage that is there already, or "
            "what their listing documents"
        )
    held = (None, to_inches(least), "in", sources)
    if needs:
        condition = ", and ".join(needs)
        return [Held(rule, Verdict.CONDITIONAL, f"{words}.", *held, condition)]
    return [Held(rule, Verdict.PASS, f"{words}.", *held)]


def _outside_corners(rules: RuleNumbers, spot: Spot, fit: Fit) -> list[Held]:
    """Return what may be near round an end that is open, or may be: nothing was told of it."""
    length = fit.scene.walls[0].length
    ends = {"left": spot.left_end, "right": spot.right_end}
    free = {
        "left": min((x for _, x in fit.shown), default=inf),
        "right": min((length - x - fit.scene.units[k].width for k, x in fit.shown), default=inf),
    }
    near = [end for end, meets in ends.items() if meets != "wall" and free[end] < rules.opening]
    if not near:
        return []
    words = (
        f"A unit stands near the {' and the '.join(near)} end of the wall; what is round an "
        "outside corner there was not told."
    )
    condition = (
        f"no door or window of the dwelling round the outside corner is within "
        f"{in_words(rules.opening)} of a unit"
    )
    sources = cited(rules.chain, "opening-distance")
    verdict = Verdict.CONDITIONAL
    return [Held("outside-corner", verdict, words, sources=sources, condition=condition)]


def _maker(request: ClearanceRequest) -> list[Held]:
    unknown = [kind.id for kind in request.units if kind.clearances is None]
    if not unknown:
        words = "The places keep the room that the instructions ask around the units, as stated."
        return [Held("maker-clearance", Verdict.PASS, words)]
    words = f"The room that the instructions ask is not known: {', '.join(unknown)}."
    condition = "the instructions ask for no more room around a unit than the code"
    return [Held("maker-clearance", Verdict.CONDITIONAL, words, condition=condition)]
