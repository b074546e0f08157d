"""Whether the cables of a run come in its size, and where a terminal asks for a larger one."""

from __future__ import annotations

from service.checks.conductor_sizing.constraints import SIZES_AT_HAND
from service.checks.conductor_sizing.place_rules import label
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_range import SizeRange, cable_range, lug_least
from service.checks.conductor_sizing.size_rules import name
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.tables import MATERIALS
from service.findings import Finding, Verdict

Row = tuple[Finding, str | None]
_RULE = "sizes-at-hand"


def sizes_at_hand(request: ConductorSizingRequest, sized: Sized) -> list[Row]:
    """Return a finding for each cable of the run, and for the terminal that takes no less."""
    ways = dict.fromkeys(part.way for part in sized.parts)
    material = MATERIALS[sized.lane]
    found = [
        _cable(sized, way, one, _asked(request, sized))
        for way in ways
        if (one := cable_range(way, material)) is not None
    ]
    return found + _lug(request, sized)


def _asked(request: ConductorSizingRequest, sized: Sized) -> int:
    """Return the size that all the other rules ask for; -1 where one of them has none."""
    smallest = [int(one) for one in sized.found.smallest[sized.lane]]
    del smallest[SIZES_AT_HAND]
    return -1 if min(smallest) < 0 else max([lug_least(request.circuit), *smallest])


def _cable(sized: Sized, way: str, comes: SizeRange, asked: int) -> Row:
    what = label(way)
    words = f"{what} comes in {name(comes.least)} to {name(comes.most)} {sized.material}"
    if sized.size < 0 and comes.known and asked > comes.most:
        words += f"; the other rules ask for {name(asked)}: another cable, or a raceway."
        return Finding(rule=_RULE, verdict=Verdict.FAIL, statement=words), None
    if comes.known:
        return Finding(rule=_RULE, verdict=Verdict.PASS, statement=f"{words}."), None
    words = f"In which sizes of {sized.material} {what} comes is not known here."
    condition = f"{what} comes in {name(sized.size)} {sized.material}" if sized.size >= 0 else None
    verdict = Verdict.UNDETERMINED if condition is None else Verdict.CONDITIONAL
    return Finding(rule=_RULE, verdict=verdict, statement=words), condition


def _lug(request: ConductorSizingRequest, sized: Sized) -> list[Row]:
    least = lug_least(request.circuit)
    smallest = int(sized.found.smallest[sized.lane][SIZES_AT_HAND])
    words = f"A terminal takes no less than {name(least)}"
    if smallest < 0:
        words += ", which is more than is pulled or than the cable comes in: another terminal."
        return [(Finding(rule=_RULE, verdict=Verdict.FAIL, statement=words), None)]
    if int(sized.found.governing[sized.lane]) != SIZES_AT_HAND or sized.size != least:
        return []
    words += ": that is pulled along the whole run, and ground and raceway follow it."
    return [(Finding(rule=_RULE, verdict=Verdict.PASS, statement=words), None)]
