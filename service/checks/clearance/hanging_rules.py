"""Hang and carry: what holds a unit, what shakes it, how it comes in and how its wires go."""

from __future__ import annotations

from functools import lru_cache
from math import inf, nan

from service.checks.clearance.carry_needs import carry_needs
from service.checks.clearance.held import Held, cells, cited
from service.checks.clearance.inches import in_words, to_inches
from service.checks.clearance.lens import INCH, UNSTATED, Lens
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.seismic_anchorage import anchor_force
from service.checks.clearance.spots import Spot
from service.checks.clearance.stud_load import stud_load
from service.codes.siting_anchorage import anchorage_factors
from service.codes.siting_carry import carry_bands
from service.codes.siting_rules import siting_length
from service.codes.siting_walls import wall_builds
from service.facts.siting_unit import SitingUnit
from service.findings import Verdict
from service.quantities.comparison import at_least
from service.quantities.units import si

_NEWTONS_PER_LBF = 4.4482216152605


def hanging_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return what hanging and carrying take at a spot."""
    found = [*_fixing(request, spot), _carrying(request, spot)]
    found += [*_gate(request, rules, spot), *_shaking(request), *_digging(spot)]
    return found


def _heaviest(request: ClearanceRequest) -> SitingUnit:
    """Return the kind of the heaviest column; one that is not known may be the heaviest."""
    return max(
        request.units,
        key=lambda kind: inf if kind.mass is None else kind.mass * kind.stack.levels,
    )


def _fixing(request: ClearanceRequest, spot: Spot) -> list[Held]:
    """Return what holds units that hang, and those that stand."""
    hung = [kind for kind in request.units if kind.mount == "wall"]
    found = [_on_wall(hung, spot)] if hung else []
    return found + ([_on_ground(spot)] if len(hung) < len(request.units) else [])


def _on_ground(spot: Spot) -> Held:
    rule, hanging = "ground-fixing", spot.hanging
    stands = hanging.standing
    sources = cells("siting_standing", stands or "unknown")
    known = "not stated" if stands is None else stands.replace("_", " ")
    words = f"Units stand on the ground; what is below them: {known}."
    if hanging.confirmed:
        words += " It was confirmed to bear them."
        return Held(rule, Verdict.PASS, words, sources=sources)
    condition = "the ground below the units bears them, level, and their feet are anchored"
    return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)


def _on_wall(hung: list[SitingUnit], spot: Spot) -> Held:
    rule, hanging = "wall-fixing", spot.hanging
    build = wall_builds()[hanging.build or "unknown"]
    kind = max(hung, key=lambda one: inf if one.mass is None else one.mass * one.stack.levels)
    words = build.fixing
    if build.studs and hanging.stud_spacing is not None:
        count = _fewest_studs(kind.width * INCH, hanging.stud_spacing * INCH)
        words += f" A unit {kind.width:g} in wide finds {count} stud"
        words += "s" * (count != 1)
        words += " at least." if count else " or none."
        if count and kind.mass is not None:
            share = f"{kind.mass * kind.stack.levels / count:.0f} lb"
            words += f" It carries {share}." if count == 1 else f" Each carries {share}."
    sources = cells("siting_walls", build.id)
    if not hanging.confirmed:
        words += f" To be confirmed there: {build.confirm[0].lower()}{build.confirm[1:]}"
    if hanging.confirmed and hanging.services_in_wall is False:
        words += " It was confirmed to bear the units, and that nothing runs in it there."
        return Held(rule, Verdict.PASS, words, sources=sources)
    condition = "somebody confirms that the wall bears the units and fixes them as their maker says"
    if hanging.services_in_wall is not False:
        condition += ", and that nothing runs in it where it is drilled"
    return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)


def _carrying(request: ClearanceRequest, spot: Spot) -> Held:
    rule, way = "carry-in", spot.way_in
    pieces = [one.heaviest_piece or one.mass for one in request.units]
    piece = None if None in pieces else max(one for one in pieces if one is not None)
    bands = carry_bands()
    if piece is None:
        words = "The weight of the units is not known, so nobody can say who carries them."
        condition = "the crew comes with the people and the lift that the heaviest piece takes"
        sources = cells("siting_carry", bands[-1].id)
        return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)
    # Steps that are not known may be there.
    steps, mass = 1 if way.steps is None else way.steps, si(piece, "lb")
    at, persons = _people(mass, steps, (way.slope_percent or 0.0) / 100.0)
    # A slope that is not known may be too steep for what rolls.
    most = _people(mass, steps, 1.0)[1] if way.slope_percent is None else persons
    band = bands[at]
    there = "with steps, as nobody said there are none" if way.steps is None else "on this way"
    words = f"The heaviest piece weighs {piece:g} lb: {_persons(persons)} {there}. {band.statement}"
    sources = cells("siting_carry", band.id)
    come = None if way.people is None else float(way.people)
    if band.help == "machine lift":
        condition = f"a machine lift and {_persons(most)} come along, and the way in takes them"
        held = (come, float(most), "people", sources, condition)
        return Held(rule, Verdict.CONDITIONAL, words, *held)
    if (way.people or 0) >= most:
        return Held(rule, Verdict.PASS, words, come, float(persons), "people", sources)
    condition = f"{_persons(persons)} and what they lift with come along"
    if most > persons:
        condition += f", or {_persons(most)} where the way is too steep to roll it"
    held = (come, float(persons), "people", sources, condition)
    return Held(rule, Verdict.CONDITIONAL, words, *held)


def _persons(count: int) -> str:
    return "1 person" if count == 1 else f"{count} people"


def _gate(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return how the narrowest place of the way in stands."""
    rule, stated = "gate-width", spot.way_in.narrowest
    need, by = max(_way_needed(kind, rules.chain) for kind in request.units)
    sources = cited(rules.chain, by)
    if stated is None:
        words = (
            f"The narrowest gate or door on the way in is not known; {in_words(need, 'up')} is "
            "needed."
        )
        condition = f"the way in is {in_words(need, 'up')} wide at its narrowest"
        return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]
    lens = Lens(by=spot.measured_by or UNSTATED).of(f"{spot.place_at}/way_in")
    width, least = lens.read(stated, -1), lens._replace(lengths=1).read(stated, -1)
    held = (to_inches(width, "down"), to_inches(need, "up"), "in", sources)
    words = (
        f"The way in is {in_words(width, 'down')} wide at its narrowest; the widest piece and "
        f"what carries it take {in_words(need, 'up')}."
    )
    if at_least(least, need, "length"):
        return [Held(rule, Verdict.PASS, words, *held)]
    if at_least(width, need, "length"):
        condition = "a tape confirms the width of the way in"
        return [Held(rule, Verdict.CONDITIONAL, words, *held, condition)]
    condition = "the units come in another way, or in narrower pieces"
    return [Held(rule, Verdict.CONDITIONAL, words, *held, condition)]


