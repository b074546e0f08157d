"""The same home under other weather, sun, generator or criterion: what each buys."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.lanes import LAYOUT
from service.checks.outage_runtime.request import OutageRuntimeRequest, changed
from service.checks.outage_runtime.variants import Outcome, outcomes
from service.checks.outage_runtime.verdict import VERDICTS
from service.checks.outage_runtime.wording import hours
from service.checks.outage_runtime.year_arguments import chosen_climate, joins, lit
from service.facts import (
    BlackStart,
    DcRestart,
    NoRestart,
    Restart,
    SiteClimate,
    with_connection,
    with_sun_backed_up,
)
from service.findings import Alternative

#: Share of the days that the alternative asks for [%]. Standing: our own choice.
MOST_DAYS = 95.0
#: Other climate sites that are shown at most.
_SITES_SHOWN = 3


class Variant(NamedTuple):
    """One thing changed: id of the alternative, its reading in words, the request."""

    id: str
    reading: str
    request: OutageRuntimeRequest


def _of_share(case: Judgement) -> Iterator[Alternative]:
    """Another share of the days to be carried: the runs are at hand."""
    share = case.request.starts_carried_percent
    if case.year is None:
        return
    if share is None or share > MOST_DAYS:
        other, name = MOST_DAYS, "most-days"
        reading = f"With {MOST_DAYS:g} of 100 days of each half of the year to be carried, not all."
    elif share < 100.0:
        other, name = 100.0, "every-day"
        reading = "With every day of the typical year to be carried."
    else:
        return
    rank, typical = case.at_share(other / 100.0)
    at_least = typical >= case.year.starts.horizon
    yield _alternative(case, Variant(name, reading, case.request), Outcome(rank, typical, at_least))


def _of_sun(case: Judgement) -> Iterator[Variant]:
    request, solar = case.request, case.request.solar
    if solar is None or not any(array.dc_kw > 0 for array in solar.arrays):
        return
    if lit(request):
        yield Variant("no-sun", "With the sun left out.", changed(request, solar=None))
    elif request.climate is not None:
        yield Variant(
            "sun-backed-up",
            "With the solar on the backed-up side.",
            changed(request, solar=with_sun_backed_up(solar, True)),
        )


def _of_generator(case: Judgement) -> Iterator[Variant]:
    request, generator = case.request, case.request.generator
    if generator is None:
        return
    if joins(request):
        yield Variant("no-generator", "Without the generator.", changed(request, generator=None))
    else:
        joined = with_connection(generator, "inverter_input")
        yield Variant(
            "generator-joins-battery",
            "With the generator on a listed input of the battery's inverter.",
            changed(request, generator=joined),
        )


#: What else may happen at the floor, as such systems usually do it, and which coupling it needs.
_RESTARTS: tuple[tuple[Restart, set[str], str, str], ...] = (
    (NoRestart(), set(), "no-restart", "With nothing that brings the bus back before the grid."),
    (
        BlackStart(least_kw=0.0, wait=5.0),
        {"ac"},
        "black-start",
        "With a black start by the sun on the AC bus, after 5 minutes of enough sun.",
    ),
    (
        DcRestart(restart_charge_percent=15.0),
        {"dc"},
        "dc-restart",
        "With a restart once DC-coupled sun has charged the battery to 15 %.",
    ),
)


def _of_floor(case: Judgement) -> Iterator[Variant]:
    """Other behaviour at the floor; it matters where time in the dark is put up with."""
    request = case.request
    if not request.dark_allowed or case.year is None or request.solar is None:
        return
    stated = type(request.restart or NoRestart())
    coupled = {array.coupling for array in request.solar.arrays if array.dc_kw > 0}
    for restart, needs, identifier, reading in _RESTARTS:
        if type(restart) is not stated and needs <= coupled:
            yield Variant(identifier, reading, changed(request, restart=restart))


def _of_place(case: Judgement) -> Iterator[Variant]:
    """Other climate sites that might stand for the home."""
    column = case.year
    if column is None or column.answering is None:
        return
    choice = chosen_climate(case.request)
    others = [
        one
        for one in (*choice.answering, *choice.beside)
        if one.weather.id != column.answering.weather.id
    ]
    for one in others[:_SITES_SHOWN]:
        yield Variant(
            "other-climate-site",
            f"With the weather of {one.weather.name} instead.",
            changed(case.request, climate=SiteClimate(site=one.weather.id)),
        )


def year_variants(case: Judgement) -> list[Variant]:
    """Return the variants of weather, sun, generator and criterion that are shown."""
    return [
        *_of_sun(case),
        *_of_generator(case),
        *_of_floor(case),
        *_of_place(case),
    ]


def _alternative(case: Judgement, variant: Variant, outcome: Outcome) -> Alternative:
    lane = LAYOUT.triples["base"].typical
    before = hours(float(case.times()[lane]), bool(case.of("at_least")[lane]))
    return Alternative(
        id=variant.id,
        reading=variant.reading,
        verdict=VERDICTS[outcome.rank],
        flips_verdict=outcome.rank != case.rank(),
        statement=f"Typical use, now: {hours(outcome.typical, outcome.at_least)} instead of "
        f"{before}.",
    )


def year_alternatives(case: Judgement) -> list[Alternative]:
    """Return the same home under other weather, sun, generator or criterion."""
    variants = year_variants(case)
    found = outcomes([variant.request for variant in variants], case.season)
    return [
        *_of_share(case),
        *(
            _alternative(case, variant, outcome)
            for variant, outcome in zip(variants, found, strict=True)
        ),
    ]
