"""A rule held against a place: how it stands, and what must be so for it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Final, NamedTuple

from service.checks.clearance.request import ClearanceRequest
from service.codes.siting_rules import find_siting_rule
from service.findings import Finding, Verdict
from service.published import Source, load
from service.published.source import Standing

#: Rules whose limits come of a code that must be confirmed as adopted -> what they are called.
LABELS: Final = {
    "opening-distance": "the distance to doors and windows",
    "unit-spacing": "the spacing between units",
    "unit-energy": "the energy of one unit",
    "location-energy": "the energy of a location",
    "working-space": "the working space",
    "walkway": "the way that must stay",
    "gas-vent-distance": "the distance to the gas vent",
    "equipment-space": "the room of other equipment",
    "vehicle-protection": "the protection from vehicles",
    "handle-height": "the height of handles",
    "room-use": "the rooms allowed",
    "fire-detection": "the fire detection",
    "flood-height": "the height above a flood",
    "pool-distance": "the distance to a pool",
}


class Held(NamedTuple):
    """One rule held against a place.

    Attributes
    ----------
    rule : str
    verdict : Verdict
    statement : str
    actual, limit : float or None
    unit : str or None
    sources : tuple of Source
    condition : str or None
        What must be so where it is conditional; None: nothing beside its number as adopted.
    confirm : bool
        Whether its number must be confirmed as adopted.
    """

    rule: str
    verdict: Verdict
    statement: str
    actual: float | None = None
    limit: float | None = None
    unit: str | None = None
    sources: tuple[Source, ...] = ()
    condition: str | None = None
    confirm: bool = False

    def finding(self) -> Finding:
        """Return it as the answer shows it."""
        return Finding(
            rule=self.rule,
            verdict=self.verdict,
            statement=self.statement,
            actual=self.actual,
            limit=self.limit,
            unit=self.unit,
            sources=[source.id for source in self.sources],
        )


@lru_cache(maxsize=1024)
def cited(chain: tuple[str, ...], *rules: str) -> tuple[Source, ...]:
    """Return the sources of some rules of table siting_rules in a chain of editions."""
    found = (find_siting_rule(rule, chain) for rule in rules)
    return tuple(rule.cite() for rule in found if rule is not None)


@lru_cache(maxsize=1024)
def cells(table: str, *rows: str) -> tuple[Source, ...]:
    """Return the sources of some rows of a table."""
    return tuple(load(table).cite(row) for row in rows)


def as_adopted(held: Held, request: ClearanceRequest) -> Held:
    """Return a rule no better than its number is known, unless somebody confirmed it."""
    if held.rule not in LABELS or held.rule in request.confirmed_rules:
        return held
    if held.verdict not in (Verdict.PASS, Verdict.CONDITIONAL):
        return held
    for source in held.sources:
        if source.standing is not Standing.PUBLISHED:
            return Held(held.rule, Verdict.CONDITIONAL, *held[2:-1], confirm=True)
    return held


def conditions_of(held: Iterable[Held]) -> list[str]:
    """Return what must be so: what a person does or confirms, then the numbers as adopted."""
    conditional = [one for one in held if one.verdict is Verdict.CONDITIONAL]
    found = [one.condition for one in conditional if one.condition is not None]
    confirmed = [LABELS[one.rule] for one in conditional if one.confirm]
    if confirmed:
        found.append(
            "these numbers are confirmed against the code as adopted: "
            + ", ".join(dict.fromkeys(confirmed))
        )
    return list(dict.fromkeys(found))
