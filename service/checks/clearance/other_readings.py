"""The answer under other admissible readings: both results stand beside each other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, NamedTuple

from service.checks.clearance.fit import Fit, fit_of
from service.checks.clearance.judged import Aside, Judged, chosen_of, judge, left_by, verdict_of
from service.checks.clearance.location import location_of
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers, numbers_of
from service.checks.clearance.spots import Spot, spots_of
from service.codes.siting_switches import siting_switches
from service.facts.siting_objects import CornerOpening, Opening
from service.findings import Alternative, Verdict, best


class Reading(NamedTuple):
    """Another reading: its id, its words, and the request read so.

    `moves` says whether units find other places, `aside` whether other rules stand otherwise.
    """

    id: str
    words: str
    request: ClearanceRequest
    moves: bool
    aside: bool


def alternatives(
    request: ClearanceRequest, rules: RuleNumbers, judged: list[Judged], verdict: Verdict
) -> list[Alternative]:
    """Return the readings under which the verdict or the number of units differs."""
    found, now = [], _places(judged)
    for reading in _readings(request, rules):
        read = numbers_of(reading.request)
        fits = [_read_so(reading, read, rules, one) for one in judged]
        # Where no place has room by either reading, none passes whatever else is held against it.
        if all(_no_room(one.fit, fit) for one, fit in zip(judged, fits, strict=True)):
            continue
        made = [
            judge(reading.request, read, one.spot, fit, _known(reading, one))
            for one, fit in zip(judged, fits, strict=True)
        ]
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


def _known(reading: Reading, one: Judged) -> Aside:
    """Return the rules of a place that no reading, or not this one, turns."""
    return {"hanging": one.aside["hanging"]} if reading.aside else one.aside


def _read_so(reading: Reading, read: RuleNumbers, rules: RuleNumbers, one: Judged) -> Fit:
    """Return how the units stand on a wall by another reading."""
    if not reading.moves:
        return one.fit
    if one.fit.verdict is Verdict.FAIL and read.forbids_no_less(rules):
        # What is not known makes no room now, and none where no less is forbidden.
        return fit_of(reading.request, read, one.spot, at_best=Verdict.FAIL)
    known = best((left_by(_known(reading, one)), Verdict.UNDETERMINED))
    return fit_of(reading.request, read, one.spot, at_best=known)


def _no_room(now: Fit, then: Fit) -> bool:
    """Return whether as few stand by both readings, and never all of them."""
    both_fail = now.verdict is then.verdict is Verdict.FAIL
    return both_fail and _placed(now) == _placed(then)


def _placed(fit: Fit) -> int:
    return len(fit.solved.arrangement.positions)


def _places(judged: list[Judged]) -> list[tuple[int, str]]:
    return [(one.placed, str(one.verdict)) for one in judged]


def _statement(judged: list[Judged]) -> str:
    best = chosen_of(judged)
    wanted = sum(best.fit.counts)
    words = f"{best.placed} of {wanted} stand at {best.spot.name}"
    failed = [one.rule for one in best.held if one.verdict is Verdict.FAIL]
    return f"{words}; it fails by {', '.join(failed)}." if failed else f"{words}."


class Doubt(NamedTuple):
    """A switch of table siting_switches: the id of its alternative, and what tells it apart."""

    id: str
    matters: Callable[[ClearanceRequest, RuleNumbers, list[Spot]], bool]


#: By the switch, the order of the answer.
DOUBTS: Final[Mapping[str, Doubt]] = {
    "opening_distance": Doubt(
        "opening-distance-reading",
        lambda _request, _rules, spots: any(
            leads in (None, "dwelling") for _, leads in _openings(spots)
        ),
    ),
    "garage_openings": Doubt(
        "garage-openings-reading",
        lambda _request, _rules, spots: any("garage" in seen for seen in _openings(spots)),
    ),
    "working_space": Doubt(
        "working-space-reading",
        lambda request, _rules, _spots: any(unit.worked_on_live is False for unit in request.units),
    ),
    "energy_limits": Doubt(
        "energy-limit-reading",
        lambda request, _rules, spots: (
            bool(request.existing)
            or any(len({location_of(spot, unit) for unit in request.units}) > 1 for spot in spots)
        ),
    ),
    "garage_energy": Doubt(
        "garage-energy-reading",
        lambda request, _rules, spots: (
            bool(request.existing) and any(spot.kind == "garage" for spot in spots)
        ),
    ),
    "vehicle_edge": Doubt(
        "vehicle-edge-reading",
        lambda _request, rules, spots: (
            rules.vehicle is not None and any(spot.kind == "garage" for spot in spots)
        ),
    ),
    "utility_door": Doubt(
        "garage-door-reading",
        lambda _request, rules, spots: (
            rules.utility_door and any(spot.kind == "garage" for spot in spots)
        ),
    ),
}


def _openings(spots: list[Spot]) -> list[tuple[str, str | None]]:
    """Return where the openings of all walls are, and where they lead."""
    return [
        (spot.kind, one.leads_to)
        for spot in spots
        for one in spot.objects
        if isinstance(one, Opening | CornerOpening)
    ]


def _readings(request: ClearanceRequest, rules: RuleNumbers) -> list[Reading]:
    """Return the readings that something in the request can tell apart."""
    spots, switches = spots_of(request), siting_switches()
    found = []
    for name, doubt in DOUBTS.items():
        if doubt.matters(request, rules, spots):
            switch = switches[name]
            other = switch.other_than(getattr(request.readings, name) or switch.default)
            made = changed(request, readings=changed(request.readings, **{name: other}))
            moves = switch.places
            found.append(Reading(doubt.id, switch.statements[other], made, moves, not moves))
    return found + _other_edition(request, rules, spots)


def _other_edition(
    request: ClearanceRequest, rules: RuleNumbers, spots: list[Spot]
) -> list[Reading]:
    """Return the edition beside, unless nothing that is held against the places differs."""
    if rules.neighbour is None:
        return []
    made = changed(request, edition=rules.neighbour)
    other = numbers_of(made)
    listed = any(unit.listed_opening_distance is not None for unit in request.units)
    moves = not rules.same_room(other, listed=listed)
    # Rooms are read otherwise, and numbers; of an outside wall nothing else differs.
    if not moves and rules.same_limits(other) and all(spot.kind != "room" for spot in spots):
        return []
    words = f"The place reads the edition {other.edition}."
    return [Reading("other-edition", words, made, moves, aside=True)]
