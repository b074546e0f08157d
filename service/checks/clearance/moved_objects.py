"""What is on a wall or before it, moved elsewhere: one thing alone, or several at once."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from service.checks.clearance.judged import Judged
from service.checks.clearance.panel_space import panel_rooms
from service.checks.clearance.positions_of import name_of
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.scenes import Scene
from service.checks.clearance.solve import Spans, fits, most_by_runs, placed_in
from service.checks.clearance.spots import Spot
from service.checks.clearance.tries import CONTRACTOR, OWNER, UTILITY, Try
from service.checks.clearance.wall_lane import PARTS
from service.codes.siting_equipment import siting_equipment
from service.facts.siting_objects import Condenser, WallEquipment

_EFFORT: Final = {"owner": OWNER, "contractor": CONTRACTOR, "utility": UTILITY}
_MOVED_BY: Final = {
    "owner": "",
    "contractor": " by a licensed contractor",
    "utility": " by its utility",
}


def _movable(spot: Spot, chosen: Judged) -> list[tuple[int, str, str]]:
    """Return what is in the way and can be moved: index, name, who moves it; least effort first."""
    edges = chosen.fit.solved.edges
    binding = {code // PARTS for edge in edges for _, _, code in edge.forbidden if code >= 0}
    found = []
    for index in sorted(binding):
        thing = spot.objects[index]
        if isinstance(thing, WallEquipment | Condenser):
            kind = "condenser" if isinstance(thing, Condenser) else thing.what
            found.append((index, name_of(thing), siting_equipment()[kind].move))
    return sorted(found, key=lambda one: _EFFORT[one[2]])


def without_objects(
    request: ClearanceRequest, spot: Spot, chosen: Judged, least: int, most: int
) -> Iterator[Try]:
    """Yield the wall without each thing in the way that can be moved.

    Parameters
    ----------
    request : ClearanceRequest
    spot : Spot
    chosen : Judged
    least, most : int
        Between which are the units that stand then.
    """
    if least > most:
        return
    fit, spans = chosen.fit, _in_order(chosen)
    for index, name, move in _movable(spot, chosen):
        rest = _spans_without(spans, {index})
        if most_by_runs(fit.scene, fit.counts, rest) < least:
            continue
        placed = placed_in(_without(fit.scene, {index}), fit.counts, rest)
        if not least <= placed <= most:
            continue
        others = [*spot.objects[:index], *spot.objects[index + 1 :]]
        words = f"Relocate {name}{_MOVED_BY[move]}."
        made = with_spot(request, spot, objects=others)
        yield Try("move-object", _EFFORT[move], words, made, placed)


def _without(scene: Scene, gone: set[int]) -> Scene:
    """Return a scene without some things."""
    walls = tuple(
        [
            wall._replace(
                keep_outs=tuple([k for k in wall.keep_outs if k.reason // PARTS not in gone]),
                strips=tuple([s for s in wall.strips if s.thing not in gone]),
                panels=tuple([p for p in wall.panels if p.reason // PARTS not in gone]),
            )
            for wall in scene.walls
        ]
    )
    return Scene(walls, scene.units, tuple([panel_rooms(wall) for wall in walls]))


def _in_order(chosen: Judged) -> Spans:
    """Return what no part of each kind may enter, from left to right [m]."""
    return tuple([sorted(some) for some in chosen.fit.solved.spans])


def _spans_without(spans: Spans, gone: set[int]) -> Spans:
    """Return what no part of each kind may enter, without some things [m]."""
    return tuple([[one for one in some if one[2] // PARTS not in gone] for some in spans])


def several_moved(request: ClearanceRequest, spot: Spot, chosen: Judged) -> Iterator[Try]:
    """Yield the wall without several things at once, where no single one makes room.

    What takes the same people to move goes together; then each is put back that need not go.
    """
    movable = _movable(spot, chosen)
    spans = _in_order(chosen)

    def made_without(gone: set[int]) -> ClearanceRequest:
        rest = [thing for at, thing in enumerate(spot.objects) if at not in gone]
        return with_spot(request, spot, objects=rest)

    def stands(gone: set[int]) -> bool:
        rest = _spans_without(spans, gone)
        return fits(_without(chosen.fit.scene, gone), chosen.fit.counts, rest)

    for effort in (OWNER, CONTRACTOR, UTILITY):
        gone = {index for index, _, move in movable if _EFFORT[move] <= effort}
        if len(gone) < 2 or not stands(gone):
            continue
        for index, _, _ in reversed(movable):
            if index in gone and stands(gone - {index}):
                gone -= {index}
        names = [name for index, name, _ in movable if index in gone]
        words = f"Relocate {', '.join(names[:-1])} and {names[-1]}."
        yield Try("move-objects", effort, words, made_without(gone), sum(chosen.fit.counts))
        return


def with_spot(request: ClearanceRequest, spot: Spot, **changes: object) -> ClearanceRequest:
    """Return the request with something of one wall changed."""
    places = list(request.places)
    at = int(spot.place_at.rsplit("/", 1)[1])
    if spot.garage_wall is None:
        places[at] = changed(spot.place, **changes)
    else:
        walls = [
            changed(wall, **changes) if wall is spot.garage_wall else wall
            for wall in spot.place.walls  # type: ignore[union-attr]  # a garage has walls
        ]
        places[at] = changed(spot.place, walls=walls)
    return changed(request, places=places)
