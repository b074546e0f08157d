"""Units of one kind divided over several places, as a fix where no place has room for all."""

from __future__ import annotations

from service.checks.clearance.answer import Fix
from service.checks.clearance.judged import Judged, judge
from service.checks.clearance.location import location_of
from service.checks.clearance.request import ClearanceRequest, changed
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.tries import MOVE
from service.facts.siting_readings import ExistingStorage
from service.findings import Verdict, worst


def several_places(
    request: ClearanceRequest, rules: RuleNumbers, judged: list[Judged]
) -> list[Fix]:
    """Return the units divided over the fewest places, each judged with the others' share there.

    Notes
    -----
    Of a garage one wall counts: units on two walls that meet may be too near to each other.
    """
    unit = request.units[0]
    if len(request.units) > 1 or any(one.spot.placed for one in judged):
        return []
    left, used = unit.count, set[str]()
    shares: list[tuple[Judged, int]] = []
    for one in sorted(judged, key=lambda place: -place.placed):
        share = min(one.placed, one.fit.solved.most[0], left)
        other_rule = any(
            held.verdict is Verdict.FAIL and held.rule != "clear-positions" for held in one.held
        )
        if share > 0 and not other_rule and one.spot.place_at not in used:
            shares.append((one, share))
            used.add(one.spot.place_at)
            left -= share
    if left or len(shares) < 2:
        return []
    then = [_with_share(request, rules, shares, at) for at in range(len(shares))]
    short = sum(one.placed for one in then) < unit.count
    if short or worst(one.verdict for one in then) is Verdict.FAIL:
        return []
    names = [f"{share} at {one.spot.name}" for one, share in shares]
    return [
        Fix(
            id="several-places",
            place=" and ".join(one.spot.name for one, _ in shares),
            effort=MOVE,
            statement=f"Hang {', '.join(names[:-1])} and {names[-1]}.",
            verdict=worst(one.verdict for one in then),
            placed=unit.count,
        )
    ]


def _with_share(
    request: ClearanceRequest, rules: RuleNumbers, shares: list[tuple[Judged, int]], at: int
) -> Judged:
    """Return a place judged with its share, what hangs elsewhere counted as there already."""
    unit, (here, share) = request.units[0], shares[at]
    each = (unit.energy or 0.0) * unit.stack.levels
    others = [
        ExistingStorage(where=location_of(one.spot, unit), energy=each * n)
        for place, (one, n) in enumerate(shares)
        if place != at
    ]
    made = changed(
        request,
        units=[changed(unit, count=share)],
        existing=[*request.existing, *others],
    )
    return judge(made, rules, here.spot, known={"hanging": here.aside["hanging"]})
