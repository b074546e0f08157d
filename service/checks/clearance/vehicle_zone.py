"""Where a vehicle may hit what hangs on a wall of a garage, as a zone of that wall."""

from __future__ import annotations

from math import inf
from typing import Final, NamedTuple

from service.checks.clearance.lens import Lens
from service.checks.clearance.rule_numbers import RuleNumbers, VehicleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.wall_lane import SAME, KeepOut
from service.facts.siting_spots import SitingGarage

#: Reason of the zone, below those of the lane's own rules.
VEHICLE: Final = -6


class PathOf(NamedTuple):
    """The way of vehicles: its sides from the left side wall, and the clear height [m]."""

    left: float
    right: float
    height: float


def path_of(spot: Spot, lens: Lens) -> PathOf:
    """Return the normal driving path of a garage: as wide as its vehicle opening.

    Notes
    -----
    An opening that is not known is taken as the whole width, its height as too great for any
    exemption.
    """
    place = spot.place
    assert isinstance(place, SitingGarage)
    opening = place.vehicle_opening
    if opening is None:
        width = lens.of(f"{spot.place_at}/width").read(place.width, 1)
        return PathOf(0.0, width, inf)
    at = lens.of(f"{spot.place_at}/vehicle_opening")
    left = at.read(opening.left, -1)
    right = at.read(opening.left, 1) + at.read(opening.width, 1)
    return PathOf(left, right, inf if opening.height is None else at.read(opening.height, 1))


def zone_of(
    spot: Spot, front: float, bottom: float, rules: RuleNumbers, lens: Lens, length: float
) -> tuple[float, float] | None:
    """Return from where to where along the wall a unit must be protected.

    Parameters
    ----------
    spot : Spot
        A wall of a garage.
    front, bottom : float
        How far the unit reaches out from the wall, and its lowest point above the floor [m].
    rules : RuleNumbers
    lens : Lens
    length : float
        Of the wall [m].

    Returns
    -------
    tuple of (lo, hi), or None
        Open; None: nowhere on this wall [m].

    Notes
    -----
    On the back wall the path and what is within a reach beside it; on a side wall the whole of it
    where the unit reaches into the path, otherwise what is near the back wall and near the path.
    Where the edition states no geometry every unit low enough is exposed. Source: rules
    vehicle-path-height, vehicle-back-reach, vehicle-side-back, vehicle-side-reach and
    vehicle-exempt-* of table siting_rules.
    """
    numbers = rules.vehicle
    if numbers is None:
        return (-inf, inf)
    path = path_of(spot, lens)
    if _above(path, bottom, numbers):
        return None
    wall = spot.garage_wall
    assert wall is not None
    if wall.side == "back":
        return (path.left - numbers.back_reach, path.right + numbers.back_reach)
    place = spot.place
    assert isinstance(place, SitingGarage)
    width = lens.of(f"{spot.place_at}/width").read(place.width, -1)
    gap = path.left - front if wall.side == "left" else width - front - path.right
    if gap < -SAME:
        return (-inf, inf)
    if gap >= numbers.side_reach - SAME:
        return None
    # Facing the left wall the back wall is at the right end, facing the right one at the left.
    if wall.side == "left":
        return (length - numbers.side_back, inf)
    return (-inf, numbers.side_back)


def _above(path: PathOf, bottom: float, numbers: VehicleNumbers) -> bool:
    if bottom >= numbers.path_height - SAME:
        return True
    exempt = path.height <= numbers.exempt_opening + SAME
    return exempt and bottom >= numbers.exempt_bottom - SAME


def vehicle_zone(
    spot: Spot, front: float, bottom: float, rules: RuleNumbers, lens: Lens, length: float
) -> list[KeepOut]:
    """Return the zone without what barriers keep already, as keep-outs."""
    zone = zone_of(spot, front, bottom, rules, lens, length)
    if zone is None:
        return []
    kept = sorted(kept_by_barriers(spot, front, rules, lens))
    found, at = [], max(zone[0], -1e3)
    end = min(zone[1], 1e3)
    for lo, hi in kept:
        # A unit stands behind a barrier with all of its width.
        if lo > at:
            found.append((at, min(lo, end)))
        at = max(at, hi)
    if at < end:
        found.append((at, end))
    return [
        KeepOut(lo, hi, -inf, inf, -inf, inf, 0.0, False, False, VEHICLE)
        for lo, hi in found
        if hi - lo > SAME
    ]


def kept_by_barriers(
    spot: Spot, front: float, rules: RuleNumbers, lens: Lens
) -> list[tuple[float, float]]:
    """Return what approved barriers that stand far enough from the unit keep of the wall [m]."""
    wall, numbers = spot.garage_wall, rules.vehicle
    if wall is None:
        return []
    found = []
    for index, barrier in enumerate(wall.barriers):
        part = lens.of(f"{spot.pointer}/barriers/{index}")
        approved = lens.facts < 0 if barrier.approved is None else barrier.approved
        apart = part.read(barrier.from_wall, -1) - front
        least = 0.0
        if numbers is not None:
            far = barrier.what == "wheel_barrier"
            least = numbers.wheel_distance if far else numbers.bollard_clearance
        if approved and apart >= least - SAME:
            lo = part.read(barrier.left, 1)
            found.append((lo, lo + part.read(barrier.width, -1)))
    return found
