"""The walls of a request one by one, whether they are outdoors, in a garage or in a room."""

from __future__ import annotations

from typing import Any, Literal, NamedTuple

from service.checks.clearance.request import ClearanceRequest
from service.facts.siting_length import AnyHeight, AnySpan, LengthSource
from service.facts.siting_objects import WallObject
from service.facts.siting_place import Hanging, PlacedUnit, RouteToPanel, WayIn, WayPart
from service.facts.siting_spots import (
    CoarsePlace,
    End,
    GarageWall,
    SitingGarage,
    SitingPlace,
    SitingRoom,
    SitingWall,
)

SpotKind = Literal["wall", "garage", "room"]


class Spot(NamedTuple):
    """One wall on which units may go.

    Attributes
    ----------
    name : str
        For people.
    pointer, place_at : str
        JSON Pointers of the wall and of its place.
    kind : str
    place : Struct
        The place as it came in.
    garage_wall : GarageWall or None
    length, height, eave : lengths
    left_end, right_end : str or None
    objects, way, placed : list
    hanging, way_in, to_panel : Struct
    measured_by : str or None
    walls : dict
        Lanes of this wall that were made already, by what they were made with; see `scene_of`.
    """

    name: str
    pointer: str
    place_at: str
    kind: SpotKind
    place: SitingWall | SitingGarage | SitingRoom
    garage_wall: GarageWall | None
    length: AnySpan
    length_at: str
    height: AnySpan | None
    eave: AnyHeight | None
    left_end: End | None
    right_end: End | None
    objects: list[WallObject]
    way: list[WayPart]
    placed: list[PlacedUnit]
    hanging: Hanging
    way_in: WayIn
    to_panel: RouteToPanel | None
    measured_by: LengthSource | None
    walls: dict[Any, Any]

    def sharing(self, other: Spot) -> Spot:
        """Return this spot, with the lanes of another one where the wall is the same."""
        return self._replace(walls=other.walls) if self.same_wall(other) else self

    def same_wall(self, other: Spot) -> bool:
        """Return whether nothing of the wall itself differs."""
        alike = self.objects is other.objects and self.way is other.way
        return alike and self.place is other.place and self.garage_wall is other.garage_wall


def spots_of(request: ClearanceRequest) -> list[Spot]:
    """Return every wall of a request; a place told by telephone has none."""
    found: list[Spot] = []
    for index, place in enumerate(request.places):
        found += _of_place(place, f"/places/{index}")
    return found


def coarse_places(request: ClearanceRequest) -> list[tuple[int, CoarsePlace]]:
    """Return the places of which no wall is known, with their index."""
    return [(at, one) for at, one in enumerate(request.places) if isinstance(one, CoarsePlace)]


def _of_place(place: SitingPlace, at: str) -> list[Spot]:
    if isinstance(place, SitingWall):
        return [_one_wall(place, at, "wall", place.eave, place.left_end, place.right_end)]
    if isinstance(place, SitingRoom):
        return [_one_wall(place, at, "room", place.height, "wall", "wall")]
    if isinstance(place, SitingGarage):
        return [
            _of_garage(place, wall, at, f"{at}/walls/{n}") for n, wall in enumerate(place.walls)
        ]
    return []


def _one_wall(
    place: SitingWall | SitingRoom,
    at: str,
    kind: SpotKind,
    eave: AnyHeight | None,
    left_end: End | None,
    right_end: End | None,
) -> Spot:
    """Return the wall of a place that is one wall."""
    return Spot(
        name=place.id,
        pointer=at,
        place_at=at,
        kind=kind,
        place=place,
        garage_wall=None,
        length=place.length,
        length_at=f"{at}/length",
        height=place.height,
        eave=eave,
        left_end=left_end,
        right_end=right_end,
        objects=place.objects,
        way=place.way,
        placed=place.placed,
        hanging=place.hanging,
        way_in=place.way_in,
        to_panel=place.to_panel,
        measured_by=place.measured_by,
        walls={},
    )


def _of_garage(place: SitingGarage, wall: GarageWall, at: str, pointer: str) -> Spot:
    back = wall.side == "back"
    return Spot(
        name=f"{place.id}, {wall.side} wall",
        pointer=pointer,
        place_at=at,
        kind="garage",
        place=place,
        garage_wall=wall,
        length=place.width if back else place.depth,
        length_at=f"{at}/width" if back else f"{at}/depth",
        height=place.height,
        eave=place.height,
        # A side wall ends at the vehicle opening, where nothing bounds working space.
        left_end="open" if wall.side == "left" else "wall",
        right_end="open" if wall.side == "right" else "wall",
        objects=wall.objects,
        way=[],
        placed=wall.placed,
        hanging=wall.hanging,
        way_in=place.way_in,
        to_panel=place.to_panel,
        measured_by=place.measured_by,
        walls={},
    )
