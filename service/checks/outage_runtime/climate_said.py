"""The typical year that answered, in customary units and in words."""

from __future__ import annotations

from typing import Literal

from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.year_facts import Answering
from service.climate import tier

_M_PER_MI = 1609.344
_M_PER_FT = 0.3048
_TIERS = ("A", "B", "C")
_Chosen = Literal["A", "B", "C", "named", "county", "zone", "own"]
_CHOSEN: dict[str, _Chosen] = {
    name: name for name in ("A", "B", "C", "named", "county", "zone", "own")
}
_WORDS = {
    "named": "named by the request; nothing says how far it is from the home.",
    "county": "the worst for this home of the sites that stand for the county; the home's own "
    "position narrows it.",
    "zone": "the worst for this home of the sites of the climate zone; the home's own position "
    "narrows it.",
    "own": "the request's own 8,760 hours.",
}


def climate_used(answering: Answering | None) -> an.ClimateUsed | None:
    """Return the typical year that answered; None where no weather enters."""
    if answering is None:
        return None
    low, high = answering.yields
    error = answering.temperature_error
    rise = answering.elevation_difference
    return an.ClimateUsed(
        site=answering.weather.id,
        name=answering.weather.name,
        chosen_by=_CHOSEN[answering.tier],
        distance_mi=None if answering.distance is None else answering.distance / _M_PER_MI,
        elevation_difference_ft=None if rise is None else rise / _M_PER_FT,
        sun_low_percent=(low - 1.0) * 100.0,
        sun_high_percent=(high - 1.0) * 100.0,
        temperature_error_f=None if error is None else error * 1.8,
        statement=_statement(answering),
    )


def _statement(answering: Answering) -> str:
    name = answering.weather.name
    if answering.tier not in _TIERS:
        return f"{name}: {_WORDS[answering.tier]}"
    miles = (answering.distance or 0.0) / _M_PER_MI
    found = tier(answering.tier)
    return f"{name}, {miles:.1f} mi from the home, tier {answering.tier}: {found.words}"
