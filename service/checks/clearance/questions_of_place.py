"""What to ask of the place: what is on the ground, who passes, what a garage or a room is."""

from __future__ import annotations

from service.checks.clearance.asked import Asked
from service.checks.clearance.judged import Judged
from service.checks.clearance.questions_of_ground import of_the_ground
from service.checks.clearance.questions_of_objects import of_the_objects
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import escape_way_of
from service.facts.siting_spots import SitingGarage, SitingRoom, SitingWall
from service.findings import AskBy, Verdict


def of_the_place(request: ClearanceRequest, rules: RuleNumbers, chosen: Judged) -> list[Asked]:
    """Return what is not known of the chosen place."""
    spot, place = chosen.spot, chosen.spot.place
    found = of_the_ground(request, rules, chosen) + of_the_objects(spot)
    if isinstance(place, SitingWall):
        found += _of_the_wall(place, spot.place_at)
    elif isinstance(place, SitingGarage):
        found += _of_the_garage(place, spot.place_at)
    else:
        found += _of_the_room(place, rules, spot.place_at)
    return found + _of_the_way_in(chosen)


def _of_the_wall(place: SitingWall, at: str) -> list[Asked]:
    found = []
    if place.route is None:
        found.append(
            Asked(
                f"{at}/route",
                "whether people pass there",
                "Must people be able to walk by, to a gate, a yard or a meter?",
                AskBy.TELEPHONE,
                (True, False),
                "A way for people keeps its width.",
                moves=True,
                minor=True,
            )
        )
    if escape_way_of(place) is None:
        found.append(
            Asked(
                f"{at}/escape_way",
                "whether an escape leads through it",
                "Does a bedroom's escape window open onto it, or is it the only way out of a yard?",
                AskBy.PHOTO,
                (True, False),
                "An escape way keeps its width whatever else.",
                moves=True,
                minor=True,
            )
        )
    for end, stated in (("left_end", place.left_end), ("right_end", place.right_end)):
        if stated is None:
            side = end.removesuffix("_end")
            found.append(
                Asked(
                    f"{at}/{end}",
                    f"the {side} end of the wall",
                    f"Does the wall end at another wall on its {side}, or is it open there?",
                    AskBy.PHOTO,
                    ("wall", "open"),
                    "A working space may pass an open end.",
                    moves=True,
                    minor=True,
                )
            )
    if place.vehicles is None:
        found.append(
            Asked(
                f"{at}/vehicles",
                "vehicles at the wall",
                "Do cars drive or park at this wall?",
                AskBy.TELEPHONE,
                (False, True),
                "What vehicles may hit is protected.",
            )
        )
    if place.flood is None:
        found.append(
            Asked(
                f"{at}/flood",
                "the flood there",
                "Is the home in a flood hazard area, and how high does the flood come at the wall?",
                AskBy.RECORD,
                (-120.0, 120.0),
                "Electrical equipment stays above the flood.",
            )
        )
    return found


def _of_the_garage(place: SitingGarage, at: str) -> list[Asked]:
    found = []
    if place.vehicle_opening is None:
        found.append(
            Asked(
                f"{at}/vehicle_opening",
                "the vehicle opening",
                "How wide and how high is the vehicle opening, and how far from the left wall?",
                AskBy.PHOTO,
                (),
                "What is in the way of vehicles is protected.",
                moves=True,
            )
        )
    if place.attached is None:
        found.append(
            Asked(
                f"{at}/attached",
                "whether the garage is attached",
                "Is the garage attached to the house?",
                AskBy.TELEPHONE,
                (True, False),
                "An attached garage must be separated from the dwelling.",
            )
        )
    if place.attached is not False and place.separated is None:
        found.append(
            Asked(
                f"{at}/separated",
                "the garage's separation",
                "Is the wall between garage and house, and the ceiling below rooms, closed with "
                "gypsum board?",
                AskBy.PHOTO,
                (True, False),
                "Storage goes into a garage that is separated from the dwelling.",
            )
        )
    if place.detection is None:
        found.append(_alarm(at, "garage", "a heat detector that sounds with the smoke alarms"))
    return found


def _alarm(at: str, where: str, device: str) -> Asked:
    return Asked(
        f"{at}/detection",
        f"the alarm of the {where}",
        f"Is there {device} in the {where}?",
        AskBy.TELEPHONE,
        (True, False),
        "Fire detection is needed where storage is.",
    )


def _of_the_room(place: SitingRoom, rules: RuleNumbers, at: str) -> list[Asked]:
    found = []
    if place.opens_into_bedroom is None:
        found.append(
            Asked(
                f"{at}/opens_into_bedroom",
                "what the room opens into",
                "Does the room open directly into a room where people sleep?",
                AskBy.TELEPHONE,
                (True, False),
                "No storage stands in what opens into a sleeping room.",
            )
        )
    if place.finish is None:
        found.append(
            Asked(
                f"{at}/finish",
                "walls and ceiling of the room",
                "Are its walls and ceiling finished, or bare framing?",
                AskBy.PHOTO,
                ("gypsum_type_x", "unfinished"),
                "Bare wood framing gets gypsum board first.",
            )
        )
    if rules.utility_door and place.door_self_closing is None:
        found.append(
            Asked(
                f"{at}/door_self_closing",
                "the door of the room",
                "Is its door solid or rated, and does it close and latch by itself?",
                AskBy.PHOTO,
                (True, False),
                "This edition asks it of the door into the dwelling.",
            )
        )
    if place.detection is None:
        found.append(_alarm(at, "room", "a smoke alarm that sounds with the others"))
    return found


def _of_the_way_in(chosen: Judged) -> list[Asked]:
    spot = chosen.spot
    found, way = [], spot.way_in
    if way.narrowest is None:
        found.append(
            Asked(
                f"{spot.place_at}/way_in/narrowest",
                "the narrowest gate",
                "How wide is the narrowest gate, door or passage on the way in?",
                AskBy.PHOTO,
                (12.0, 48.0),
                "The units must come through.",
            )
        )
    if way.steps is None:
        found.append(
            Asked(
                f"{spot.place_at}/way_in/steps",
                "steps on the way in",
                "How many steps are on the way in?",
                AskBy.TELEPHONE,
                (0, 3),
                "Steps take more people.",
            )
        )
    if way.slope_percent is None and _enough_on_the_level(chosen):
        found.append(
            Asked(
                f"{spot.place_at}/way_in/slope_percent",
                "the slope of the way in",
                "How steep is the way in at its steepest: level, as a ramp, or as a driveway?",
                AskBy.TELEPHONE,
                (0.0, 20.0),
                "Nothing is rolled where it is too steep.",
                minor=True,
            )
        )
    return found


def _enough_on_the_level(chosen: Judged) -> bool:
    """Return whether as many come as carry the heaviest piece on a level way, and no more."""
    return any(
        one.rule == "carry-in"
        and one.verdict is Verdict.CONDITIONAL
        and one.actual is not None
        and one.limit is not None
        and one.actual >= one.limit
        for one in chosen.held
    )
