"""A kind of unit as the box, or column of boxes, that is placed."""

from __future__ import annotations

from math import inf
from typing import Final

from service.checks.clearance.lens import INCH, Lens
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.wall_lane import Unit
from service.facts.siting_unit import SitingUnit, UnitClearances

#: Stand-off up to which brackets usually go [in]. Standing: common practice, no source.
USUAL_STANDOFF: Final = 4.0
#: Lower edge of a unit on a wall, where none is stated [in]. Standing: common practice, no source.
USUAL_BOTTOM: Final = 18.0
#: Voltage to ground where none is stated, and up to which a pass holds [V]. Standing: derived; a
#: split-phase system, and the next row of the table of working spaces.
USUAL_VOLTS: Final = 120.0
UNKNOWN_VOLTS: Final = 600.0
_NO_CLEARANCES: Final = UnitClearances()


def bottom_of(unit: SitingUnit) -> float:
    """Return the lower edge of a unit above the ground [in]."""
    if unit.bottom is not None:
        return unit.bottom
    return USUAL_BOTTOM if unit.mount == "wall" else 0.0


def level_gap(unit: SitingUnit, rules: RuleNumbers) -> float:
    """Return the gap between a box and the one above [m]."""
    if unit.stack.gap is not None:
        return unit.stack.gap * INCH
    return 0.0 if unit.stack.one_cabinet else rules.spacing


def spacing_of(unit: SitingUnit, rules: RuleNumbers) -> float:
    """Return the spacing to the next unit along the wall [m]."""
    stated = unit.listed_spacing
    return rules.spacing if stated is None else stated * INCH


def volts_of(unit: SitingUnit, lens: Lens) -> float:
    """Return the highest voltage to ground inside a unit [V]."""
    if unit.volts_to_ground is not None:
        return unit.volts_to_ground
    return UNKNOWN_VOLTS if lens.facts > 0 else USUAL_VOLTS


def needs_working_space(unit: SitingUnit, rules: RuleNumbers, lens: Lens) -> bool:
    """Return whether a working space is kept before a unit."""
    if rules.every_unit:
        return True
    if unit.worked_on_live is None:
        return lens.facts >= 0
    return unit.worked_on_live


def box_of(unit: SitingUnit, rules: RuleNumbers, lens: Lens, ceiling: float | None) -> Unit:
    """Return the box of a unit, or its column.

    Parameters
    ----------
    unit : SitingUnit
    rules : RuleNumbers
    lens : Lens
    ceiling : float or None
        What its top stays below; None: nothing [m].
    """
    standoff, depth = unit.standoff, unit.depth
    if standoff is None:
        standoff = 0.0 if lens.facts < 0 else USUAL_STANDOFF
        if lens.facts > 0:
            # Of a bracket that is not known the whole range up to the usual is kept clear.
            standoff, depth = 0.0, depth + USUAL_STANDOFF
    clear = unit.clearances or _NO_CLEARANCES
    room = {unit.conduit_entry: unit.conduit_room or 0.0}
    width = unit.width * INCH
    working = needs_working_space(unit, rules, lens)
    left = max(clear.left, room.get("left", 0.0)) * INCH
    right = max(clear.right, room.get("right", 0.0)) * INCH
    return Unit(
        width=width,
        height=unit.height * INCH,
        depth=depth * INCH,
        standoff=standoff * INCH,
        bottom=bottom_of(unit) * INCH,
        levels=unit.stack.levels,
        level_gap=level_gap(unit, rules),
        left=left,
        right=right,
        top=max(clear.top, room.get("top", 0.0)) * INCH,
        front=clear.front * INCH,
        working_width=max(rules.working_width, width) if working else 0.0,
        # What the maker keeps free at its sides no other unit takes.
        gap=max(spacing_of(unit, rules), left, right),
        ceiling=inf if ceiling is None else ceiling,
    )
