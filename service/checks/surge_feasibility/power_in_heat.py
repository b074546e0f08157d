"""The same starts on the hottest days, when heat leaves a part of the inverter's power.

Nobody prints what heat leaves of a surge rating: at the high end of the estimate it is whole, at
the low end and at the worst it falls as the continuous rating does. What starts at the worst end
starts at the others, so that they are solved only where the worst one changes something.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from service.checks.surge_feasibility.request import SurgeFeasibilityRequest, with_less
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


def in_heat(
    requests: Sequence[SurgeFeasibilityRequest], plain: Sequence[Weighed], *, shown: bool = False
) -> list[InHeat | None]:
    """Return how each request stands on the hottest days; None where no heat was stated.

    Parameters
    ----------
    requests : sequence of SurgeFeasibilityRequest
    plain : sequence of Weighed
        Of each, with all of its power.
    shown : bool
        Whether every end is shown, though the worst one changes nothing.
    """
    least = _solved([_at(one, "worst") for one in requests])
    looked_at = [
        one.heat_derating is not None and (shown or changes(before, after))
        for one, before, after in zip(requests, plain, least, strict=True)
    ]
    ends = [
        _solved(
            [
                _at(one, end) if wanted else None
                for one, wanted in zip(requests, looked_at, strict=True)
            ]
        )
        for end in ("high", "low")
    ]
    return [
        None if one.heat_derating is None else InHeat(one.heat_derating, before, high, low, after)
        for one, before, high, low, after in zip(requests, plain, *ends, least, strict=True)
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
    """Return what those that run are made of, solved together."""
    found = iter(weighed_starts([one for one in requests if one is not None]))
    return [None if one is None else next(found) for one in requests]
