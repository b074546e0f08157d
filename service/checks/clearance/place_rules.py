"""Whether a place is one where storage may be: kind of home, room, garage, alarm."""

from __future__ import annotations

from service.checks.clearance.held import Held, cells, cited
from service.checks.clearance.inches import in_words, to_inches
from service.checks.clearance.lens import UNSTATED, Lens
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.spots import Spot
from service.checks.clearance.unit_boxes import box_of
from service.checks.clearance.wall_lane import front_plane
from service.codes.siting_rooms import siting_rooms
from service.facts.siting_spots import SitingGarage, SitingRoom, SitingWall
from service.findings import Verdict
from service.quantities.comparison import at_least


def place_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return how the place itself stands."""
    found = [_home(request), _edition(rules)]
    place = spot.place
    if isinstance(place, SitingGarage):
        found += [_garage(place, rules), *_detection(place.detection, "garage", rules)]
        if rules.garage_door and rules.utility_door and place.attached is not False:
            found.append(_door("an attached garage", "the garage", rules))
    elif isinstance(place, SitingRoom):
        found += [_room(request, rules, place), *_detection(place.detection, "room", rules)]
        found += _finish(place, rules)
    else:
        found += _property_line(request, place, rules)
    return found


def _home(request: ClearanceRequest) -> Held:
    rule = "home-in-scope"
    if request.home is None:
        words = "Which kind of home it is is not known; it decides which code applies."
        return Held(rule, Verdict.UNDETERMINED, words)
    if request.home == "multi_family":
        words = (
            "A building of more than two dwellings falls under the building code and the general "
            "rules of the fire code, which are not worked out here."
        )
        return Held(rule, Verdict.UNDETERMINED, words)
    words = (
        "The rules for one- and two-family dwellings, townhouses and their accessory units apply."
    )
    return Held(rule, Verdict.PASS, words)


def _edition(rules: RuleNumbers) -> Held:
    rule = "edition-known"
    sources = cells("code_editions", rules.edition)
    if not rules.known:
        words = (
            f"Which edition the place has adopted is not known; the numbers are those of "
            f"{rules.edition}."
        )
        return Held(rule, Verdict.UNDETERMINED, words, sources=sources)
    return Held(rule, Verdict.PASS, f"Read in the edition {rules.edition}.", sources=sources)


def _garage(place: SitingGarage, rules: RuleNumbers) -> Held:
    rule = "room-use"
    sources = cells(
        "siting_rooms", "garage_detached" if place.attached is False else "garage_attached"
    )
    if place.attached is False:
        return Held(rule, Verdict.PASS, "A detached garage is a place allowed.", sources=sources)
    words = "An attached garage is a place allowed where it is separated from the dwelling."
    if place.separated:
        return Held(rule, Verdict.PASS, words, sources=sources)
    condition = "the garage is separated from the dwelling by gypsum board as the code asks"
    sources += cited(rules.chain, "garage-gypsum", "garage-gypsum-under-rooms")
    missing = "is not" if place.separated is False else "is not known to be"
    words += f" It {missing} separated."
    return Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)


def _room(request: ClearanceRequest, rules: RuleNumbers, place: SitingRoom) -> Held:
    rule, use = "room-use", siting_rooms()[place.use]
    sources = cells("siting_rooms", place.use)
    words = use.statement
    bedroom = place.opens_into_bedroom
    if bedroom:
        words = "It opens directly into a room where people sleep: no unit stands here."
        return Held(rule, Verdict.FAIL, words, sources=cells("siting_rooms", "closet_of_bedroom"))
    if use.location == "prohibited":
        named = all(kind.listed_for_rooms for kind in request.units) and rules.listed_rooms
        if named and place.use not in ("bedroom", "closet_of_bedroom"):
            words = "Rooms that people live in are allowed to units listed and labelled for them."
            sources += cited(rules.chain, "habitable-listing")
            return Held(
                rule,
                Verdict.CONDITIONAL,
                words,
                sources=sources,
                condition=(
                    "the label of every unit says that it may stand in rooms that people live in"
                ),
            )
        return Held(rule, Verdict.FAIL, words, sources=sources)
    if use.location != "utility_room":
        return Held(rule, Verdict.UNDETERMINED, words, sources=sources)
    if bedroom is None:
        words += " Whether it opens into a room where people sleep is not known."
        return Held(rule, Verdict.UNDETERMINED, words, sources=sources)
    return Held(rule, Verdict.PASS, words, sources=sources)


def _finish(place: SitingRoom, rules: RuleNumbers) -> list[Held]:
    """Return how walls, ceiling and door of a room stand."""
    sources = cited(rules.chain, "utility-room-gypsum")
    words = "Walls and ceiling of the room are finished or do not burn."
    if place.finish in ("gypsum_type_x", "gypsum", "noncombustible"):
        found = [Held("room-finish", Verdict.PASS, words, sources=sources)]
    else:
        known = "are bare framing" if place.finish == "unfinished" else "are not known"
        found = [
            Held(
                "room-finish",
                Verdict.CONDITIONAL,
                f"Walls and ceiling of the room {known}.",
                sources=sources,
                condition="walls and ceiling of the room are finished with 5/8 in Type X gypsum "
                "board where they are bare wood framing",
            )
        ]
    if rules.utility_door and not place.door_self_closing:
        found.append(_door("such a room", "the room", rules))
    return found


def _door(from_where: str, of: str, rules: RuleNumbers) -> Held:
    """Return what is asked of the door between storage and the dwelling."""
    return Held(
        "room-door",
        Verdict.CONDITIONAL,
        f"Under this edition the door from {from_where} into the dwelling is solid or rated, and "
        "closes and latches by itself.",
        sources=cited(rules.chain, "utility-door-thickness"),
        condition=f"the door of {of} into the dwelling is solid or rated, and closes and latches "
        "by itself",
    )


def _detection(stated: bool | None, where: str, rules: RuleNumbers) -> list[Held]:
    """Return how the alarm of a garage or room stands."""
    rule, sources = "fire-detection", cells("siting_detection", where)
    device = (
        "a listed heat detector that is interconnected with the smoke alarms"
        if where == "garage"
        else "a smoke alarm that is interconnected with the others"
    )
    if stated:
        words = f"The {where} has, or gets, {device}."
        return [Held(rule, Verdict.PASS, words, sources=sources)]
    known = "has none" if stated is False else "is not known to have one"
    words = f"A {where} with storage needs {device}; it {known}."
    condition = f"the {where} has {device}"
    return [Held(rule, Verdict.CONDITIONAL, words, sources=sources, condition=condition)]


def _property_line(request: ClearanceRequest, place: SitingWall, rules: RuleNumbers) -> list[Held]:
    """Return how the property line stands: no unit beyond it, and what zoning may ask."""
    if place.property_line is None:
        return []
    rule, sources = "property-line", cited(rules.chain, "property-line-setback")
    lens = Lens(by=place.measured_by or UNSTATED)
    front = max(front_plane(box_of(unit, rules, lens, None)) for unit in request.units)
    line = lens.read(place.property_line, -1)
    held = (to_inches(line, "down"), to_inches(front, "up"), "in", sources)
    if not at_least(line, front, "length"):
        words = (
            f"The units would reach {in_words(front, 'up')} from the wall, beyond the property "
            f"line at {in_words(line, 'down')}."
        )
        return [Held(rule, Verdict.FAIL, words, *held)]
    words = (
        "The rules for storage state no distance to the property line; zoning and fire separation "
        "may, most of all for what stands on the ground."
    )
    condition = "zoning allows equipment so near the property line"
    return [Held(rule, Verdict.CONDITIONAL, words, *held, condition)]
