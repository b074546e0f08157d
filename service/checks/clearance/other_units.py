"""Units of another size, spacing or height that would stand where those wanted do not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final, NamedTuple

from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.inches import in_words
from service.checks.clearance.lens import INCH
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import scene_of
from service.checks.clearance.solve import fits
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import bottom_of, box_of, level_gap, spacing_of
from service.checks.clearance.wall_lane import SAME
from service.facts.siting_objects import Opening
from service.facts.siting_unit import SitingUnit, StackedUnits

#: Step in which sizes are sought [1/16 in].
_SIXTEENTH: Final = 16.0
_CHOOSE: Final = 2
_MOVE: Final = 1
#: Lower edges that installers use [in]. Standing: common practice, no source.
_USUAL_BOTTOMS: Final = (6.0, 12.0, 18.0, 24.0, 30.0, 36.0, 42.0, 48.0)
#: A unit less deep or wide than this is none [in]. Standing: common practice, no source.
_LEAST_DEPTH: Final = 4.0
_LEAST_WIDTH: Final = 8.0


class Try(NamedTuple):
    """A fix to try: its words, and the request with it done."""

    id: str
    effort: int
    statement: str
    request: ClearanceRequest


def other_units(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit
) -> Iterator[Try]:
    """Yield the request with the deepest, the widest and the widest-spaced units that stand."""

    def stands(made: ClearanceRequest) -> bool:
        scene = scene_of(spot, made.units, rules, lens_of(spot), barriers=fit.barriers)
        return fits(scene, fit.counts)

    depth = _deepest(request, rules, spot, stands)
    if depth is not None:
        words = f"Choose units at most {in_words(depth * INCH, 'down')} deep."
        made = _each(request, lambda unit: changed(unit, depth=min(unit.depth, depth)))
        yield Try("less-depth", _CHOOSE, words, made)
    if sum(fit.counts) > 1:
        widest = max(spacing_of(unit, rules) for unit in request.units) / INCH
        gap = _largest(0.0, widest, lambda x: stands(_spaced(request, rules, x)))
        if gap is not None and gap < widest:
            words = f"Choose units listed for a spacing of at most {in_words(gap * INCH, 'down')}."
            yield Try("less-spacing", _CHOOSE, words, _spaced(request, rules, gap))
    width = max(unit.width for unit in request.units)
    found = _largest(_LEAST_WIDTH, width, lambda x: stands(_narrowed(request, x)))
    if found is not None and found < width:
        words = f"Choose units at most {in_words(found * INCH, 'down')} wide."
        yield Try("less-width", _CHOOSE, words, _narrowed(request, found))
    yield from _stacked(request)


def _each(
    request: ClearanceRequest, change: Callable[[SitingUnit], SitingUnit]
) -> ClearanceRequest:
    return changed(request, units=[change(unit) for unit in request.units])


def _narrowed(request: ClearanceRequest, width: float) -> ClearanceRequest:
    return _each(request, lambda unit: changed(unit, width=min(unit.width, width)))


def _spaced(request: ClearanceRequest, rules: RuleNumbers, gap: float) -> ClearanceRequest:
    return _each(
        request,
        lambda unit: changed(unit, listed_spacing=min(gap, spacing_of(unit, rules) / INCH)),
    )


def _deepest(
    request: ClearanceRequest,
    rules: RuleNumbers,
    spot: Spot,
    stands: Callable[[ClearanceRequest], bool],
) -> float | None:
    """Return the largest depth with which all stand, less than theirs [in]; None: none does.

    Notes
    -----
    What bounds a depth is the ground at one of its pieces less what must stay before the unit, so
    those few depths are tried, the largest first.
    """
    lens = lens_of(spot)
    wall = scene_of(spot, request.units, rules, lens).walls[0]
    deepest = max(unit.depth for unit in request.units)
    tried = set()
    for unit in request.units:
        box = box_of(unit, rules, lens, None)
        for strip in wall.strips:
            need = max(wall.walkway, box.front, strip.working_depth * (box.working_width > 0.0))
            for clear in (strip.clear1, strip.clear2):
                room = (clear - need - box.standoff) / INCH
                tried.add(int(room * _SIXTEENTH + 1e-6) / _SIXTEENTH)
    for depth in sorted(tried, reverse=True):
        if _LEAST_DEPTH <= depth < deepest and stands(
            _each(request, lambda unit, d=depth: changed(unit, depth=min(unit.depth, d)))  # type: ignore[misc]
        ):
            return depth
    return None


def _largest(low: float, high: float, holds: Callable[[float], bool]) -> float | None:
    """Return the largest sixteenth from low to high that holds [in]; None: not even the low one.

    Notes
    -----
    Less never fits worse, so the interval is halved.
    """
    if low >= high or not holds(low):
        return None
    good, bad = round(low * _SIXTEENTH), int(high * _SIXTEENTH) + 1
    while bad - good > 1:
        middle = (good + bad) // 2
        if holds(middle / _SIXTEENTH):
            good = middle
        else:
            bad = middle
    return good / _SIXTEENTH


def _stacked(request: ClearanceRequest) -> Iterator[Try]:
    """Yield two boxes above each other in one listed cabinet, where one kind is wanted."""
    unit = request.units[0]
    if len(request.units) > 1 or unit.count < 2 or unit.stack.levels > 1:
        return
    columns = (unit.count + 1) // 2
    stack = StackedUnits(levels=2, gap=0.0, one_cabinet=True)
    made = changed(request, units=[changed(unit, stack=stack, count=columns)])
    words = f"Choose units listed to stand two above each other, in {columns} column"
    yield Try("stack", _CHOOSE, f"{words}{'s' * (columns > 1)}.", made)


def other_heights(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit
) -> Iterator[Try]:
    """Yield the request with the units hung at other usual heights, and just clear of openings."""
    hung = [unit for unit in request.units if unit.mount == "wall"]
    if not hung:
        return
    unit = hung[0]
    tall = unit.stack.levels * unit.height + (unit.stack.levels - 1) * level_gap(unit, rules) / INCH
    tried = set(_USUAL_BOTTOMS)
    for thing in spot.objects:
        if isinstance(thing, Opening) and thing.bottom is not None:
            sill = lens_of(spot).read(thing.bottom, -1)
            # As high as a straight line to the sill leaves.
            tried.add(int(((sill - rules.opening) / INCH - tall) * _SIXTEENTH + 1e-6) / _SIXTEENTH)
    now = bottom_of(unit)
    reach = (rules.handle - (0.0 if unit.handle is None else unit.handle) * INCH) / INCH
    if unit.handle is None:
        reach -= tall
    low = rules.bottom / INCH
    for bottom in sorted(tried, key=lambda one: (abs(one - now), one)):
        if not low <= bottom <= reach or abs(bottom - now) * INCH <= SAME:
            continue
        made = _each(
            request,
            lambda one, at=bottom: changed(one, bottom=at) if one.mount == "wall" else one,  # type: ignore[misc]
        )
        scene = scene_of(spot, made.units, rules, lens_of(spot), barriers=not fit.barriers)
        if fits(scene, fit.counts):
            words = f"Hang them with their lower edge {in_words(bottom * INCH)} above the ground."
            yield Try("hang-at", _MOVE, words, made)
            return
