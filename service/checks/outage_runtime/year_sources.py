"""Sources behind weather, sun, generator and the chance of riding through."""

from __future__ import annotations

from collections.abc import Iterator

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.year_rules import year_rules
from service.climate import cite_county, cite_site, cite_tier
from service.facts import CountyClimate
from service.published import Source, load, resolve

_TIERS = ("A", "B", "C")
#: Rows of defaults that are no assumption: nobody is asked for them, and they act all the same.
_SUN = ("solar_inverter_efficiency", "sun_reconnect_s")
_CONDITIONING = ("cooling_gain_k", "heating_gain_k", "oversize", "cooling_power_slope")


def _cited(source_id: str) -> Source:
    table, key, column = resolve(source_id)
    return table.cite(key) if column is None else table.cite(key, column)


def year_sources(case: Judgement) -> Iterator[Source]:
    """Return the tables that rules and results of the year stand on."""
    for rule in year_rules(case.request):
        yield from (_cited(source) for source in rule.sources)
    column = case.year
    if column is None:
        return
    facts, answering = column.course.facts, column.answering
    if answering is not None and answering.weather.id != "own_year":
        yield cite_site(answering.weather.id)
        if answering.tier in _TIERS:
            yield cite_tier(answering.tier)
        climate = case.request.climate
        if isinstance(climate, CountyClimate):
            yield cite_county(climate.state, climate.county)
    defaults = load("outage_defaults")
    if facts.sun is not None:
        yield from (defaults.cite(name, "value") for name in _SUN)
        if any(plane.direct for plane in facts.sun.planes):
            yield defaults.cite("dc_charge_efficiency", "value")
    if facts.units:
        yield from (load("conditioning_defaults").cite(name) for name in _CONDITIONING)
    kinds = load("outage_kinds")
    yield from (kinds.cite(key) for key in kinds.rows)
    yield from (load("eia_reliability").cite(str(year)) for year in range(2018, 2023))
