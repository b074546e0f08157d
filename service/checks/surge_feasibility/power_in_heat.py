"""The same starts on the hottest days, when heat leaves a part of the inverter's power.

Nobody prints what heat leaves of a surge rating: at the high end of the estimate it is whole, at
the low end and at the worst it falls as the continuous rating does. What starts at the worst end
starts at the others, so that they are solved only where the worst one changes something.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from service.checks.surge_feasibility.request import (
    SurgeFeasibilityRequest,
    starting,
    with_less,
)
from service.checks.surge_feasibility.weighed import Weighed
from service.checks.surge_feasibility.weighed_starts import weighed_starts
from service.facts import LEAST_LEFT, HeatDerating, left_in_the_heat
from service.findings import Verdict, at_best, rank, worst


class InHeat(NamedTuple):
    """The starts with all of the power, and at the ends of what heat leaves.

    None where too little is left to run at all, or where an end was not looked at: the worst one
    changes nothing then.
    """

    heat: HeatDerating
    plain: Weighed
    high: Weighed | None
    low: Weighed | None
    worst: Weighed | None

    @property
    def unchanged(self) -> bool:
        """Return whether the worst end changes neither a verdict nor a condition."""
        return not changes(self.plain, self.worst)

    @property
    def verdict(self) -> Verdict:
        """Return how the starts stand on the hottest days, in the words of the heat check.

        What they come to with all of the power is said elsewhere.
        """
        if self.unchanged:
            return Verdict.PASS
        high, low, least = (self._moved(one) for one in (self.high, self.low, self.worst))
        if high is Verdict.FAIL:
            return Verdict.FAIL
        found = Verdict.UNDETERMINED if low is Verdict.FAIL else worst((high, low))
        return at_best(found, Verdict.CONDITIONAL) if rank(least) < rank(found) else found

    def _moved(self, end: Weighed | None) -> Verdict:
        return verdict_of(end) if changes(self.plain, end) else Verdict.PASS


def verdict_of(found: Weighed | None) -> Verdict:
    """Return the verdict at one end of the heat."""
    return Verdict.FAIL if found is None else found.verdict


def changes(before: Weighed, after: Weighed | None) -> bool:
    """Return whether less power worsens a verdict, or asks for more to be done."""
    if after is None:
        return before.verdict is not Verdict.FAIL
    asked = set(after.conditions) - set(before.conditions)
    return rank(after.verdict) < rank(before.verdict) or bool(asked)


def in_heat(request: SurgeFeasibilityRequest, plain: Weighed) -> InHeat | None:
    """Return how a request stands at every end of the heat; None where no heat was stated.

    Parameters
    ----------
    request : SurgeFeasibilityRequest
    plain : Weighed
        With all of its power.
    """
    if request.heat_derating is None:
        return None
    ends = _solved([_at(request, end) for end in ("high", "low", "worst")])
    return InHeat(request.heat_derating, plain, *ends)


def all_in_heat(
    requests: Sequence[SurgeFeasibilityRequest],
) -> list[tuple[Weighed, InHeat | None]]:
    """Return how each request stands with all of its power and, where stated, in the heat.

    The high and the low end are looked at only where the worst one changes something.
    """
    first = _solved([*requests, *(_at(one, "worst") for one in requests)])
    plain = [one for one in first[: len(requests)] if one is not None]
    least = first[len(requests) :]
    looked_at = [
        one if one.heat_derating is not None and changes(before, after) else None
        for one, before, after in zip(requests, plain, least, strict=True)
    ]
    ends = _solved(
        [one and _at(one, "high") for one in looked_at]
        + [one and _at(one, "low") for one in looked_at]
    )
    rows = zip(requests, plain, ends[: len(requests)], ends[len(requests) :], least, strict=True)
    return [
        (before, None if one.heat_derating is None else InHeat(one.heat_derating, before, *rest))
        for one, before, *rest in rows
    ]


def _at(request: SurgeFeasibilityRequest, end: str) -> SurgeFeasibilityRequest | None:
    """Return the request with what heat leaves at one end; None where it is too little."""
    heat = request.heat_derating
    if heat is None or request.inverter is None:
        return None
    ends = {"high": heat.power_percent_high, "low": heat.power_percent_low, "worst": heat.worst}
    part = ends[end] / 100.0
    if part < LEAST_LEFT:
        return None
    # Two counts of the same heat: the lesser part is left, not their product.
    counted = left_in_the_heat(request.inverter.derating)
    return with_less(request, min(part, counted) / counted, 1.0 if end == "high" else part)


def _solved(requests: Sequence[SurgeFeasibilityRequest | None]) -> list[Weighed | None]:
    """Return what those that run are made of, solved together, what is alike once."""
    keys = [None if one is None else starting(one) for one in requests]
    alike = {
        key: one
        for key, one in zip(keys, requests, strict=True)
        if key is not None and one is not None
    }
    found = dict(zip(alike, weighed_starts(list(alike.values())), strict=True))
    return [None if key is None else found[key] for key in keys]
