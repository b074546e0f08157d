"""What to ask of what is on the wall: what is behind a door, how it opens, how high things are."""

from __future__ import annotations

from typing import Final

from service.checks.clearance.asked import Asked
from service.checks.clearance.positions_of import name_of
from service.checks.clearance.spots import Spot
from service.facts.siting_objects import CornerOpening, Opening, WallEquipment
from service.findings import AskBy

#: Lower edges that are tried where none is known: at the ground, and over most units [in].
LOWER_EDGES: Final = (0.0, 96.0)


def of_the_objects(spot: Spot) -> list[Asked]:
    """Return what is not known of what is on a wall."""
    return _of_the_openings(spot) + _of_the_heights(spot)


def _of_the_openings(spot: Spot) -> list[Asked]:
    found = []
    for index, thing in enumerate(spot.objects):
        at = f"{spot.pointer}/objects/{index}"
        if not isinstance(thing, Opening | CornerOpening):
            continue
        named = name_of(thing)
        if thing.leads_to is None:
            found.append(
                Asked(
                    f"{at}/leads_to",
                    f"what is behind {named}",
                    f"Where does {named} lead: into the dwelling, a garage, or elsewhere?",
                    AskBy.TELEPHONE,
                    ("dwelling", "garage", "other"),
                    "Units keep their distance from those of the dwelling.",
                    moves=True,
                )
            )
        if isinstance(thing, Opening) and thing.what == "door" and thing.swing is None:
            found.append(
                Asked(
                    f"{at}/swing",
                    f"how {named} opens",
                    f"Does {named} open away from whoever faces the wall, towards them, or does "
                    "it slide?",
                    AskBy.TELEPHONE,
                    ("in", "out"),
                    "What a door sweeps stays clear.",
                    moves=True,
                    minor=True,
                )
            )
    return found


def _of_the_heights(spot: Spot) -> list[Asked]:
    """Return what hangs at a height that is not known; a door stands at the ground."""
    return [
        Asked(
            f"{spot.pointer}/objects/{index}/bottom",
            f"how high {name_of(thing)} is",
            f"How high above the ground is the lower edge of {name_of(thing)}?",
            AskBy.PHOTO,
            LOWER_EDGES,
            "A unit may hang below it, or above.",
            moves=True,
            minor=True,
        )
        for index, thing in enumerate(spot.objects)
        if isinstance(thing, Opening | CornerOpening | WallEquipment)
        and thing.bottom is None
        and not (isinstance(thing, Opening) and thing.what == "door")
    ]
