"""What is on a wall or before it, as keep-outs, ground and working spaces of the lane."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import inf
from typing import Any, Final, NamedTuple

from service.checks.clearance.door_sweep import door_sweep
from service.checks.clearance.lens import Lens
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.walkway_left import HEADROOM
from service.checks.clearance.wall_lane import PARTS, InTheWay, KeepOut, Panel, Strip, Unit
from service.codes.siting_equipment import siting_equipment
from service.facts.siting_length import AnyHeight, AnySpan
from service.facts.siting_objects import (
    Condenser,
    CornerOpening,
    GasVent,
    Opening,
    PoolEdge,
    WallEquipment,
)

#: Parts of an object that bind, of its reasons PARTS * index + part.
SOLID: Final = 0
DISTANCE: Final = 1
SWEEP: Final = 2

#: Landing before a door. Source: IRC 2021, R311.3, 36 in; from memory, not verified.
LANDING: Final = 36 * 0.0254
#: An opening that begins lower is a door. Standing: common practice, no source.
_STEP_OVER: Final = 6 * 0.0254
#: What is opposite is grounded. Source: NEC 2023, Table 110.26(A)(1), condition 2.
GROUNDED: Final = 2


class Around(NamedTuple):
    """What an object is read with.

    Attributes
    ----------
    unit : Unit
    volts : float
        Highest to ground inside the unit [V].
    opening : float
        Distance that the unit keeps from openings of the dwelling [m].
    rules : RuleNumbers
    lens : Lens
    wall_length : float
        [m]
    """

    unit: Unit
    volts: float
    opening: float
    rules: RuleNumbers
    lens: Lens
    wall_length: float


class Kept(NamedTuple):
    """What objects come to."""

    keep_outs: list[KeepOut]
    strips: list[Strip]
    panels: list[Panel]
    in_the_way: list[InTheWay]


def _heights(
    bottom: AnyHeight | None, height: AnySpan | None, lens: Lens, *, grounded: bool = False
) -> tuple[float, float]:
    """Return lower and upper edge [m].

    A door whose lower edge is not stated is `grounded`. Of all else it is not known then: every
    height counts, and where that helps none does.
    """
    if bottom is None and not grounded:
        return (inf if lens.facts < 0 else 0.0), inf
    if height is None:
        return 0.0 if bottom is None else lens.read(bottom, -1), inf
    return (0.0, lens.read(height, 1)) if bottom is None else lens.span(bottom, height)


def _along(
    thing: Opening | WallEquipment | Condenser | PoolEdge, lens: Lens
) -> tuple[float, float]:
    """Return left and right edge [m]."""
    return lens.span(thing.left, thing.width)


def distance_of(leads_to: str | None, around: Around) -> float:
    """Return the distance to keep from an opening by what lies behind it [m]."""
    if leads_to is None:
        # Not known: the dwelling, until it helps to take it as another.
        leads_to = "dwelling" if around.lens.facts >= 0 else "other"
    counts = leads_to == "dwelling" or (leads_to == "garage" and around.rules.garages_count)
    return around.opening if counts else 0.0


def _opening(found: Kept, thing: Opening, around: Around, first: int) -> None:
    lens = around.lens
    x1, x2 = _along(thing, lens)
    z1, z2 = _heights(thing.bottom, thing.height, lens, grounded=thing.what == "door")
    any_height = around.rules.any_height
    found.keep_outs.append(KeepOut(x1, x2, -inf, inf, z1, z2, 0.0, False, False, first + SOLID))
    distance = distance_of(thing.leads_to, around)
    if distance > 0.0:
        found.keep_outs.append(
            KeepOut(x1, x2, -inf, inf, z1, z2, distance, any_height, False, first + DISTANCE)
        )
    swings_out = thing.swing == "out" or (thing.swing is None and lens.facts > 0)
    if thing.what == "door" and swings_out:
        _sweep(found, thing, around, first + SWEEP, (x1, x2), (z1, z2))


def _sweep(
    found: Kept,
    thing: Opening,
    around: Around,
    reason: int,
    along: tuple[float, float],
    heights: tuple[float, float],
) -> None:
    unit = around.unit
    leaf = along[1] - along[0]
    for hinge in ("left", "right") if thing.hinge is None else (thing.hinge,):
        swept = door_sweep(
            *along, hinge, leaf, thing.opens_degrees, unit.standoff, unit.standoff + unit.depth
        )
        if swept is not None:
            found.keep_outs.append(KeepOut(*swept, -inf, inf, *heights, 0.0, False, False, reason))


def _corner(found: Kept, thing: CornerOpening, around: Around, first: int) -> None:
    distance, lens = distance_of(thing.leads_to, around), around.lens
    at = 0.0 if thing.end == "left" else around.wall_length
    y1 = lens.read(thing.out, -1)
    y2 = lens.read(thing.out, 1) + lens.read(thing.width, 1)
    z1, z2 = _heights(thing.bottom, thing.height, lens)
    any_height = around.rules.any_height
    if distance > 0.0:
        found.keep_outs.append(
            KeepOut(at, at, y1, y2, z1, z2, distance, any_height, False, first + DISTANCE)
        )
    if z1 < _STEP_OVER:
        # It reaches the ground: a door, before which people stand wherever it leads.
        x1, x2 = (0.0, LANDING) if thing.end == "left" else (at - LANDING, at)
        found.keep_outs.append(KeepOut(x1, x2, y1, y2, z1, z2, 0.0, False, False, first + SOLID))


def _gas(found: Kept, thing: GasVent, around: Around, first: int) -> None:
    lens, reason = around.lens, first + DISTANCE
    x1, x2 = lens.read(thing.left, -1), lens.read(thing.left, 1)
    y1, y2 = lens.read(thing.out, -1), lens.read(thing.out, 1)
    z1, z2 = lens.read(thing.height, -1), lens.read(thing.height, 1)
    found.keep_outs.append(KeepOut(x1, x2, y1, y2, z1, z2, around.rules.gas, False, False, reason))


def _equipment(found: Kept, thing: WallEquipment, around: Around, first: int) -> None:
    lens, known = around.lens, siting_equipment()[thing.what]
    x1, x2 = _along(thing, lens)
    z1, z2 = _heights(thing.bottom, thing.height, lens)
    depth = known.depth if thing.depth is None else lens.read(thing.depth, 1)
    if z1 < HEADROOM:
        found.in_the_way.append(InTheWay(x1, x2, 0.0, depth))
    side, reason = known.side, first + SOLID
    found.keep_outs.append(KeepOut(x1, x2, 0.0, depth, z1, z2, 0.0, False, True, reason))
    if side > 0.0:
        # Room beside it is kept free of units; a working space may lie in it.
        found.keep_outs.append(
            KeepOut(x1 - side, x2 + side, 0.0, depth, z1, z2, 0.0, False, False, reason)
        )
    if known.top > 0.0:
        found.keep_outs.append(
            KeepOut(x1, x2, 0.0, depth, z1, z2 + known.top, 0.0, False, False, reason)
        )
    if known.distance > 0.0:
        found.keep_outs.append(
            KeepOut(x1, x2, 0.0, depth, z1, z2, known.distance, False, False, first + DISTANCE)
        )
    if known.working_space:
        found.panels.append(
            Panel(
                x1,
                x2,
                z2 if z2 < inf else 0.0,
                depth,
                max(around.rules.working_width, x2 - x1),
                around.rules.working_low,
                reason,
            )
        )


def _condenser(found: Kept, thing: Condenser, around: Around, first: int) -> None:
    lens, known = around.lens, siting_equipment()["condenser"]
    x1, x2 = _along(thing, lens)
    near = lens.read(thing.out, -1)
    far = lens.read(thing.out, 1) + lens.read(thing.depth, 1)
    top = inf if thing.height is None else lens.read(thing.height, 1)
    room = {"left": known.side, "right": known.side}
    for side in ("left", "right"):
        # Controls that may be on either side keep both free.
        if thing.service_side in (side, None):
            room[side] = known.service_side
    left, right = x1 - room["left"], x2 + room["right"]
    reason = first + SOLID
    found.keep_outs.append(KeepOut(x1, x2, 0.0, far, 0.0, top, 0.0, False, True, reason))
    found.keep_outs.append(KeepOut(left, right, 0.0, far, 0.0, top, 0.0, False, False, reason))
    above = top + known.top
    found.keep_outs.append(KeepOut(x1, x2, 0.0, far, 0.0, above, 0.0, False, False, reason))
    # Its near face ends the ground before the wall, a grounded metal case opposite the unit; people
    # pass it on its far side.
    depth, near = around.rules.working_depth(around.volts, GROUNDED), max(near, 0.0)
    found.in_the_way.append(InTheWay(x1, x2, near, far))
    found.strips.append(Strip(x1, x2, near, near, depth, False, first // PARTS))


def _pool(found: Kept, thing: PoolEdge, around: Around, first: int) -> None:
    lens = around.lens
    x1, x2 = _along(thing, lens)
    y1 = lens.read(thing.out, -1)
    found.keep_outs.append(
        KeepOut(x1, x2, y1, inf, 0.0, 0.0, around.rules.pool, True, False, first + DISTANCE)
    )


#: What adds an object to what is kept, with the first of its reasons. Openings keep a distance that
#: a code states, and no working space; all else stands on the wall or before it.
Keepers = Mapping[type, Callable[[Kept, Any, Around, int], None]]
OPENINGS: Final[Keepers] = {Opening: _opening, CornerOpening: _corner}
THINGS: Final[Keepers] = {
    GasVent: _gas,
    WallEquipment: _equipment,
    Condenser: _condenser,
    PoolEdge: _pool,
}
