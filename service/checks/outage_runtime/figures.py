"""Numbers for others: what the site needs of any battery, what an answer shows."""

from __future__ import annotations

import numpy as np

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.arguments import SEASONS, arguments
from service.checks.outage_runtime.from_site import from_site
from service.checks.outage_runtime.lane_inputs import profiles_of
from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest
from service.checks.outage_runtime.running_power import ALL, running_power
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
    daily = profiles_of(arrays)[0].energy
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
        part = site.wishes.target_hours / 24
        found.append(
            Figure(
                id="target-energy-typical",
                label="Energy to the target, typical use, before losses",
                value=float(by_level[1]) / _KWH * part,
                unit="kWh",
            )
        )
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
                id="running-power-two",
                label="Running power, all-day loads and the two largest others, high use",
                value=float(power["power_two"][:, ALL, 2].max()) / 1000,
                unit="kW",
            ),
        ]
    return found


def figures(answer: OutageRuntimeAnswer) -> list[Figure]:
    """Return the hours that the assessment shows."""
    return [
        Figure(
            id="hours-low",
            label="Hours at high use, end of warranty, from the start charge",
            value=answer.hours_low,
            unit="h",
        ),
        Figure(
            id="hours-typical",
            label="Hours at typical use, now, from the start charge",
            value=answer.hours_typical,
            unit="h",
        ),
        Figure(
            id="hours-high",
            label="Hours at low use, now, from full",
            value=answer.hours_high,
            unit="h",
        ),
    ]
