"""A wall of the request as the lane that units are placed on, under one lens."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from service.checks.clearance.lens import INCH, Lens
from service.checks.clearance.panel_space import PanelRoom, panel_rooms
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import box_of, volts_of
from service.checks.clearance.vehicle_zone import vehicle_zone
from service.checks.clearance.wall_lane import PARTS, KeepOut, Strip, Unit, Wall, front_plane
from service.checks.clearance.wall_objects import (
    DISTANCE,
    OPENINGS,
    SOLID,
    THINGS,
    Around,
    Keepers,
    Kept,
)
from service.codes.siting_walls import opposite_materials
from service.facts.siting_objects import GasVent, Opening, WallEquipment
from service.facts.siting_place import WayPart
from service.facts.siting_spots import SitingGarage, SitingWall
from service.facts.siting_unit import SitingUnit


class MadeWall(NamedTuple):
    """A lane that was made, with the room for its panels."""

    wall: Wall
    rooms: tuple[PanelRoom, ...]


class Scene(NamedTuple):
    """A wall and some kinds of units on it.

    Attributes
    ----------
    walls : tuple of Wall, one for each kind
        They differ in what hangs on the kind: distances by listing, working space by voltage.
    units : tuple of Unit
    rooms : tuple of tuple of PanelRoom, one for each kind
        Room for the working space of the panels of each wall.
    """

    walls: tuple[Wall, ...]
    units: tuple[Unit, ...]
    rooms: tuple[tuple[PanelRoom, ...], ...]


def scene_of(
    spot: Spot, kinds: list[SitingUnit], rules: RuleNumbers, lens: Lens, *, barriers: bool = True
) -> Scene:
    """Return the lane of a spot.

    Parameters
    ----------
    spot : Spot
    kinds : list of SitingUnit
    rules : RuleNumbers
    lens : Lens
        Its `by` is that of the place.
    barriers : bool, optional
        Whether barriers may be built where vehicles come; otherwise that zone is kept free.
    """
    ceiling = _ceiling(spot, kinds, lens)
    units = tuple(box_of(kind, rules, lens, top) for kind, top in zip(kinds, ceiling, strict=True))
    made: list[MadeWall] = []
    for kind, unit in zip(kinds, units, strict=True):
        alike = bool(made) and _alike(kind, kinds[0], unit, units[0])
        made.append(made[0] if alike else _wall(spot, kind, unit, rules, lens, barriers))
    return Scene(tuple([one.wall for one in made]), units, tuple([one.rooms for one in made]))


def _alike(kind: SitingUnit, first: SitingUnit, unit: Unit, box: Unit) -> bool:
    """Return whether a wall asks the same of two kinds."""
    return (
        kind.listed_opening_distance == first.listed_opening_distance
        and kind.volts_to_ground == first.volts_to_ground
        and (unit.standoff, unit.depth, unit.bottom) == (box.standoff, box.depth, box.bottom)
    )


def _ceiling(spot: Spot, kinds: list[SitingUnit], lens: Lens) -> list[float | None]:
    """Return what the top of each kind stays below [m]."""
    eave = None if spot.eave is None else lens.of(f"{spot.place_at}/eave").read(spot.eave, -1)
    if spot.height is None:
        return [eave] * len(kinds)
    wall = lens.of(f"{spot.place_at}/height").read(spot.height, -1)
    hung = wall if eave is None else min(eave, wall)
    return [hung if kind.mount == "wall" else eave for kind in kinds]


def opening_distance(kind: SitingUnit, rules: RuleNumbers, spot: Spot) -> float:
    """Return the distance that a kind keeps from openings of the dwelling [m].

    Notes
    -----
    The rule speaks of the exterior side of exterior walls; inside a garage it counts where the
    authority reads it so.
    """
    if spot.kind == "room" or (spot.kind == "garage" and not rules.garages_count):
        return 0.0
    stated = kind.listed_opening_distance
    if stated is None or not rules.listed_opening:
        return rules.opening
    return min(rules.opening, stated * INCH)


def _wall(
    spot: Spot,
    kind: SitingUnit,
    unit: Unit,
    rules: RuleNumbers,
    lens: Lens,
    barriers: bool,
) -> MadeWall:
    opening, volts = opening_distance(kind, rules, spot), volts_of(kind, lens)
    # What openings keep and where vehicles come hangs on the reading and on the height of a unit;
    # all else is made once.
    bare = _bare_wall(spot, kind, unit, rules, lens, volts)
    clear = not barriers and spot.kind == "garage"
    made_with = (
        bare.made_with,
        (opening, rules.any_height, rules.garages_count),
        (unit.standoff, unit.depth),
        (unit.bottom, rules.vehicle) if clear else None,
    )
    known: MadeWall | None = spot.walls.get(made_with)
    if known is not None:
        return known
    wall = bare.made.wall
    kept = _keep_all(OPENINGS, spot, unit, volts, opening, rules, lens, wall.length)
    keep_outs = kept.keep_outs
    if clear:
        keep_outs += vehicle_zone(spot, front_plane(unit), unit.bottom, rules, lens, wall.length)
    made = bare.made
    if keep_outs:
        # An opening or a vehicle is in the way of no working space, so the rooms stay.
        made = MadeWall(wall._replace(keep_outs=(*keep_outs, *wall.keep_outs)), made.rooms)
    spot.walls[made_with] = made
    return made


class _Bare(NamedTuple):
    """A lane without openings and vehicles, and what it was made with."""

    made_with: tuple[object, ...]
    made: MadeWall


def _bare_wall(
    spot: Spot, kind: SitingUnit, unit: Unit, rules: RuleNumbers, lens: Lens, volts: float
) -> _Bare:
    walkway = walkway_of(spot, rules, lens)
    made_with = (lens, volts, walkway, rules.gas, rules.pool, rules.working_space)
    known: _Bare | None = spot.walls.get(made_with)
    if known is not None:
        return known
    length = max(lens.of(spot.length_at).read(spot.length, -1), 0.0)
    kept = _keep_all(THINGS, spot, unit, volts, 0.0, rules, lens, length)
    strips = [*_ground(spot, kind, rules, lens, length), *kept.strips]
    wall = Wall(
        length=length,
        left_open=_open(spot.left_end, lens),
        right_open=_open(spot.right_end, lens),
        walkway=walkway,
        keep_outs=(*kept.keep_outs, *vents_of_meters(spot, kept, rules)),
        strips=tuple(strips),
        panels=tuple(kept.panels),
        in_the_way=tuple(kept.in_the_way),
    )
    made = _Bare(made_with, MadeWall(wall, panel_rooms(wall)))
    spot.walls[made_with] = made
    return made


def _keep_all(
    keepers: Keepers,
    spot: Spot,
    unit: Unit,
    volts: float,
    opening: float,
    rules: RuleNumbers,
    lens: Lens,
    length: float,
) -> Kept:
    """Return what the objects come to that some keepers know."""
    kept = Kept([], [], [], [])
    around = Around(unit, volts, opening, rules, lens, length)
    for index, thing in enumerate(spot.objects):
        keep = keepers.get(type(thing))
        if keep is not None:
            if lens.only:
                around = around._replace(lens=lens.of(f"{spot.pointer}/objects/{index}"))
            keep(kept, thing, around, PARTS * index)
    return kept


def facts_take_room(spot: Spot, kinds: list[SitingUnit], lens: Lens) -> bool:
    """Return whether a fact that is not known may take room of a wall.

    Where none does, the scene of a lens whose absent facts harm is that of the lens as stated; in
    a garage that is so as long as barriers may be built.
    """
    if any(kind.standoff is None or kind.volts_to_ground is None for kind in kinds):
        return True
    if any(
        isinstance(thing, Opening) and thing.what == "door" and thing.swing is None
        for thing in spot.objects
    ):
        return True
    if isinstance(spot.place, SitingWall) and escape_way_of(spot.place) is None:
        return True
    length = max(lens.of(spot.length_at).read(spot.length, -1), 0.0)
    return spot.kind != "garage" and bool(unknown_ground(spot, lens, length))


def vents_of_meters(spot: Spot, kept: Kept, rules: RuleNumbers) -> list[KeepOut]:
    """Return the distance to gas meters where nobody said where their regulators vent.

    Notes
    -----
    A vent speaks for the meter nearest to it, and for no other.
    """
    meters = {
        PARTS * index
        for index, thing in enumerate(spot.objects)
        if isinstance(thing, WallEquipment) and thing.what == "gas_meter"
    }
    boxes = [one for one in kept.keep_outs if one.solid and one.reason - SOLID in meters]
    vents = {
        PARTS * index + DISTANCE
        for index, thing in enumerate(spot.objects)
        if isinstance(thing, GasVent)
    }
    for vent in (one for one in kept.keep_outs if one.reason in vents):
        if boxes:
            boxes.remove(min(boxes, key=lambda box: max(box.x1 - vent.x2, vent.x1 - box.x2)))
    return [
        box._replace(distance=rules.gas, solid=False, reason=box.reason - SOLID + DISTANCE)
        for box in boxes
    ]


def _open(end: str | None, lens: Lens) -> bool:
    return lens.facts < 0 if end is None else end == "open"


def walkway_of(spot: Spot, rules: RuleNumbers, lens: Lens) -> float:
    """Return the way that must stay before a wall [m]; 0: nobody needs to pass."""
    place = spot.place
    if not isinstance(place, SitingWall):
        return 0.0
    route = lens.facts >= 0 if place.route is None else place.route
    if route and rules.walkway >= rules.escape_way:
        return rules.walkway
    escape = escape_way_of(place)
    escape = lens.facts > 0 if escape is None else escape
    return max(rules.walkway if route else 0.0, rules.escape_way if escape else 0.0)


def escape_way_of(place: SitingWall) -> bool | None:
    """Return whether an escape leads through the way before a wall; None: not known."""
    for thing in place.objects:
        if isinstance(thing, Opening) and thing.escape:
            return True
    return place.escape_way


def _ground(
    spot: Spot, kind: SitingUnit, rules: RuleNumbers, lens: Lens, length: float
) -> list[Strip]:
    """Return the ground before a wall; where nothing is known of it a pass counts none."""
    found = [
        _part(part, kind, rules, lens.of(f"{spot.pointer}/way/{at}"))
        for at, part in enumerate(spot.way)
    ]
    if spot.garage_wall is not None and isinstance(spot.place, SitingGarage):
        # The opposite wall ends the floor; what is parked there moves.
        back = spot.garage_wall.side == "back"
        across, name = (spot.place.depth, "depth") if back else (spot.place.width, "width")
        clear = max(lens.of(f"{spot.place_at}/{name}").read(across, -1), 0.0)
        depth = rules.working_depth(volts_of(kind, lens), opposite_materials()["drywall"].condition)
        found.append(Strip(0.0, length, clear, clear, depth, walked=False))
    if spot.kind != "garage" and lens.facts > 0:
        found += [Strip(x1, x2, 0.0, 0.0, inf) for x1, x2 in unknown_ground(spot, lens, length)]
    return found


def _part(part: WayPart, kind: SitingUnit, rules: RuleNumbers, lens: Lens) -> Strip:
    x1 = lens.read(part.left, -1)
    x2 = lens.read(part.left, 1) + lens.read(part.length, 1)
    clear = max(lens.read(part.clear, -1), 0.0)
    right = clear if part.clear_right is None else max(lens.read(part.clear_right, -1), 0.0)
    if part.opposite is not None:
        condition = opposite_materials()[part.opposite].condition
    else:
        # Live parts opposite are seen by whoever measures: not known is grounded, or not.
        condition = 2 if lens.facts >= 0 else 1
    depth = rules.working_depth(volts_of(kind, lens), condition)
    return Strip(x1, x2, clear, right, depth)


def unknown_ground(spot: Spot, lens: Lens, length: float) -> list[tuple[float, float]]:
    """Return the parts of a wall before which the ground is not known [m]."""
    known = sorted(
        (lens.read(part.left, 1), lens.read(part.left, -1) + lens.read(part.length, -1))
        for part in spot.way
    )
    found, at = [], 0.0
    # Parts that were measured each for itself may not meet to the last inch.
    slack = 2.0 * INCH
    for x1, x2 in known:
        if x1 > at + slack:
            found.append((at, x1))
        at = max(at, x2)
    if length > at + slack:
        found.append((at, length))
    return found
