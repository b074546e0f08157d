"""A place told by telephone: what to measure and photograph so that it can be answered."""

from __future__ import annotations

from service.checks.clearance.answer import Measure
from service.checks.clearance.asked import Asked
from service.checks.clearance.held import Held, cited
from service.checks.clearance.inches import in_words
from service.checks.clearance.lens import INCH, UNSTATED, Lens
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import coarse_places
from service.checks.clearance.unit_boxes import USUAL_STANDOFF
from service.facts.siting_spots import CoarsePlace
from service.findings import AskBy, Verdict

_OUTDOORS = (None, "side_yard", "back", "front")


def coarse_held(request: ClearanceRequest, rules: RuleNumbers) -> list[Held]:
    """Return what is known of places told by telephone: never enough for a yes."""
    found = []
    for _, place in coarse_places(request):
        words = f"Of {place.id} too little is known to place a unit."
        sources = cited(rules.chain, "walkway", "opening-distance")
        narrow = _narrow(request, rules, place)
        if narrow is not None:
            words += f" {narrow}"
        if place.openings_near:
            words += " Doors or windows are near: units keep 3 ft from those of the dwelling."
        if place.meters_near:
            words += " Meters or the panel are near: they keep a working space."
        found.append(Held("place-known", Verdict.UNDETERMINED, words, sources=sources))
    return found


def _narrow(request: ClearanceRequest, rules: RuleNumbers, place: CoarsePlace) -> str | None:
    """Return what the narrowest width leaves, in words."""
    if place.narrowest is None or place.where not in _OUTDOORS:
        return None
    lens = Lens(by=UNSTATED)
    wide = lens._replace(lengths=-1).read(place.narrowest, -1)
    front = max(
        unit.depth + (USUAL_STANDOFF if unit.standoff is None else unit.standoff)
        for unit in request.units
    )
    need = front * INCH + max(rules.walkway, rules.working_low)
    if wide < need:
        return (
            f"Even at its widest the narrowest way is short of the {in_words(need, 'up')} that "
            "unit and way take there."
        )
    return f"Unit and way take {in_words(need, 'up')} from the wall."


def measures(request: ClearanceRequest) -> list[Measure]:
    """Return what to measure and photograph at places of which little is known."""
    found: list[Measure] = []
    for _, place in coarse_places(request):
        found += [Measure(place=place.id, how=how, what=what) for how, what in _of(place)]
    return found


def _of(place: CoarsePlace) -> list[tuple[str, str]]:
    tape = [
        "The length of the wall, corner to corner or to where it opens.",
        "From the left corner to both sides of every door and window, and their height above the "
        "ground.",
        "From the left corner to the panel, meters, hose bibs, downspouts and vents on the wall.",
    ]
    photo = ["The whole wall, straight on, with something of known size in the picture."]
    if place.where in _OUTDOORS:
        tape += [
            "The narrowest place between the wall and the fence.",
            "From the ground to the eave.",
            "The narrowest gate on the way in, and the number of steps.",
        ]
        photo += ["Along the wall from both ends.", "The gas meter and its regulator's vent."]
    if place.where in (None, "garage"):
        tape += [
            "Width and depth of the garage, and its height.",
            "Width and height of the vehicle opening, and its distance from the left wall.",
            "The length of the longest vehicle parked there.",
        ]
        photo += ["The back wall and both side walls from the vehicle opening."]
    if place.where == "indoors":
        photo += ["The room's door, and what is on the other side of each wall."]
    return [*(("tape", one) for one in tape), *(("photo", one) for one in photo)]


def coarse_asked(request: ClearanceRequest) -> list[Asked]:
    """Return what to ask of places told by telephone, the tape last."""
    found = []
    for index, place in coarse_places(request):
        at = f"/places/{index}"
        if place.where is None:
            found.append(
                Asked(
                    f"{at}/where",
                    f"where {place.id} is",
                    "Is it in the garage, at the side, the back or the front of the house, or "
                    "indoors?",
                    AskBy.TELEPHONE,
                    (),
                    "Each has rules of its own.",
                )
            )
        if place.narrowest is None and place.where in _OUTDOORS:
            found.append(
                Asked(
                    f"{at}/narrowest",
                    "the narrowest way there",
                    "How wide is it between the wall and the fence at the narrowest?",
                    AskBy.TELEPHONE,
                    (),
                    "Unit and way must both find room.",
                )
            )
        for name, label, words in (
            (
                "openings_near",
                "doors and windows near the spot",
                "Are doors or windows within an arm's span of the spot?",
            ),
            (
                "meters_near",
                "meters near the spot",
                "Is a gas or electric meter or the panel within an arm's span of it?",
            ),
        ):
            if getattr(place, name) is None:
                found.append(
                    Asked(
                        f"{at}/{name}",
                        label,
                        words,
                        AskBy.TELEPHONE,
                        (),
                        "Units keep their distance from them.",
                    )
                )
        found.append(
            Asked(
                at,
                f"the lengths of {place.id}",
                "Can somebody send the photos of the list, and measure its lengths with a tape?",
                AskBy.PHOTO,
                (),
                "No place is permitted before its lengths are known.",
            )
        )
    return found
