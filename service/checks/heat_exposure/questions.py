"""What to ask next: where it hangs, what shades it, what the data sheet allows."""

from __future__ import annotations

from typing import Any, NamedTuple

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.climate_questions import WHERE, sites_to_try
from service.checks.heat_exposure.cold_end import coldest_hour
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import degf
from service.checks.heat_exposure.verdicts import Judged
from service.facts import (
    CountyClimate,
    DesignDay,
    DesignDayAtSite,
    GaragePlace,
    OutdoorPlace,
    ZoneClimate,
)
from service.findings import AskBy, Question, Verdict
from service.published.garage_offsets import garage_offsets
from service.published.heat_defaults import heat_defaults
from service.published.sunlit_faces import ground_reflectances

_LEAST_F, _MOST_F = -76.0, 212.0
_F_PER_K = 1.8
#: How far beyond the ends of what is known a limit is tried [degF].
_BEYOND = 2.0


class Asked(NamedTuple):
    """A question, the values that its pointer is tried with, and whether it may be left out.

    A minor one is asked where an answer changes the verdict, and not otherwise.
    """

    pointer: str
    label: str
    question: str
    ask_by: AskBy
    values: tuple[Any, ...]
    why: str
    minor: bool = False


def asked_of(request: HeatExposureRequest, climate: ClimateDays, judged: Judged) -> list[Asked]:
    """Return what is not known."""
    return [
        *_of_the_weather(request, climate),
        *_of_the_place(request, judged),
        *_of_the_sheet(request, climate, judged),
        *_of_the_unit(request),
        *_of_the_air(request),
    ]


def questions(asked: list[Asked], tried: list[list[Verdict]], verdict: Verdict) -> list[Question]:
    """Return the questions, those first whose answer changes the verdict."""
    shown = [
        Question(
            pointer=one.pointer,
            label=one.label,
            question=one.question,
            ask_by=one.ask_by,
            can_change_verdict=any(then is not verdict for then in found),
            range=_plain(one.values),
            why=one.why,
        )
        for one, found in zip(asked, tried, strict=True)
        if not one.minor or any(then is not verdict for then in found)
    ]
    return sorted(shown, key=lambda question: not question.can_change_verdict)


def _plain(values: tuple[Any, ...]) -> list[Any] | None:
    plain = bool(values) and all(isinstance(value, str | float | bool) for value in values)
    return list(values) if plain else None


def _of_the_weather(request: HeatExposureRequest, climate: ClimateDays) -> list[Asked]:
    found = []
    if isinstance(request.climate, CountyClimate | ZoneClimate):
        found.append(
            Asked(
                "/climate",
                "where the home lies",
                WHERE,
                AskBy.TELEPHONE,
                sites_to_try(request, climate),
                "Where no more is known than a county or a zone, all of its places count.",
            )
        )
    if request.extreme_rise is None and not isinstance(
        request.climate, DesignDay | DesignDayAtSite
    ):
        high = round(heat_defaults()["percentile_gap_k"].hot * _F_PER_K, 6)
        found.append(
            Asked(
                "/extreme_rise",
                "how much hotter its hottest days get",
                "By how much is a hot day of the place, by its design temperature or its record, "
                "hotter than the hottest of the days here?",
                AskBy.RECORD,
                (0.0, high),
                "A typical year has no extremes.",
                minor=True,
            )
        )
    return found


def _of_the_place(request: HeatExposureRequest, judged: Judged) -> list[Asked]:
    place = request.place
    if place is None:
        return [
            Asked(
                "/place",
                "garage or outdoors",
                "Is the unit to hang in the garage or outdoors, and on which wall?",
                AskBy.TELEPHONE,
                ({"kind": "garage"}, {"kind": "outdoors", "walls": [{"id": "any"}]}),
                "Sun heats a unit outdoors, a hot garage one indoors.",
            )
        ]
    if isinstance(place, GaragePlace):
        if place.door_faces is not None or request.wall_air_rise is not None:
            return []
        return [
            Asked(
                "/place/door_faces",
                "where the garage door looks",
                "Does the garage's vehicle door look west?",
                AskBy.TELEPHONE,
                ("west", "other"),
                "Behind a door in the evening sun a garage is hottest.",
            )
        ]
    return _of_the_wall(request, place, judged)


def _of_the_wall(request: HeatExposureRequest, place: OutdoorPlace, judged: Judged) -> list[Asked]:
    index = next(at for at, wall in enumerate(place.walls) if wall.id == judged.heat.spot.id)
    wall, at = place.walls[index], f"/place/walls/{index}"
    found = []
    if wall.facing is None:
        found.append(
            Asked(
                f"{at}/facing",
                f"where the wall {wall.id} faces",
                "Which way does the wall face? When is the sun on it?",
                AskBy.TELEPHONE,
                (0.0, 90.0, 180.0, 270.0),
                "In the afternoon sun a unit gets hottest.",
            )
        )
    if wall.full_shade is None:
        found.append(
            Asked(
                f"{at}/full_shade",
                f"what shades the wall {wall.id}",
                "Is the place in the shade the whole day, in summer too? Send photos of the "
                "morning, noon and afternoon.",
                AskBy.PHOTO,
                (True,),
                "Shade takes the direct sun off it.",
            )
        )
    if wall.ground is None:
        known = ground_reflectances()
        found.append(
            Asked(
                f"{at}/ground",
                f"the ground before the wall {wall.id}",
                "What is the ground before the wall: grass, gravel, asphalt, concrete?",
                AskBy.PHOTO,
                (min(known, key=known.__getitem__), max(known, key=known.__getitem__)),
                "Bright ground throws sun on it.",
                minor=True,
            )
        )
    if request.unit.standoff is None and (wall.screens or wall.eave):
        found.append(
            Asked(
                "/unit/standoff",
                "how far from the wall it hangs",
                "How far does its bracket keep the unit's back from the wall?",
                AskBy.RECORD,
                (0.0, 4.0),
                "What a fence or an eave shades hangs on it.",
                minor=True,
            )
        )
    return found


