"""Units hung at another height, where they stand or keep a rule that they do not keep now."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.inches import in_words
from service.checks.clearance.lens import INCH
from service.checks.clearance.other_units import SIXTEENTH, each
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import Scene, scene_of
from service.checks.clearance.solve import fits
from service.checks.clearance.spots import Spot
from service.checks.clearance.tries import MOVE, Try
from service.checks.clearance.unit_boxes import bottom_of, level_gap
from service.checks.clearance.wall_lane import SAME
from service.facts.siting_objects import Opening
from service.facts.siting_spots import SitingWall

#: Lower edges that installers use [in]. Standing: common practice, no source.
_USUAL_BOTTOMS: Final = (6.0, 12.0, 18.0, 24.0, 36.0, 48.0)


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
            tried.add(int(((sill - rules.opening) / INCH - tall) * SIXTEENTH + 1e-6) / SIXTEENTH)
    now = bottom_of(unit)
    reach = (rules.handle - (0.0 if unit.handle is None else unit.handle) * INCH) / INCH
    if unit.handle is None:
        reach -= tall
    low = _above_flood(spot, rules)
    # As high and as low as it goes, in sixteenths.
    tried.add(ceil(low * SIXTEENTH - 1e-6) / SIXTEENTH)
    tried.add(int(reach * SIXTEENTH + 1e-6) / SIXTEENTH)
    for bottom in sorted(tried, key=lambda one: (abs(one - now), one)):
        if not low <= bottom <= reach or abs(bottom - now) * INCH <= SAME:
            continue
        made = each(
            request,
            lambda one, at=bottom: changed(one, bottom=at) if one.mount == "wall" else one,  # type: ignore[misc]
        )
        if fits(_hung_at(fit, spot, made, rules, bottom * INCH), fit.counts):
            words = f"Hang them with their lower edge {in_words(bottom * INCH)} above the ground."
            yield Try("hang-at", MOVE, words, made, sum(fit.counts))
            return


def _above_flood(spot: Spot, rules: RuleNumbers) -> float:
    """Return how low a unit may hang: above the ground, and above a flood that is known [in]."""
    place, low = spot.place, rules.bottom
    if isinstance(place, SitingWall) and place.flood is not None:
        flood = lens_of(spot)._replace(lengths=1).read(place.flood, 1)
        low = max(low, flood + rules.freeboard)
    return low / INCH


def _hung_at(
    fit: Fit, spot: Spot, made: ClearanceRequest, rules: RuleNumbers, bottom: float
) -> Scene:
    """Return the scene with its units hung at a height; in a garage clear of vehicles [m]."""
    if spot.kind == "garage":
        return scene_of(spot, made.units, rules, lens_of(spot), barriers=not fit.barriers)
    units = tuple(
        unit._replace(bottom=bottom) if kind.mount == "wall" else unit
        for unit, kind in zip(fit.scene.units, made.units, strict=True)
    )
    return fit.scene._replace(units=units)