def _shaking(request: ClearanceRequest) -> list[Held]:
    rule, kind = "seismic-anchorage", _heaviest(request)
    sources = cells("siting_anchorage", "amplification", "response", "importance")
    condition = "the anchors are those of the listing, or an engineer's for earthquakes"
    if request.anchorage is None or kind.mass is None:
        words = (
            "The earthquake force on the anchors is not worked out: weight or S_DS is not known."
        )
        return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]
    known = request.anchorage
    force = _anchor_lbf(si(kind.mass, "lb") * kind.stack.levels, known.sds, known.height_part)
    words = (
        f"By screening an earthquake pulls sideways with {force:.0f} lbf at a column of {kind.id}; "
        "ASCE 7-22 states another force."
    )
    if known.designed:
        words += " The anchors are stated to be designed for these figures."
        return [Held(rule, Verdict.PASS, words, force, None, "lbf", sources)]
    held = (force, None, "lbf", sources, condition)
    return [Held(rule, Verdict.CONDITIONAL, words, *held)]


def _digging(spot: Spot) -> list[Held]:
    """Return what a trench to the panel takes."""
    route = spot.to_panel
    if route is None or not route.trench:
        return []
    found, surface = [], "ground" if route.surface is None else route.surface
    words = f"{route.trench:g} ft of the way to the panel are dug through {surface}."
    condition = None if route.located else "the underground service alert marks all lines first"
    verdict = Verdict.PASS if route.located else Verdict.CONDITIONAL
    found.append(Held("dig-alert", verdict, words, route.trench, None, "ft", condition=condition))
    if route.easement is not False:
        known = "crosses" if route.easement else "may cross"
        found.append(
            Held(
                "easement",
                Verdict.CONDITIONAL,
                f"The trench {known} an easement.",
                condition="whoever holds the easement agrees to the trench, if it crosses one",
            )
        )
    return found


@lru_cache(maxsize=256)
def _fewest_studs(width: float, spacing: float) -> int:
    """Return how many studs a width finds at least [m]."""
    return int(stud_load(width, spacing, 0.0, 1.0).fewest)


@lru_cache(maxsize=256)
def _people(mass: float, steps: int, slope: float) -> tuple[int, int]:
    """Return the band of a mass [kg] and how many carry it over steps and a slope [1]."""
    bands = carry_bands()
    needs = carry_needs(
        mass,
        steps,
        slope,
        0,
        tuple(band.up_to for band in bands),
        tuple(band.persons for band in bands),
        tuple(band.persons_on_steps for band in bands),
        tuple(nan if band.slope is None else band.slope for band in bands),
    )
    return int(needs.band), int(needs.persons)


@lru_cache(maxsize=256)
def _anchor_lbf(mass: float, sds: float, height_part: float) -> float:
    """Return the force on the anchors of a mass [kg], by S_DS and height [1], in lbf."""
    factors = anchorage_factors()
    found = anchor_force(
        mass, sds, height_part, factors.amplification, factors.response, factors.importance
    )
    return float(found.force) / _NEWTONS_PER_LBF


def _way_needed(kind: SitingUnit, chain: tuple[str, ...]) -> tuple[float, str]:
    """Return the width of way that a unit takes [m], and the rule that asks for it.

    Notes
    -----
    What weighs too much to be carried by hand, or is not known, comes on a truck.
    """
    piece = kind.heaviest_piece or kind.mass
    at = len(carry_bands()) - 1 if piece is None else _people(si(piece, "lb"), 0, 0.0)[0]
    rolled = carry_bands()[at].help != "none"
    hands = min(kind.width, kind.depth) * INCH + siting_length("carry-hand-room", chain)
    truck = siting_length("hand-truck-width", chain)
    if rolled and truck > hands:
        return truck, "hand-truck-width"
    return hands, "carry-hand-room"
