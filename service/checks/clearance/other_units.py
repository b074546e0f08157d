"""Units of another size or spacing that would stand where those wanted do not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from service.checks.clearance.arrange import placed_at_most
from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.inches import in_words
from service.checks.clearance.lane_steps import lane_of
from service.checks.clearance.left_edges import allowed_edges, joined
from service.checks.clearance.lens import INCH
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import Scene, scene_of
from service.checks.clearance.solve import Spans, fits, placed_in
from service.checks.clearance.spots import Spot
from service.checks.clearance.tries import CHOOSE, Try
from service.checks.clearance.unit_boxes import spacing_of
from service.checks.clearance.wall_lane import SAME, Unit
from service.facts.siting_unit import SitingUnit, StackedUnits

#: Step in which sizes are sought [1/16 in].
SIXTEENTH: Final = 16.0
#: A unit less deep or wide than this is none [in]. Standing: common practice, no source.
_LEAST_DEPTH: Final = 4.0
_LEAST_WIDTH: Final = 8.0


def other_units(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit
) -> Iterator[Try]:
    """Yield the request with the deepest, the widest and the widest-spaced units that stand.

    Sizes are sought on the scene at hand; whoever takes a try places the units again.
    """
    scene, wanted = fit.scene, sum(fit.counts)
    spans = tuple([joined(some) for some in fit.solved.spans])

    def stands(units: tuple[Unit, ...]) -> bool:
        return fits(scene._replace(units=units), fit.counts, spans)

    depth = _deepest(scene, fit.counts)
    if depth is not None:
        words = f"Choose units at most {in_words(depth * INCH, 'down')} deep."
        made = each(request, lambda unit: changed(unit, depth=min(unit.depth, depth)))
        yield Try("less-depth", CHOOSE, words, made, wanted)
    if wanted > 1:
        widest = max(unit.gap for unit in scene.units) / INCH
        gap = largest_size(0.0, widest, lambda x: _stand_at(fit, _spaced(scene.units, x * INCH)))
        if gap is not None and gap < widest:
            words = f"Choose units listed for a spacing of at most {in_words(gap * INCH, 'down')}."
            listed = each(
                request,
                lambda unit: changed(unit, listed_spacing=min(gap, spacing_of(unit, rules) / INCH)),
            )
            yield Try("less-spacing", CHOOSE, words, listed, wanted)
    width = max(unit.width for unit in request.units)
    found = largest_size(
        _LEAST_WIDTH,
        width,
        lambda x: stands(_narrowed(scene.units, x * INCH, rules)),
        _width_by_room(scene, spans, wanted) / INCH,
    )
    if found is not None and found < width:
        words = f"Choose units at most {in_words(found * INCH, 'down')} wide."
        narrow = each(request, lambda unit: changed(unit, width=min(unit.width, found)))
        yield Try("less-width", CHOOSE, words, narrow, wanted)
    yield from _stacked(request, rules, spot, len(fit.solved.arrangement.positions))


def each(request: ClearanceRequest, change: Callable[[SitingUnit], SitingUnit]) -> ClearanceRequest:
    """Return the request with every kind of unit changed."""
    return changed(request, units=[change(unit) for unit in request.units])


def _narrowed(units: tuple[Unit, ...], width: float, rules: RuleNumbers) -> tuple[Unit, ...]:
    """Return units no wider than a width, each with its working space [m]."""
    found = []
    for unit in units:
        wide = min(unit.width, width)
        working = max(rules.working_width, wide) if unit.working_width > 0.0 else 0.0
        found.append(unit._replace(width=wide, working_width=working))
    return tuple(found)


def _stand_at(fit: Fit, units: tuple[Unit, ...]) -> bool:
    """Return whether units that differ from those at hand in their spacing alone all stand."""
    scene, allowed = fit.scene, [kind.allowed for kind in fit.solved.edges]
    lane = lane_of(scene.walls[0], units, allowed, scene.rooms[0])
    return placed_at_most(lane, fit.counts) == sum(fit.counts)


def _spaced(units: tuple[Unit, ...], gap: float) -> tuple[Unit, ...]:
    """Return units that keep no more than a gap, but what their makers ask at the sides [m]."""
    return tuple(
        unit._replace(gap=min(unit.gap, max(gap, unit.left, unit.right))) for unit in units
    )


def _deepest(scene: Scene, counts: tuple[int, ...]) -> float | None:
    """Return the largest depth with which all stand, less than theirs [in]; None: none does.

    Notes
    -----
    What bounds a depth is the ground at one of its pieces less what must stay before the unit, so
    those few depths are tried, the largest first.
    """
    deepest = max(unit.depth for unit in scene.units) / INCH
    tried = set()
    for unit, wall in zip(scene.units, scene.walls, strict=True):
        for strip in wall.strips:
            way = wall.walkway if strip.walked else 0.0
            need = max(way, unit.front, strip.working_depth * (unit.working_width > 0.0))
            for clear in (strip.clear1, strip.clear2):
                room = (clear - need - unit.standoff) / INCH
                tried.add(int(room * SIXTEENTH + 1e-6) / SIXTEENTH)
    for depth in sorted(tried, reverse=True):
        if not _LEAST_DEPTH <= depth < deepest:
            continue
        units = tuple(unit._replace(depth=min(unit.depth, depth * INCH)) for unit in scene.units)
        if fits(scene._replace(units=units), counts):
            return depth
    return None


def _width_by_room(scene: Scene, spans: Spans, wanted: int) -> float:
    """Return the width at which as many fit as are wanted into what is free of a wall [m].

    Notes
    -----
    By the first kind and the widest spacing: near what is sought, and no more than that. Source:
    derived.
    """
    unit, gap = scene.units[0], max(unit.gap for unit in scene.units)
    slim = unit._replace(width=_LEAST_WIDTH * INCH)
    free = [
        hi - lo + slim.width
        for lo, hi in allowed_edges(scene.walls[0], slim, scene.rooms[0], spans[0])
    ]
    widths = {(run - gap * (n - 1)) / n for run in free for n in range(1, wanted + 1)}
    for width in sorted(widths, reverse=True):
        if width <= slim.width or sum(_in_run(run, width, gap) for run in free) >= wanted:
            return width
    return 0.0


def _in_run(run: float, width: float, gap: float) -> int:
    return int((run + gap) / (width + gap) + SAME)


def largest_size(
    low: float, high: float, holds: Callable[[float], bool], near: float = 0.0
) -> float | None:
    """Return the largest sixteenth from low to high that holds [in]; None: not even the low one.

    Parameters
    ----------
    low, high : float
        [in]
    holds : callable
        Of a size [in].
    near : float, optional
        Where it is tried first, and a sixteenth above [in].

    Notes
    -----
    Less never fits worse, so the interval is halved.
    """
    if low >= high:
        return None
    least = round(low * SIXTEENTH)
    good, bad = least - 1, int(high * SIXTEENTH) + 1
    guess = int(near * SIXTEENTH + 1e-6)
    first = [least, guess + 1, guess]
    while bad - good > 1:
        middle = first.pop() if first else (good + bad) // 2
        if not good < middle < bad:
            continue
        if holds(middle / SIXTEENTH):
            good = middle
        else:
            bad = middle
    return None if good < least else good / SIXTEENTH


def _stacked(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, placed_now: int
) -> Iterator[Try]:
    """Yield two boxes above each other in one listed cabinet, where one kind is wanted."""
    unit = request.units[0]
    if len(request.units) > 1 or unit.count < 2 or unit.stack.levels > 1:
        return
    columns = (unit.count + 1) // 2
    # Where no such number of single ones stands no such number of columns does.
    if placed_now < columns:
        return
    stack = StackedUnits(levels=2, gap=0.0, one_cabinet=True)
    made = changed(request, units=[changed(unit, stack=stack, count=columns)])
    placed = placed_in(scene_of(spot, made.units, rules, lens_of(spot)), (columns,))
    words = f"Choose units listed to stand two above each other, in {columns} column"
    yield Try("stack", CHOOSE, f"{words}{'s' * (columns > 1)}.", made, placed)
