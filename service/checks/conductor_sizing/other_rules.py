"""The rules beside the size of the phases: breaker, ground, raceway, building."""

from __future__ import annotations

from service.checks.conductor_sizing.answer import RacewayPart
from service.checks.conductor_sizing.overcurrent_device import (
    ABOVE_NAMEPLATE,
    ABOVE_STANDARD,
    NAMEPLATE_UNKNOWN,
)
from service.checks.conductor_sizing.place_rules import label
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import name
from service.checks.conductor_sizing.sized import Sized
from service.findings import Finding, Verdict
from service.published.raceways import raceways
from service.quantities.comparison import reaches

Row = tuple[Finding, str | None]


def breaker(request: ConductorSizingRequest, sized: Sized) -> Row:
    """Return whether the breaker is one that can be had and that the nameplate allows."""
    device, lane = sized.found.device, sized.lane
    rating, code = float(device.rating[lane]), int(device.code[lane])
    asked = f"{sized.current.raised:.4g} A"
    if sized.current.raised > sized.current.amps:
        asked += ", the continuous part raised by a quarter,"
    rule = "overcurrent-device"
    if code == ABOVE_STANDARD:
        words = f"No standard breaker carries {asked.rstrip(',')}: divide the circuit."
        return Finding(rule=rule, verdict=Verdict.FAIL, statement=words), None
    words = f"{asked} take a breaker of {rating:g} A"
    if code == ABOVE_NAMEPLATE:
        most = request.circuit.most_breaker_a
        words += f", and the nameplate allows no more than {most:g} A."
        return Finding(rule=rule, verdict=Verdict.FAIL, statement=words), None
    if code == NAMEPLATE_UNKNOWN:
        words += "; what the nameplate allows is not stated."
        condition = f"the nameplate allows a breaker of {rating:g} A"
        return Finding(rule=rule, verdict=Verdict.CONDITIONAL, statement=words), condition
    return Finding(rule=rule, verdict=Verdict.PASS, statement=f"{words}."), None


def existing_breaker(request: ConductorSizingRequest, sized: Sized) -> list[Row]:
    """Return whether the breaker that is there may stay."""
    there = request.circuit.breaker_a
    rating = float(sized.found.device.rating[sized.lane])
    if there is None or not rating or reaches(there, rating, "current"):
        return []
    small = not reaches(there, sized.current.raised, "current")
    why = "carries too little" if small else "is of no standard rating"
    words = f"The breaker of {there:g} A that is there {why}: one of {rating:g} A takes its place."
    condition = f"the breaker of {there:g} A is replaced by one of {rating:g} A"
    finding = Finding(rule="existing-breaker", verdict=Verdict.CONDITIONAL, statement=words)
    return [(finding, condition)]


def ground(sized: Sized) -> Row:
    """Return the equipment ground, and whether rounding alone decides."""
    found, lane = sized.found.ground, sized.lane
    if sized.ground < 0:
        words = "The table of equipment grounds ends below this breaker."
        return Finding(rule="equipment-ground", verdict=Verdict.UNDETERMINED, statement=words), None
    words = f"The equipment ground is {name(sized.ground)} copper"
    if sized.ground != int(found.table_size[lane]):
        words += f": {name(int(found.table_size[lane]))} by the breaker, grown with the phases"
    if bool(found.marginal[lane]):
        words += (
            f". {name(sized.ground - 1)} misses the rule by the rounding of the printed areas alone"
        )
    cable = next((part.way for part in sized.parts if part.way not in raceways()), None)
    if cable is not None and sized.ground != int(found.table_size[lane]):
        words += f". {label(cable)} comes with a ground of its maker's size"
        condition = f"the ground in {label(cable)} is of no less than {name(sized.ground)} copper"
        verdict = Verdict.CONDITIONAL
        return Finding(rule="equipment-ground", verdict=verdict, statement=f"{words}."), condition
    return Finding(rule="equipment-ground", verdict=Verdict.PASS, statement=f"{words}."), None


def raceway(sized: Sized) -> list[Row]:
    """Return how full the raceways are: the part that holds least, and what may jam."""
    rows = [(row, part) for row, part in zip(sized.raceways, sized.parts, strict=True)]
    inside = [row for row, part in rows if part.way in raceways()]
    if not inside or sized.size < 0 or sized.lacks_neutral:
        return []
    none = [row for row in inside if row.trade_size is None]
    if none:
        what = label(none[0].way)
        words = f"No trade size of {what} holds the conductors: a larger kind, or two runs."
        return [(Finding(rule="raceway-fill", verdict=Verdict.FAIL, statement=words), None)]
    shared = any(part.counted for part in sized.parts)
    # A short nipple may be filled further: what counts is how near each is to its own limit.
    fullest = max(
        inside, key=lambda row: (row.filled_percent or 0.0) / (row.allowed_percent or 1.0)
    )
    words = (
        f"Trade size {fullest.trade_size} of {label(fullest.way)} is "
        f"{fullest.filled_percent:.0f} % full, of {fullest.allowed_percent:.0f} %."
    )
    condition = None
    if shared:
        words += " The conductors of other circuits in it are not counted: their size is unknown."
        condition = "the raceway holds the conductors of the other circuits too"
    verdict = Verdict.CONDITIONAL if shared else Verdict.PASS
    found: list[Row] = [(Finding(rule="raceway-fill", verdict=verdict, statement=words), condition)]
    return found + _jams(inside)


def _jams(inside: list[RacewayPart]) -> list[Row]:
    """Return where three equal conductors would jam in the bends of a smaller raceway, or do."""
    words = "Three equal conductors may jam in the bends of"
    for row in inside:
        if row.may_jam:
            told = f"{words} {label(row.way)}, trade size {row.trade_size}, and none is larger."
            condition = f"{label(row.way)} has no bends in which three conductors jam"
            verdict = Verdict.CONDITIONAL
            return [(Finding(rule="jam-ratio", verdict=verdict, statement=told), condition)]
    for row in inside:
        if row.jams_in is not None:
            told = f"{words} {label(row.way)}, trade size {row.jams_in}: {row.trade_size} is taken."
            return [(Finding(rule="jam-ratio", verdict=Verdict.PASS, statement=told), None)]
    return []


def building(request: ConductorSizingRequest) -> list[Row]:
    """Return what a detached building asks for."""
    if request.circuit.kind != "building_feeder":
        return []
    words = (
        "A detached building needs a disconnect of its own, an electrode of its own and a ground "
        "in the feeder; its neutral is not bonded there."
    )
    condition = "the detached building has disconnect and electrode, its neutral not bonded"
    finding = Finding(rule="detached-building", verdict=Verdict.CONDITIONAL, statement=words)
    return [(finding, condition)]
