"""Working space of electrical equipment already on the wall, which no unit may take."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from service.checks.clearance.clear_depth import too_shallow
from service.checks.clearance.wall_lane import SAME, WORKING_HEIGHT, Ban, Panel, Unit, Wall


class PanelRoom(NamedTuple):
    """What there is for the working space of a panel before any unit comes.

    Attributes
    ----------
    x1, x2 : float
        The panel [m].
    left, right : float
        Nearest obstacle or end of the wall on both sides; infinite for none [m].
    width : float
        Width that must stay clear between units; 0 where it is not clear even now [m].
    short : bool
        Whether the working space has no room even now.
    reason : int
        Of the panel.
    """

    x1: float
    x2: float
    left: float
    right: float
    width: float
    short: bool
    reason: int


def panel_rooms(wall: Wall) -> tuple[PanelRoom, ...]:
    """Return the room for the working space of each panel, in order of right sides.

    Parameters
    ----------
    wall : Wall

    Returns
    -------
    tuple of PanelRoom
        Lengths [m].

    Notes
    -----
    Working space may lie to the left, to the right or centred, so long as it is contiguous and
    spans the panel. Obstacles are solid keep-outs that begin below the height of working space and
    stand out farther than the panel, and ground too shallow for it. What is above or below the
    panel itself bounds nothing here. Source: NEC 2023, 110.26(A)(2) and (3); the bounds derived.
    """
    if not wall.panels:
        return ()
    solids = [(k.x1, k.x2, k.y2, k.z1, k.reason) for k in wall.keep_outs if k.solid]
    rooms = [_room(wall, solids, panel) for panel in wall.panels]
    return tuple(sorted(rooms, key=lambda room: room.x2))


def _room(
    wall: Wall, solids: list[tuple[float, float, float, float, int]], panel: Panel
) -> PanelRoom:
    x1, x2, reason = panel.x1, panel.x2, panel.reason
    left = -inf if wall.left_open else 0.0
    right = inf if wall.right_open else wall.length
    below, face = max(WORKING_HEIGHT, panel.top) - SAME, panel.depth + SAME
    for begins, ends, out, bottom, of in solids:
        if bottom < below and out > face and of != reason:
            if ends <= x1 + SAME:
                left = ends if ends > left else left
            elif begins >= x2 - SAME:
                right = begins if begins < right else right
    blocked = False
    for strip in wall.strips:
        bad = too_shallow(strip, panel.depth + panel.working_depth)
        if bad is None:
            continue
        if bad[1] <= x1 + SAME:
            left = bad[1] if bad[1] > left else left
        elif bad[0] >= x2 - SAME:
            right = bad[0] if bad[0] < right else right
        else:
            blocked = True
    short = blocked or right - left < panel.working_width - SAME
    return PanelRoom(x1, x2, left, right, 0.0 if short else panel.working_width, short, reason)


def panel_ban(room: PanelRoom, unit: Unit) -> Ban:
    """Return the left edges at which a single unit takes the working space of a panel.

    Parameters
    ----------
    room : PanelRoom
    unit : Unit
        Whatever its height and depth: every unit is in the way.

    Returns
    -------
    tuple of (lo, hi, reason)
        Open; where the space has no room even without a unit, only the panel itself is kept
        clear, as no unit is to blame [m].

    Notes
    -----
    Source: derived from NEC 2023, 110.26(A)(2).
    """
    x1, x2, left, right, width, short, reason = room
    if short:
        return x1 - unit.width, x2, reason
    return min(x1, right - width) - unit.width, max(x2, left + width), reason