def _limit_values(*ends: float) -> tuple[float, ...]:
    found = (min(max(round(end, 1), _LEAST_F), _MOST_F) for end in ends)
    return tuple(dict.fromkeys(found))


def _of_the_sheet(
    request: HeatExposureRequest, climate: ClimateDays, judged: Judged
) -> list[Asked]:
    found, limits, ends = [], request.limits, judged.ends
    if limits.speak_of == "inside" and request.unit.losses is None:
        found.append(
            Asked(
                "/unit/losses",
                "the heat given off inside",
                "How many watts does the unit give off as heat at full power, by its data sheet?",
                AskBy.RECORD,
                (0.0, 500.0),
                "The limits speak of the air inside.",
            )
        )
    if limits.highest is None:
        least = limits.lowest if limits.lowest is not None else _LEAST_F
        values = (
            ()
            if ends is None
            else _limit_values(
                max(degf(ends.most) + _BEYOND, least), max(degf(ends.shown_low) - _BEYOND, least)
            )
        )
        found.append(
            Asked(
                "/limits/highest",
                "the highest temperature of its data sheet",
                "Which temperatures of the air inside the unit does the data sheet allow?"
                if limits.speak_of == "inside"
                else "Which ambient temperatures does the data sheet allow the unit to work at?",
                AskBy.RECORD,
                values,
                "Above it the unit shuts off.",
            )
        )
    if limits.lowest is None:
        coldest = coldest_hour(request, climate)
        most = limits.highest if limits.highest is not None else _MOST_F
        values = ()
        if coldest is not None:
            low, high = degf(coldest[1]) - _BEYOND, degf(coldest[0]) + _BEYOND
            values = _limit_values(min(low, most), min(high, most))
        found.append(
            Asked(
                "/limits/lowest",
                "the lowest temperature of its data sheet",
                "Which is the lowest temperature that the data sheet allows?",
                AskBy.RECORD,
                values,
                "Below it the unit shuts off.",
            )
        )
    if request.derating is None:
        found.append(_curve(judged))
    return found + _of_the_need(request)


def _curve(judged: Judged) -> Asked:
    values: tuple[Any, ...] = ()
    if judged.ends is not None:
        tried = (degf(judged.ends.most) + _BEYOND, degf(judged.ends.shown_low) - _BEYOND)
        values = tuple([{"temperature": at, "percent": 100.0}] for at in _limit_values(*tried))
    return Asked(
        "/derating",
        "the derating curve",
        "Which part of its power does the unit give at which temperature, by its data sheet?",
        AskBy.RECORD,
        values,
        "Heat takes power before it shuts the unit off.",
    )


def _of_the_need(request: HeatExposureRequest) -> list[Asked]:
    outage, found = request.outage, []
    if request.derating is None:
        return []
    if outage.need_kw is None:
        found.append(
            Asked(
                "/outage/need_kw",
                "the power needed at once",
                "How many kilowatts must it give at any time of the outage?",
                AskBy.RECORDING,
                (0.001, outage.rated_kw) if outage.rated_kw is not None else (),
                "What heat leaves is enough, or not.",
            )
        )
    elif outage.rated_kw is None:
        most = min(max(10.0 * outage.need_kw, 0.01), 1000.0)
        found.append(
            Asked(
                "/outage/rated_kw",
                "its rated power",
                "Which continuous power does its data sheet state?",
                AskBy.RECORD,
                (most, max(0.5 * outage.need_kw, 0.01)),
                "The curve states parts of it.",
            )
        )
    return found


def _of_the_unit(request: HeatExposureRequest) -> list[Asked]:
    unit, found = request.unit, []
    if isinstance(request.place, GaragePlace):
        return []
    if unit.colour is None and unit.absorptance is None:
        found.append(
            Asked(
                "/unit/colour",
                "its colour",
                "Which colour is the unit?",
                AskBy.RECORD,
                ("white", "dark"),
                "A dark face takes in twice the sun of a light one.",
            )
        )
    if unit.mass is None and unit.lag_hours is None:
        found.append(
            Asked(
                "/unit/mass",
                "its weight",
                "How much does the unit weigh?",
                AskBy.RECORD,
                (100.0, 500.0),
                "A heavy unit follows the heat of the day more slowly.",
            )
        )
    return found


def _of_the_air(request: HeatExposureRequest) -> list[Asked]:
    if request.wall_air_rise is not None:
        return []
    if isinstance(request.place, GaragePlace):
        offset = garage_offsets()["west_door"]
        return [
            Asked(
                "/wall_air_rise",
                "how hot the garage gets",
                "On hot afternoons, by how much is it hotter in the garage than the weather report "
                "says?",
                AskBy.RECORDING,
                tuple(round(one * _F_PER_K, 6) for one in (offset.low, offset.high)),
                "A thermometer there goes before a rule of thumb.",
            )
        ]
    high = round(heat_defaults()["wall_air_k"].hot * _F_PER_K, 6)
    return [
        Asked(
            "/wall_air_rise",
            "how hot the air at the wall gets",
            "On hot afternoons, by how much is it hotter at the place, in the shade, than the "
            "weather report says?",
            AskBy.RECORDING,
            (0.0, high),
            "Walls, paving and fences in the sun heat the air before them.",
        )
    ]
