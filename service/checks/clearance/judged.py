"""A place judged: every rule held against it, and the verdict that they come to."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.clearance.energy_rules import energy_rules
from service.checks.clearance.fit import Fit, fit_of
from service.checks.clearance.hanging_rules import hanging_rules
from service.checks.clearance.hazard_rules import hazard_rules
from service.checks.clearance.held import Held, as_adopted
from service.checks.clearance.place_rules import place_rules
from service.checks.clearance.placed_units import placed_rules
from service.checks.clearance.position_rules import position_rules
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers, numbers_of
from service.checks.clearance.spots import Spot, spots_of
from service.findings import Verdict, best, rank, worst


class Judged(NamedTuple):
    """A spot with all rules held against it."""

    spot: Spot
    fit: Fit
    held: list[Held]
    hanging: list[Held]
    verdict: Verdict

    @property
    def placed(self) -> int:
        """How many units stand there."""
        return len(self.fit.solved.arrangement.positions)


def judge(
    request: ClearanceRequest,
    rules: RuleNumbers,
    spot: Spot,
    fit: Fit | None = None,
    hanging: list[Held] | None = None,
) -> Judged:
    """Return a spot judged.

    Parameters
    ----------
    request : ClearanceRequest
    rules : RuleNumbers
    spot : Spot
    fit : Fit, optional
        Where it is known already.
    hanging : list of Held, optional
        What hanging and carrying take, where that is known already.
    """
    found = fit_of(request, rules, spot) if fit is None else fit
    hung = hanging_rules(request, rules, spot) if hanging is None else hanging
    held = [
        as_adopted(one, request)
        for one in (
            *position_rules(request, rules, spot, found),
            *placed_rules(request, rules, spot),
            *energy_rules(request, rules, spot),
            *place_rules(request, rules, spot),
            *hazard_rules(request, rules, spot, found),
            *hung,
        )
    ]
    return Judged(spot, found, held, hung, worst(one.verdict for one in held))


def judge_all(request: ClearanceRequest, fits: dict[str, Fit] | None = None) -> list[Judged]:
    """Return every spot of a request judged; `fits` holds what is known already, by pointer."""
    rules = numbers_of(request)
    known = fits or {}
    return [judge(request, rules, spot, known.get(spot.pointer)) for spot in spots_of(request)]


def verdict_of(judged: list[Judged]) -> Verdict:
    """Return the verdict of a request: that of its best place; of none it is undetermined."""
    return best(one.verdict for one in judged)


def chosen_of(judged: list[Judged]) -> Judged:
    """Return the place that stands for the answer: best verdict, most units, least to be done."""
    return max(
        judged,
        key=lambda one: (
            rank(one.verdict),
            one.placed,
            -sum(held.condition is not None for held in one.held),
        ),
    )
