"""Whether a unit in a garage needs protection from vehicles, by where it stands."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.wall_lane import SAME

#: A length this near to a threshold is worth measuring again: half an inch. Common practice, no
#: source.
NEAR: Final = 0.5 * 0.0254


class Garage(NamedTuple):
    """A garage in plan: x across, y from the vehicle opening to the back wall.

    Attributes
    ----------
    width, depth : float
        Inside [m].
    opening1, opening2 : float
        Sides of the clear vehicle opening, from the left wall [m].
    opening_height : float
        Clear [m].
    """

    width: float
    depth: float
    opening1: float
    opening2: float
    opening_height: float


class Footprint(NamedTuple):
    """A unit in plan, and its lowest point.

    Attributes
    ----------
    x1, x2 : float
        From the left wall [m].
    y1, y2 : float
        From the vehicle opening [m].
    bottom : float
        Of the lowest box above the floor [m].
    """

    x1: float
    x2: float
    y1: float
    y2: float
    bottom: float


class Protection(NamedTuple):
    """What a unit's place in a garage asks for.

    Attributes
    ----------
    protect : bool
        Whether protection is asked for.
    exempt : bool
        Whether a low opening and a high unit exempt it, wherever it stands.
    in_path, beside_path : bool
        Whether it stands in the driving path, or in the zone beside it that counts too.
    near : bool
        Whether a length is so near to a threshold that the other side of it would change the
        answer.
    gap, from_back : float
        From the unit to the path, across, and to the back wall [m].
    """

    protect: bool
    exempt: bool
    in_path: bool
    beside_path: bool
    near: bool
    gap: float
    from_back: float


def vehicle_protection(
    garage: Garage,
    unit: Footprint,
    wall: str,
    *,
    path_height: float,
    back_reach: float,
    side_back: float,
    side_reach: float,
    exempt_opening: float,
    exempt_bottom: float,
    tolerance: float,
) -> Protection:
    """Return whether a unit in a garage needs protection from vehicles.

    Parameters
    ----------
    garage : Garage
    unit : Footprint
    wall : {"back", "side", "front", "free"}
        Where it hangs, or that it stands free.
    path_height : float
        Height of the driving path above the floor [m].
    back_reach : float
        To both sides of the path, on the back wall [m].
    side_back, side_reach : float
        From the back wall and from the path, on a side wall [m].
    exempt_opening, exempt_bottom : float
        Highest opening and lowest unit that are exempt [m].
    tolerance : float
        How far inside a reach a unit still counts as outside; 0 for the nominal one [m].

    Returns
    -------
    Protection

    Notes
    -----
    The path is as wide as the clear opening and goes from it to the back wall. On the back wall
    touching it is being in it. A unit exactly at the end of a reach is not within it: undecided in
    the text, so `near` says it. Source: 2022 CRC R328.8.1 for the path, the zones and the
    exemption, from memory, not verified; the reading of "within" is derived.
    """
    gap = max(0.0, garage.opening1 - unit.x2, unit.x1 - garage.opening2)
    from_back = garage.depth - unit.y2
    low = unit.bottom < path_height - SAME
    exempt = garage.opening_height <= exempt_opening + SAME and unit.bottom >= exempt_bottom - SAME
    inside = _over_path(garage, unit) or (wall == "back" and gap <= SAME)
    lengths = {"back": ((gap, back_reach),), "side": ((gap, side_reach), (from_back, side_back))}
    zone = lengths.get(wall, ())
    within = bool(zone) and all(length < reach - tolerance - SAME for length, reach in zone)
    # Only a length that could turn the answer is worth a second look.
    undecided = any(abs(length - reach) < NEAR - SAME for length, reach in zone)
    near = undecided and all(length < reach + NEAR - SAME for length, reach in zone)
    counts = low and not exempt
    return Protection(
        protect=counts and (inside or within),
        exempt=exempt,
        in_path=low and inside,
        beside_path=low and within and not inside,
        near=counts and near and not inside,
        gap=gap,
        from_back=from_back,
    )


def _over_path(garage: Garage, unit: Footprint) -> bool:
    """Return whether a unit and the path overlap in plan."""
    across = min(unit.x2, garage.opening2) - max(unit.x1, garage.opening1)
    along = min(unit.y2, garage.depth) - max(unit.y1, 0.0)
    return across > SAME and along > SAME
