"""What to ask next of weather, sun and generator."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.request import OutageRuntimeRequest, changed
from service.checks.outage_runtime.variants import ranks_of
from service.checks.outage_runtime.year_arguments import (
    chosen_climate,
    joins,
    needs_weather,
    perhaps_lit,
)
from service.facts import (
    CountyClimate,
    PointClimate,
    SiteClimate,
    ZoneClimate,
)
from service.findings import AskBy, Question

#: Climate sites tried where the place is not known: much sun and heat, little sun and cool.
_ENDS = (SiteClimate(site="daggett"), SiteClimate(site="crescent_city"))


def _flips(case: Judgement, variants: Sequence[OutageRuntimeRequest], *, reruns: bool) -> bool:
    return reruns and any(rank != case.rank() for rank in ranks_of(variants))


def _place(case: Judgement, *, reruns: bool) -> Iterator[Question]:
    request = case.request
    if perhaps_lit(request) and request.climate is None:
        yield Question(
            pointer="/climate",
            label="the place",
            question="Where is the home: latitude, longitude and elevation, on the coast, in a "
            "valley, in the desert or in the mountains?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=False,
            why="If the solar is backed up, its sun is counted by the weather of the place.",
        )
    if not needs_weather(request):
        return
    choice, climate = chosen_climate(request), request.climate
    if choice.barred is not None:
        yield Question(
            pointer="/climate",
            label="the place",
            question="Where is the home: latitude, longitude and elevation, on the coast, in a "
            "valley, in the desert or in the mountains?"
            if choice.barred != "climate-too-far"
            else "No climate site is near: which 8,760 hourly values of sun and temperature stand "
            "for the place?",
            ask_by=AskBy.RECORD if choice.barred == "climate-too-far" else AskBy.TELEPHONE,
            can_change_verdict=_flips(
                case, [changed(request, climate=site) for site in _ENDS], reruns=reruns
            ),
            why="Sun, heating and cooling cannot be counted without the weather of the place.",
        )
    elif isinstance(climate, (CountyClimate, ZoneClimate)):
        sites = [SiteClimate(site=one.weather.id) for one in choice.answering]
        yield Question(
            pointer="/climate",
            label="the home's position",
            question="Where is the home: latitude, longitude and elevation, on the coast, in a "
            "valley, in the desert or in the mountains?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=_flips(
                case, [changed(request, climate=site) for site in sites], reruns=reruns
            ),
            why="No more than the county or zone is known; the worst of its climate sites answers.",
        )
    elif isinstance(climate, PointClimate) and climate.terrain is None:
        yield Question(
            pointer="/climate/terrain",
            label="the lie of the land",
            question="Is the home on the coast, in an inland valley, in the Central Valley, in the "
            "high or low desert, or in the mountains?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=False,
            why="A site of the same ground stands better for it than a nearer one of another.",
        )


def _backed_up(case: Judgement) -> Iterator[Question]:
    solar = case.request.solar
    if solar is None or solar.backed_up is not None:
        return
    if not any(array.dc_kw > 0 for array in solar.arrays):
        return
    yield Question(
        pointer="/solar/backed_up",
        label="whether the solar is backed up",
        question="Is the solar connected behind the transfer, on the side that the battery backs "
        "up?",
        ask_by=AskBy.PHOTO,
        can_change_verdict=False,
        range=[False, True],
        why="Solar on the grid's side is dark in an outage; it is taken as such until known.",
    )


def _connection(case: Judgement) -> Iterator[Question]:
    generator = case.request.generator
    if generator is None or generator.connection is not None:
        return
    yield Question(
        pointer="/generator/connection",
        label="how the generator is connected",
        question="Does the generator feed a listed input of the battery's inverter, or a transfer "
        "switch?",
        ask_by=AskBy.PHOTO,
        can_change_verdict=False,
        range=["transfer_switch", "inverter_input"],
        why="Only on the inverter's own input can it charge the battery; it is not counted until "
        "known.",
    )


def _engine(case: Judgement) -> Iterator[Question]:
    generator = case.request.generator
    if generator is None or not joins(case.request):
        return
    if generator.quality_class is None or generator.voltage_distortion_percent is None:
        yield Question(
            pointer="/generator/quality_class"
            if generator.quality_class is None
            else "/generator/voltage_distortion_percent",
            label="the generator's quality",
            question="Which performance class and which voltage distortion does the generator's "
            "data sheet state?",
            ask_by=AskBy.PHOTO,
            can_change_verdict=False,
            why="A rough frequency or voltage keeps the inverter from taking the generator.",
        )


def year_questions(case: Judgement, *, reruns: bool) -> list[Question]:
    """Return the questions of weather, sun and generator; shade is asked with the defaults.

    Those of a closed choice claim nothing here: `tried` claims them; the place is tried by sites.
    """
    place = _place(case, reruns=reruns)
    return [*place, *_backed_up(case), *_connection(case), *_engine(case)]
