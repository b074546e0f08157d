"""A place judged: every rule held against it, and the verdict that they come to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from service.checks.clearance.energy_rules import energy_rules
from service.checks.clearance.fit import Fit, fit_of
from service.checks.clearance.hanging_rules import hanging_rules
from service.checks.clearance.hazard_rules import hazard_rules
from service.checks.clearance.held import Held, as_adopted
from service.checks.clearance.kept_rules import kept_rules
from service.checks.clearance.place_rules import place_rules
from service.checks.clearance.placed_units import placed_rules
from service.checks.clearance.position_rules import position_rules
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers, numbers_of
from service.checks.clearance.spots import Spot, spots_of
from service.findings import Verdict, best, rank, worst

#: Rules that hang on no place of a unit: listing and energies, what the place is and how far units
#: stand out there, what hanging and carrying take.
Aside = Mapping[str, list[Held]]
ASIDE: Final[Mapping[str, Callable[[ClearanceRequest, RuleNumbers, Spot], list[Held]]]] = {
    "energy": energy_rules,
    "place": place_rules,
    "hanging": hanging_rules,
}


def left_by(aside: Aside) -> Verdict:
    """Return the best verdict that rules held aside leave to a place."""
    return worst((Verdict.PASS, *(one.verdict for rows in aside.values() for one in rows)))


class Judged(NamedTuple):
    """A spot with all rules held against it."""

    spot: Spot
    fit: Fit
    held: list[Held]
    aside: Aside
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
    known: Aside = MappingProxyType({}),
    *,
    at_best: Verdict = Verdict.PASS,
) -> Judged:
    """Return a spot judged.

    Parameters
    ----------
    request : ClearanceRequest
    rules : RuleNumbers
    spot : Spot
    fit : Fit, optional
        Where it is known already.
    known : Aside, optional
        What is held already.
    at_best : Verdict, optional
        The best that is asked for: rules that are no worse than it are left out.
    """
    found = fit_of(request, rules, spot) if fit is None else fit

    def adopted(rows: list[Held]) -> list[Held]:
        return [as_adopted(one, request) for one in rows]

    aside = {
        name: known[name] if name in known else adopted(of(request, rules, spot))
        for name, of in ASIDE.items()
    }
    # Of what the places keep nothing is worse than conditional.
    kept = kept_rules(request, rules, spot, found) if at_best is Verdict.PASS else []
    held = [
        *adopted(position_rules(request, rules, spot, found)),
        *adopted(kept),
        *adopted(placed_rules(request, rules, spot)),
        *aside["energy"],
        *aside["place"],
        *adopted(hazard_rules(request, rules, spot, found)),
        *aside["hanging"],
    ]
    return Judged(spot, found, held, aside, worst(one.verdict for one in held))


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
