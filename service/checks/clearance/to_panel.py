"""How long the way of the conductors from the units to the panel is."""

from __future__ import annotations

from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.lens import INCH, Lens
from service.checks.clearance.spots import Spot
from service.facts.siting_objects import WallEquipment
from service.facts.siting_spots import SitingGarage

_FOOT = 12.0 * INCH


def way_to_panel(spot: Spot, fit: Fit) -> tuple[float, float] | None:
    """Return the shortest and the longest way from a unit of the arrangement to the panel [m].

    Notes
    -----
    Along the wall and up and down, from the nearer side of a unit and its lower edge: what runs in
    and out of boxes comes on top. Where it is not known by which end the wires leave, both count.
    Source: derived.
    """
    units, placed = fit.scene.units, fit.shown
    if not placed:
        return None
    lens = lens_of(spot)
    ends = [(x, x + units[kind].width, units[kind].bottom) for kind, x in placed]
    route = spot.to_panel
    if route is None:
        return _to_panel_there(spot, lens, ends)
    length, beyond = fit.scene.walls[0].length, route.beyond * _FOOT
    left = [x1 + beyond for x1, _, _ in ends]
    right = [length - x2 + beyond for _, x2, _ in ends]
    # An end of several walls of a garage is none of them: both ends count.
    several = isinstance(spot.place, SitingGarage) and len(spot.place.walls) > 1
    end = "" if several else route.end or ""
    found = {"left": left, "right": right}.get(end, left + right)
    return min(found), max(found)


def _to_panel_there(
    spot: Spot, lens: Lens, ends: list[tuple[float, float, float]]
) -> tuple[float, float] | None:
    """Return the ways to a panel on the wall itself; None where there is none [m]."""
    panels = [one for one in spot.objects if isinstance(one, WallEquipment) and one.what == "panel"]
    if not panels:
        return None
    lo = lens.read(panels[0].left, 1)
    hi = lo + lens.read(panels[0].width, 1)
    foot = 0.0 if panels[0].bottom is None else lens.read(panels[0].bottom, 1)
    found = [max(lo - x2, x1 - hi, 0.0) + abs(foot - low) for x1, x2, low in ends]
    return min(found), max(found)
