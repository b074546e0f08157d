"""Numbers for others: what the site needs of any battery, what an answer shows."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.arguments import SEASONS, arguments
from service.checks.outage_runtime.from_site import from_site
from service.checks.outage_runtime.lane_inputs import HORIZON, profiles_of
from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest
from service.checks.outage_runtime.running_power import ALL, running_power
from service.checks.outage_runtime.schedule import walk
from service.checks.outage_runtime.year_course import course_of, daily_energy
from service.checks.outage_runtime.year_facts import YearFacts
from service.facts import Battery, Candidate, Site, UsableEnergy
from service.findings import Figure

_KWH = 3.6e6
_LEVELS = ("low", "typical", "high")
#: Any battery does: what the loads need does not depend on it.
_ANY = Candidate(id="any", battery=Battery(energy=UsableEnergy(kwh=1.0)))


def needs(site: Site) -> list[Figure]:
    """Return the energy of a day and the running power of the chosen loads, worse season."""
    request = from_site(site, _ANY, {}).request
    if not isinstance(request, OutageRuntimeRequest):
        return []
    arrays = arguments([request])
    season = None if site.wishes.season is None else SEASONS.index(site.wishes.season)
    daily = _daily(arrays)
    by_level = daily.max(axis=1) if season is None else daily[:, season]
    found = [
        Figure(
            id=f"daily-energy-{level}",
            label=f"Energy of a day, {level} use",
            value=float(energy) / _KWH,
            unit="kWh",
        )
        for level, energy in zip(_LEVELS, by_level, strict=True)
    ]
    if site.wishes.target_hours is not None:
        found += _to_target(arrays, season, site.wishes.target_hours)
    if isinstance(request.use, LoadsUse):
        asked = np.arange(2) if season is None else np.array([season])
        none = np.full(asked.size, -1)
        power = running_power(arrays, np.zeros(asked.size, dtype=np.int64), asked, none)
        found += [
            Figure(
                id="running-power-one",
                label="Running power, all-day loads and the largest other, typical use",
                value=float(power["power_one"][:, ALL, 1].max()) / 1000,
                unit="kW",
            ),
            Figure(
                id="running-power-all",
                label="Running power, everything at once, high use",
                value=float(power["power_total"][:, ALL, 2].max()) / 1000,
                unit="kW",
            ),
        ]
    return found


def _daily(arrays: Arrays) -> NDArray[np.float64]:
    """Return the energy of a day by level of use and season, shape (3, 2) [J]."""
    facts: YearFacts | None = arrays["year"][0]
    profile = profiles_of(arrays)[0]
    if facts is None:
        return profile.energy
    climate = facts.answering[0] if facts.answering else None
    return daily_energy(course_of(facts, climate, profile, arrays["start_second"]))


def _to_target(arrays: Arrays, season: int | None, hours: float) -> list[Figure]:
    """Return the energy that the loads take from the start of the outage to the target."""
    profile = profiles_of(arrays)[0]
    horizon = np.array([hours * 3600.0])
    duration, interval = walk(
        profile.edges[None], arrays["start_second"], horizon, int(np.ceil(hours / 24))
    )
    taken = profile.power.sum(axis=2)[..., interval[:, 0]] @ duration[:, 0]
    chosen = taken.max(axis=1) if season is None else taken[:, season]
    return [
        Figure(
            id=f"target-energy-{level}",
            label=f"Energy from the start to the target, {level} use, before losses",
            value=float(energy) / _KWH,
            unit="kWh",
        )
        for level, energy in zip(_LEVELS, chosen[:3], strict=True)
    ]


def figures(answer: OutageRuntimeAnswer) -> list[Figure]:
    """Return the hours that the assessment shows."""
    shown = (
        (
            "hours-low",
            "Hours at high use, end of warranty, from the start charge",
            answer.hours_low,
        ),
        ("hours-typical", "Hours at typical use, now, from the start charge", answer.hours_typical),
        ("hours-high", "Hours at low use, now, at best charge", answer.hours_high),
    )
    return [
        Figure(id=name, label=label, value=value, unit="h", at_least=value >= _simulated(answer))
        for name, label, value in shown
    ]


def _simulated(answer: OutageRuntimeAnswer) -> float:
    """Return the hours that were simulated [h]."""
    return max(answer.target_hours or 0.0, HORIZON / 3600)
