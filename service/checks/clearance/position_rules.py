"""Whether the units stand on a wall, and every rule that their places keep."""

from __future__ import annotations

from math import inf
from typing import Final

from service.checks.clearance.fit import Fit
from service.checks.clearance.held import Held, cells, cited
from service.checks.clearance.inches import feet_and_inches, in_words, to_inches
from service.checks.clearance.lens import NOMINAL
from service.checks.clearance.location import location_of
from service.checks.clearance.positions_of import reason_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import escape_way_of, opening_distance
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import level_gap, needs_working_space, spacing_of
from service.checks.clearance.walkway_left import WalkwayLeft, walkway_left
from service.checks.clearance.working_space_rule import working_space_rule
from service.facts.siting_objects import Condenser, CornerOpening, Opening, WallEquipment
from service.facts.siting_spots import SitingWall
from service.findings import Verdict
from service.published import Source

_OUTDOORS: Final = frozenset(("exterior_wall", "outdoors"))
#: Reasons named where not all stand.
_NAMED: Final = 3


def position_rules(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit
) -> list[Held]:
    """Return whether the units stand, and the rules kept."""
    found = [_stand(request, spot, fit), *_kept(request, rules, spot, fit)]
    found += _spacing(request, rules, spot)
    if isinstance(spot.place, SitingWall):
        found += _outside_corners(rules, spot, fit)
        found += _walkway(rules, spot.place, fit)
    return [*found, *_maker(request)]


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


def _kept(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit) -> list[Held]:
    """Return the rules of what is on the wall, which the places keep."""
    found = []
    openings = [one for one in spot.objects if isinstance(one, Opening | CornerOpening)]
    counted = [
        one
        for one in openings
        if one.leads_to in (None, "dwelling") or (one.leads_to == "garage" and rules.garages_count)
    ]
    if counted and (spot.kind == "wall" or (spot.kind == "garage" and rules.garages_count)):
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
        found.append(Held("opening-distance", verdict, words, *numbers))
    kinds = {type(one).__name__ for one in spot.objects}
    meters = any(isinstance(one, WallEquipment) and one.what == "gas_meter" for one in spot.objects)
    if "GasVent" in kinds or meters:
        found.append(_gas(request, rules))
    if "PoolEdge" in kinds:
        words = f"The places keep {in_words(rules.pool)} from the pool's inside wall, level."
        sources = cited(rules.chain, "pool-distance")
        found.append(
            Held("pool-distance", Verdict.PASS, words, None, to_inches(rules.pool), "in", sources)
        )
    equipment = [one for one in spot.objects if isinstance(one, WallEquipment | Condenser)]
    if equipment:
        rows = [one.what if isinstance(one, WallEquipment) else "condenser" for one in equipment]
        sources = cells("siting_equipment", *dict.fromkeys(rows))
        sources += cited(rules.chain, "working-space-width", "working-space-depth-150")
        words = "The places keep the room, and the working space, of what is there already."
        condition = None
        if any(room.short for room in fit.scene.rooms[0]):
            words += " Even without the units one of them has not the working space it needs."
            condition = "the authority accepts a working space that is too small already"
        verdict = Verdict.PASS if condition is None else Verdict.CONDITIONAL
        held = Held("equipment-space", verdict, words, sources=sources, condition=condition)
        found.append(held)
    if any(needs_working_space(kind, rules, NOMINAL) for kind in request.units):
        found.append(working_space_rule(request, rules, spot, fit))
    return found


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


def _gas(request: ClearanceRequest, rules: RuleNumbers) -> Held:
    """Return the distance to gas vents, on whose word it stands."""
    limit = to_inches(rules.gas)
    own = request.readings.gas_distance is not None
    sources: tuple[Source, ...] = () if own else cited(rules.chain, "gas-vent-distance")
    words = f"The places keep {in_words(rules.gas)} every way from the vent of a gas regulator"
    words += ", as the request states." if own else "; the local gas utility may ask for more."
    return Held("gas-vent-distance", Verdict.PASS, words, None, limit, "in", sources)


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


def way_of(fit: Fit) -> WalkwayLeft:
    """Return the way before the wall without the units and with them, where they stand [m]."""
    return walkway_left(fit.scene.walls[0], fit.scene.units, fit.shown)


def _walkway(rules: RuleNumbers, place: SitingWall, fit: Fit) -> list[Held]:
    """Return the way that stays before the wall."""
    way, need = way_of(fit), fit.scene.walls[0].walkway
    if need <= 0.0:
        return []
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


def _maker(request: ClearanceRequest) -> list[Held]:
    unknown = [kind.id for kind in request.units if kind.clearances is None]
    if not unknown:
        words = "The places keep the room that the instructions ask around the units, as stated."
        return [Held("maker-clearance", Verdict.PASS, words)]
    words = f"The room that the instructions ask is not known: {', '.join(unknown)}."
    condition = "the instructions ask for no more room around a unit than the code"
    return [Held("maker-clearance", Verdict.CONDITIONAL, words, condition=condition)]
