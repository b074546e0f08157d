"""What to ask next of the place of the home, whose weather it is."""

from __future__ import annotations

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import CountyClimate, ZoneClimate
from service.findings import AskBy, Question

WHERE = (
    "Where is the home: latitude, longitude and elevation, on the coast, in a valley, in the "
    "desert or in the mountains?"
)
_OWN_YEAR = (
    "No climate site is near: which 8,760 hourly values of sun and temperature stand for the place?"
)


def of_the_climate(barred: str | None, pointer: str = "/climate") -> Question:
    """Return the question where no weather answers."""
    far = barred == "climate-too-far"
    return Question(
        pointer=pointer,
        label="the place",
        question=_OWN_YEAR if far else WHERE,
        ask_by=AskBy.RECORD if far else AskBy.TELEPHONE,
        can_change_verdict=True,
        why="How hot a unit gets cannot be told without the weather of the place.",
    )


def sites_to_try(request: HeatExposureRequest, climate: ClimateDays) -> tuple[dict[str, str], ...]:
    """Return the climate sites among which the home's own position would choose."""
    if not isinstance(request.climate, CountyClimate | ZoneClimate):
        return ()
    sites = [place.site for place in climate.places if place.site is not None]
    return tuple({"kind": "site", "site": site} for site in sites) if len(sites) > 1 else ()
