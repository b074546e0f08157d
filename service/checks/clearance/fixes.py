"""What would make room at a place, least effort first, each verified by placing again."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Final

from service.checks.clearance.added_bollards import added_bollards
from service.checks.clearance.answer import Fix
from service.checks.clearance.by_hand import placed_by_hand
from service.checks.clearance.fit import fit_of
from service.checks.clearance.held import Held
from service.checks.clearance.inches import in_words
from service.checks.clearance.judged import Aside, Judged, judge, left_by
from service.checks.clearance.lens import INCH
from service.checks.clearance.moved_objects import several_moved, with_spot, without_objects
from service.checks.clearance.other_heights import other_heights
from service.checks.clearance.other_units import other_units
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.several_places import several_places
from service.checks.clearance.spots import Spot, spots_of
from service.checks.clearance.tries import MOVE, Try
from service.checks.clearance.wall_lane import SAME
from service.facts.siting_length import MeasuredLength
from service.facts.siting_place import PlacedUnit
from service.findings import Verdict

#: Rules that another height may keep.
_OF_HEIGHT: Final = frozenset(("flood-height", "handle-height"))
#: Fields of a unit that rules held aside do not read, each row more than the one before.
UNREAD: Final = (
    (("bottom", "listed_spacing"), "hanging"),
    (("width",), "place"),
    (("depth",), "energy"),
)
#: Fixes that are shown.
_SHOWN: Final = 8


def fixes_of(
    request: ClearanceRequest, rules: RuleNumbers, judged: list[Judged], chosen: Judged
) -> list[Fix]:
    """Return what would make room at the chosen place.

    Parameters
    ----------
    request : ClearanceRequest
    rules : RuleNumbers
    judged : list of Judged
        All places.
    chosen : Judged
        The place that stands for the answer.
    """
    spot, fit = chosen.spot, chosen.fit
    short = not fit.solved.arrangement.complete
    misplaced = any(
        one.rule == "placed-units" and one.verdict is not Verdict.PASS for one in chosen.held
    )
    verified = partial(_verified, request, rules, chosen)
    found: list[Fix] = []
    if misplaced and not short:
        found += verified(_moved(request, spot, chosen))
    if short:
        wanted = sum(fit.counts)
        found += verified(other_heights(request, rules, spot, fit))
        found += verified(other_units(request, rules, spot, fit))
        found += verified(without_objects(request, spot, chosen, wanted, wanted))
        if all(fix.placed < wanted for fix in found):
            found += verified(_fewer(request, chosen))
            more = chosen.placed + 1
            found += verified(without_objects(request, spot, chosen, more, wanted - 1))
        # Several things move where neither a thing alone nor another height makes room for all.
        room = [fix for fix in found if fix.placed == wanted]
        if not any(fix.effort == MOVE or fix.id == "move-object" for fix in room):
            found += verified(several_moved(request, spot, chosen))
        found += _elsewhere(judged, chosen) or several_places(request, rules, judged)
    elif fit.barriers or any(
        one.verdict is Verdict.FAIL and one.rule in _OF_HEIGHT for one in chosen.held
    ):
        found += verified(other_heights(request, rules, spot, fit))
    found += verified(added_bollards(request, rules, chosen))
    found += verified(_lighter(request, chosen))
    return sorted(found, key=lambda fix: _order(fix, sum(fit.counts)))[:_SHOWN]


def _order(fix: Fix, wanted: int) -> tuple[bool, bool, int, int]:
    """Return what fixes are sorted by: room for all, no other rule against it, least effort."""
    return fix.placed < wanted, fix.verdict is Verdict.FAIL, fix.effort, -fix.placed


def _lighter(request: ClearanceRequest, chosen: Judged) -> Iterator[Try]:
    """Yield as many units of one kind as the energy of the location leaves."""
    over = any(one.rule == "location-energy" and one.verdict is Verdict.FAIL for one in chosen.held)
    unit, most = request.units[0], chosen.fit.solved.most[0]
    if not over or len(request.units) > 1 or not 0 < most < unit.count or chosen.spot.placed:
        return
    words = f"Hang {most} here, as the energy of the location allows, the others elsewhere or none."
    made = changed(request, units=[changed(unit, count=most)])
    yield Try("fewer-units", MOVE, words, made, most)


def _verified(
    request: ClearanceRequest, rules: RuleNumbers, chosen: Judged, tries: Iterator[Try]
) -> list[Fix]:
    """Return the tries with which all of their units stand, or more than now, when placed again."""
    found: list[Fix | None] = []
    for one in tries:
        wanted = sum(unit.count for unit in one.request.units)
        if one.placed == wanted or one.placed > chosen.placed:
            found.append(_placed_again(request, rules, chosen, one))
    return [fix for fix in found if fix is not None]


def _placed_again(
    request: ClearanceRequest, rules: RuleNumbers, chosen: Judged, one: Try
) -> Fix | None:
    """Return a fix as it stands when its request is judged anew; None where it is none."""
    spots = spots_of(one.request)
    spot = next(s for s in spots if s.pointer == chosen.spot.pointer).sharing(chosen.spot)
    known = _known(request, chosen, one)
    left = left_by(known)
    fit = fit_of(one.request, rules, spot, at_best=left)
    placed = fit.solved.arrangement
    if not placed.complete and len(placed.positions) <= chosen.placed:
        return None
    if chosen.fit.barriers and fit.barriers and one.id in ("hang-at", "add-bollards"):
        return None
    then = judge(one.request, rules, spot, fit, known, at_best=left)
    if any(h.rule == "placed-units" and h.verdict is Verdict.FAIL for h in then.held):
        return None
    return Fix(
        id=one.id,
        place=spot.name,
        effort=one.effort,
        statement=one.statement,
        verdict=then.verdict,
        placed=_boxes(one.request, then, chosen),
    )


def _known(request: ClearanceRequest, chosen: Judged, one: Try) -> Aside:
    """Return the rules held aside that read nothing of what a try changes of the units."""
    if len(request.units) != len(one.request.units):
        return {}
    known: dict[str, list[Held]] = {}
    units = request.units
    for unread, name in UNREAD:
        units = [
            changed(unit, **{field: getattr(then, field) for field in unread})
            for unit, then in zip(units, one.request.units, strict=True)
        ]
        if units == one.request.units:
            known[name] = chosen.aside[name]
    return known


def _boxes(made: ClearanceRequest, then: Judged, chosen: Judged) -> int:
    """Return how many of the units wanted stand: a column holds as many as it has levels."""
    levels = [unit.stack.levels for unit in made.units]
    before = [unit.levels for unit in chosen.fit.scene.units]
    boxes = sum(levels[kind] for kind, _ in then.fit.solved.arrangement.positions)
    if levels == before:
        return then.placed
    return min(boxes // before[0], sum(chosen.fit.counts))


def _moved(request: ClearanceRequest, spot: Spot, chosen: Judged) -> Iterator[Try]:
    """Yield the units placed by hand, moved to the nearest places that stand together."""
    hands = placed_by_hand(request, spot)
    order = chosen.fit.solved.arrangement.positions
    if len(hands) == 1:
        allowed = chosen.fit.solved.edges[hands[0].kind].allowed
        near = [min(max(hands[0].left, lo), hi) for lo, hi in allowed]
        if not near:
            return
        target = min(near, key=lambda x: abs(x - hands[0].left))
        places = [(hands[0].kind, target)]
    elif len(order) == len(hands):
        places = list(order)
    else:
        return
    by = abs(places[0][1] - hands[0].left)
    if len(hands) == 1 and by <= SAME:
        return
    way = "right" if places[0][1] > hands[0].left else "left"
    words = (
        f"Move the unit {in_words(by, 'up')} to the {way}."
        if len(hands) == 1
        else "Hang the units at the places of the arrangement."
    )
    lefts = [
        PlacedUnit(unit=request.units[kind].id, left=MeasuredLength(value=x / INCH, within=0.0))
        for kind, x in places
    ]
    yield Try("move-unit", MOVE, words, with_spot(request, spot, placed=lefts), len(order))


def _fewer(request: ClearanceRequest, chosen: Judged) -> Iterator[Try]:
    """Yield as many units as stand, the rest elsewhere or left away."""
    placed = chosen.fit.solved.arrangement.positions
    if not placed:
        return
    counts = [sum(kind == at for kind, _ in placed) for at in range(len(request.units))]
    units = [
        changed(unit, count=count)
        for unit, count in zip(request.units, counts, strict=True)
        if count
    ]
    words = f"Hang {len(placed)} here, the others at another place or none."
    kept = {unit.id for unit in units}
    lighter = changed(request, units=units)
    if all(one.unit in kept for one in chosen.spot.placed):
        yield Try("fewer-units", MOVE, words, lighter, len(placed))


def _elsewhere(judged: list[Judged], chosen: Judged) -> list[Fix]:
    """Return the other places on which all the units stand."""
    found = []
    others = [one for one in judged if one is not chosen]
    for one in others:
        if one.fit.solved.arrangement.complete and Verdict.FAIL is not one.verdict:
            found.append(
                Fix(
                    id="other-place",
                    place=one.spot.name,
                    effort=MOVE,
                    statement=f"Hang them at {one.spot.name}.",
                    verdict=one.verdict,
                    placed=one.placed,
                )
            )
    return found
