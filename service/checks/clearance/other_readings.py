"""The answer under other admissible readings: both results stand beside each other."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.clearance.judged import Judged, chosen_of, judge, verdict_of
from service.checks.clearance.location import location_of
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers, numbers_of
from service.checks.clearance.spots import spots_of
from service.facts.siting_objects import CornerOpening, Opening
from service.findings import Alternative, Verdict


class Reading(NamedTuple):
    """Another reading: its id, its words, the request read so, and whether it moves places."""

    id: str
    words: str
    request: ClearanceRequest
    moves: bool = True


def alternatives(
    request: ClearanceRequest, rules: RuleNumbers, judged: list[Judged], verdict: Verdict
) -> list[Alternative]:
    """Return the readings under which the verdict or the number of units differs."""
    found, now = [], _places(judged)
    for reading in _readings(request, rules):
        made = _judged(reading, judged)
        then, places = verdict_of(made), _places(made)
        if then is verdict and places == now:
            continue
        found.append(
            Alternative(
                id=reading.id,
                reading=reading.words,
                verdict=then,
                flips_verdict=then is not verdict,
                statement=_statement(made),
            )
        )
    return found


def _judged(reading: Reading, now: list[Judged]) -> list[Judged]:
    """Return the places under a reading; what hangs on no reading is not worked out again."""
    rules = numbers_of(reading.request)
    return [
        judge(
            reading.request,
            rules,
            one.spot,
            None if reading.moves else one.fit,
            one.hanging,
        )
        for one in now
    ]


def _places(judged: list[Judged]) -> list[tuple[int, str]]:
    return [(one.placed, str(one.verdict)) for one in judged]


def _statement(judged: list[Judged]) -> str:
    best = chosen_of(judged)
    wanted = sum(best.fit.counts)
    words = f"{best.placed} of {wanted} stand at {best.spot.name}"
    failed = [one.rule for one in best.held if one.verdict is Verdict.FAIL]
    return f"{words}; it fails by {', '.join(failed)}." if failed else f"{words}."


def _readings(request: ClearanceRequest, rules: RuleNumbers) -> list[Reading]:
    """Return the readings that something in the request can tell apart."""
    spots = spots_of(request)
    openings = [
        (spot.kind, one.leads_to)
        for spot in spots
        for one in spot.objects
        if isinstance(one, Opening | CornerOpening)
    ]
    found = []
    if any(leads in (None, "dwelling") for _, leads in openings):
        found.append(_opening_distance(request, rules))
    if any("garage" in seen for seen in openings):
        found.append(_garage_openings(request, rules))
    if any(unit.worked_on_live is False for unit in request.units):
        found.append(_working_space(request, rules))
    if request.existing or any(
        len({location_of(spot, unit) for unit in request.units}) > 1 for spot in spots
    ):
        found.append(_energy(request, rules))
    if rules.neighbour is not None:
        words = f"The place reads the edition {rules.neighbour}."
        made = changed(request, edition=rules.neighbour)
        other = numbers_of(made)
        listed = any(unit.listed_opening_distance is not None for unit in request.units)
        moves = not rules.same_room(other, listed=listed)
        # Rooms are read otherwise, and numbers; of an outside wall nothing else differs.
        if moves or not rules.same_limits(other) or any(spot.kind == "room" for spot in spots):
            found.append(Reading("other-edition", words, made, moves=moves))
    return found


def _opening_distance(request: ClearanceRequest, rules: RuleNumbers) -> Reading:
    other = "straight" if rules.any_height else "any_height"
    words = {
        "straight": "The distance to openings is the straight line.",
        "any_height": "The distance to openings is kept beside them at any height.",
    }[other]
    made = changed(request, readings=changed(request.readings, opening_distance=other))
    return Reading("opening-distance-reading", words, made)


def _garage_openings(request: ClearanceRequest, rules: RuleNumbers) -> Reading:
    other = "do_not_count" if rules.garages_count else "count"
    words = {
        "do_not_count": "Doors and windows into a garage, or inside one, keep no distance.",
        "count": "Doors and windows into a garage, and those of the dwelling inside one, keep the "
        "distance of exterior walls.",
    }[other]
    made = changed(request, readings=changed(request.readings, garage_openings=other))
    return Reading("garage-openings-reading", words, made)


def _working_space(request: ClearanceRequest, rules: RuleNumbers) -> Reading:
    other = "serviced_live" if rules.every_unit else "every_unit"
    words = {
        "serviced_live": "Only a unit that is serviced live keeps a working space.",
        "every_unit": "Every unit keeps a working space, a sealed one too.",
    }[other]
    made = changed(request, readings=changed(request.readings, working_space=other))
    return Reading("working-space-reading", words, made)


def _energy(request: ClearanceRequest, rules: RuleNumbers) -> Reading:
    other = "per_location" if rules.per_property else "per_property"
    words = {
        "per_location": "Energies are summed by location.",
        "per_property": "Energies are summed over the property.",
    }[other]
    made = changed(request, readings=changed(request.readings, energy_limits=other))
    return Reading("energy-limit-reading", words, made, moves=False)
