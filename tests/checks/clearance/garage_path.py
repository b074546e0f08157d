"""Whether a unit in a garage is exposed to vehicles, from where it stands in plan."""

from typing import NamedTuple

#: Height of the driving path; reach beside it on the back wall; from the back wall and from the
#: path on a side wall; highest opening and lowest unit that are exempt [in].
#: Source: 2022 CRC R328.8.1, from memory, not verified.
PATH_HEIGHT, BACK_REACH, SIDE_BACK, SIDE_REACH = 48, 36, 24, 36
EXEMPT_OPENING, EXEMPT_BOTTOM = 90, 36


class Plan(NamedTuple):
    """A garage of 240 by 240 in and a unit in it, in plan [in].

    x runs across from the left wall, y from the vehicle opening to the back wall; `opening` are
    the sides of the clear vehicle opening and its height, `bottom` is the unit's lowest point.
    """

    opening: tuple[float, float, float]
    x1: float
    x2: float
    y1: float
    y2: float
    bottom: float
    wall: str


def exposed(plan: Plan) -> bool:
    """Return whether protection is asked for; a unit exactly at the end of a reach is outside."""
    path1, path2, height = plan.opening
    if plan.bottom >= PATH_HEIGHT:
        return False
    if height <= EXEMPT_OPENING and plan.bottom >= EXEMPT_BOTTOM:
        return False
    if min(plan.x2, path2) - max(plan.x1, path1) > 0:
        return True
    from_path = max(0.0, path1 - plan.x2, plan.x1 - path2)
    if plan.wall == "back":
        return from_path < BACK_REACH
    return from_path < SIDE_REACH and 240 - plan.y2 < SIDE_BACK
