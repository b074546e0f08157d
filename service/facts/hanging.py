"""Rules between a unit and the walls on which it might hang."""

from __future__ import annotations

from service.facts.hung_place import HangingWall
from service.facts.hung_unit import HungUnit
from service.quantities.comparison import reaches

_INCH = 0.0254


def wall_refusals(walls: list[HangingWall], at: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between the walls alone that is broken."""
    found = []
    first: dict[str, int] = {}
    for place, wall in enumerate(walls):
        if first.setdefault(wall.id, place) != place:
            found.append((f"{at}/{place}/id", "Give every wall an id of its own."))
        if wall.tree is not None and len(wall.tree.through_percent) not in (1, 12):
            words = "Send one value for the year or twelve, one for each month."
            found.append((f"{at}/{place}/tree/through_percent", words))
        if wall.height is not None and wall.eave is not None and wall.eave.height > wall.height:
            words = "The eave stands no higher than the wall: correct one of both."
            found.append((f"{at}/{place}/eave/height", words))
    return found


def hanging_refusals(
    unit: HungUnit, walls: list[HangingWall], at_unit: str, at_walls: str
) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every rule between a unit and the walls that is broken."""
    needed = any(w.eave or w.screens or w.height is not None for w in walls)
    if unit.bottom is None:
        words = (
            "State how high the unit hangs: what an eave, a fence or the wall shades hangs on it."
        )
        return [(f"{at_unit}/bottom", words)] if needed else []
    found = []
    for place, wall in enumerate(walls):
        found += _of_the_wall(unit, unit.bottom, wall, f"{at_walls}/{place}")
    return found


def _of_the_wall(
    unit: HungUnit, bottom: float, wall: HangingWall, at: str
) -> list[tuple[str, str]]:
    found = []
    top = (bottom + unit.height) * _INCH
    if wall.eave is not None and not reaches(wall.eave.height * _INCH, top, "length"):
        words = "The eave stands no lower than the unit's top: correct one of both."
        found.append((f"{at}/eave/height", words))
    if wall.height is not None and not reaches(wall.height * _INCH, top, "length"):
        words = "The wall reaches no lower than the unit's top: correct one of both."
        found.append((f"{at}/height", words))
    front = (unit.standoff or 0.0) + unit.depth
    for index, screen in enumerate(wall.screens):
        if not reaches(screen.distance * 12 * _INCH, front * _INCH, "length"):
            words = "What stands before the wall is no nearer than the unit's front: correct one."
            found.append((f"{at}/screens/{index}/distance", words))
    return found
