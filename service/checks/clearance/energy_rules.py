"""Listing and energy: one unit, all of a location, all of the property."""

from __future__ import annotations

from typing import Final

from service.checks.clearance.energy_limit import over
from service.checks.clearance.held import Held, cited
from service.checks.clearance.location import LOCATION_WORDS, location_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import LOCATIONS, RuleNumbers
from service.checks.clearance.spots import Spot
from service.codes.siting_rules import aggregate_rule, siting_energy
from service.facts.siting_readings import LocationClass
from service.facts.siting_unit import SitingUnit
from service.findings import Verdict
from service.quantities.units import si

_J_PER_KWH = 3.6e6
_GARAGES: Final[frozenset[LocationClass]] = frozenset(("attached_garage", "detached_garage"))


def energy_rules(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> list[Held]:
    """Return how listing and energies stand at a spot."""
    return [
        _listing(request, rules),
        _one_unit(request, rules),
        _all_units(request, rules, spot),
    ]


def _listing(request: ClearanceRequest, rules: RuleNumbers) -> Held:
    rule, sources = "unit-listing", cited(rules.chain, "listing-from-energy")
    # What holds less than this needs no listing as a storage system.
    least = siting_energy("listing-from-energy", rules.chain)
    asked = [kind for kind in request.units if not 0.0 < unit_energy(kind) < least]
    unlisted = [kind.id for kind in asked if kind.listed is False]
    unknown = [kind.id for kind in asked if kind.listed is None]
    if unlisted:
        words = f"Not listed to UL 9540 for homes: {', '.join(unlisted)}."
        return Held(rule, Verdict.FAIL, words, sources=sources)
    if unknown:
        words = f"Whether it is listed to UL 9540 for homes is not known: {', '.join(unknown)}."
        return Held(rule, Verdict.UNDETERMINED, words, sources=sources)
    words = "Every kind is stated to be listed to UL 9540 for homes; its label says so."
    if len(asked) < len(request.units):
        words = (
            "What holds less than 1 kWh needs no listing; every other kind is stated to be listed."
        )
    return Held(rule, Verdict.PASS, words, sources=sources)


def unit_energy(kind: SitingUnit) -> float:
    """Return the energy of what is listed as one unit [J]; 0 where it is not known."""
    boxes = kind.stack.levels if kind.stack.one_cabinet else 1
    return 0.0 if kind.energy is None else si(kind.energy, "kWh") * boxes


def _one_unit(request: ClearanceRequest, rules: RuleNumbers) -> Held:
    rule, limit = "unit-energy", rules.unit_energy / _J_PER_KWH
    sources = cited(rules.chain, "unit-energy")
    unknown = [kind.id for kind in request.units if kind.energy is None]
    most = max(request.units, key=unit_energy)
    stated = unit_energy(most) / _J_PER_KWH
    if over(unit_energy(most), rules.unit_energy):
        words = f"A unit of the kind {most.id} holds {stated:g} kWh; {limit:g} kWh is allowed."
        return Held(rule, Verdict.FAIL, words, stated, limit, "kWh", sources)
    if unknown:
        words = f"The energy of a unit is not known: {', '.join(unknown)}."
        return Held(rule, Verdict.UNDETERMINED, words, None, limit, "kWh", sources)
    words = f"The largest unit holds {stated:g} kWh; {limit:g} kWh is allowed."
    return Held(rule, Verdict.PASS, words, stated, limit, "kWh", sources)


def counted_together(rules: RuleNumbers, location: LocationClass) -> frozenset[LocationClass]:
    """Return the classes of location whose storage counts with that of one of them."""
    if rules.per_property:
        return frozenset(LOCATIONS)
    if rules.garages_together and location in _GARAGES:
        return _GARAGES
    return frozenset((location,))


def existing_energy(
    request: ClearanceRequest, rules: RuleNumbers, location: LocationClass
) -> float:
    """Return the energy that is there already and counts with a location [J]."""
    together = counted_together(rules, location)
    return sum(si(one.energy, "kWh") for one in request.existing if one.where in together)


def _all_units(request: ClearanceRequest, rules: RuleNumbers, spot: Spot) -> Held:
    rule = "location-energy"
    by_location: dict[LocationClass, float] = {}
    for kind in request.units:
        where = location_of(spot, kind)
        energy = si(kind.energy or 0.0, "kWh") * kind.stack.levels * kind.count
        by_location[where] = by_location.get(where, 0.0) + energy
    if rules.per_property:
        # One limit for all: that of the first location, whose number the others share or exceed.
        least = min(by_location, key=rules.location_energy.__getitem__)
        by_location = {least: sum(by_location.values())}
    found = []
    for where, added in by_location.items():
        there = existing_energy(request, rules, where)
        limit, total = rules.location_energy[where], there + added
        found.append((total / limit, where, there, total, limit))
    _, where, there, total, limit = max(found)
    sources = cited(rules.chain, aggregate_rule(where))
    together = counted_together(rules, where)
    named = LOCATION_WORDS[where]
    if len(together) > 1:
        named = "the property" if rules.per_property else "all garages and accessory buildings"
    actual, allowed = total / _J_PER_KWH, limit / _J_PER_KWH
    if over(total, limit):
        words = (
            f"With {there / _J_PER_KWH:g} kWh there already {named} would hold {actual:g} kWh; "
            f"above {allowed:g} kWh the fire code's general rules for storage apply."
        )
        return Held(rule, Verdict.FAIL, words, actual, allowed, "kWh", sources)
    if any(kind.energy is None for kind in request.units):
        words = f"What {named} would hold is not known; {allowed:g} kWh is allowed."
        return Held(rule, Verdict.UNDETERMINED, words, None, allowed, "kWh", sources)
    words = f"All storage of {named} holds {actual:g} kWh; {allowed:g} kWh is allowed."
    return Held(rule, Verdict.PASS, words, actual, allowed, "kWh", sources)
