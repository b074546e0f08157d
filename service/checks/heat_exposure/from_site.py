"""The check's request worked out of what a site assessment knows: one unit stands for all."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.checks.heat_exposure.climate_questions import of_the_climate
from service.checks.heat_exposure.request import HeatedOutage, HeatExposureRequest
from service.facts import Candidate, Home, OperatingLimits, Site, site_climate
from service.findings import AskBy, Question

_UNIT, _PLACE, _CLIMATE = "/candidates/*/unit", "/home/battery_place", "/place/latitude"
_CURVE = "/candidates/*/derating"
_SIZE = Question(
    pointer=_UNIT,
    label="the size of a unit",
    question="How wide, high and deep is one unit? Which colour is it, and what does it weigh?",
    ask_by=AskBy.RECORD,
    can_change_verdict=False,
    why="Sun and air heat a unit by its faces and its weight.",
)
#: A unit of some size, white and heavy, to try what the answer would settle [in, lb].
_SOME_UNIT = {"width": 30.0, "height": 40.0, "depth": 8.0, "colour": "white", "mass": 250.0}
#: Ends of where a unit may hang: a hot garage, and a shaded wall.
_PLACES = (
    {"kind": "garage"},
    {"kind": "outdoors", "walls": [{"id": "shaded", "facing": 0.0, "full_shade": True}]},
)
#: Ends of a curve: all of the power however hot, and none above freezing [degF, %].
_CURVES = ([{"temperature": 212.0, "percent": 100.0}], [{"temperature": 32.0, "percent": 100.0}])


def from_site(site: Site, candidate: Candidate | None, _answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it."""
    if candidate is None:
        return FromSite(None, ("/candidates",), {})
    climate, places = site_climate(site)
    unit, home, wishes = candidate.unit, site.home or Home(), site.wishes
    if climate is None or unit is None:
        lacking = [_SIZE] if unit is None else []
        lacking += [of_the_climate(None, _CLIMATE)] if climate is None else []
        trials = {_UNIT: (_SOME_UNIT,)} if unit is None else {}
        return FromSite(None, tuple(one.pointer for one in lacking), {}, trials, tuple(lacking))
    # Every hour of the day, unless both ends of the outage are known.
    stated = wishes.start_hour is not None and wishes.target_hours is not None
    request = HeatExposureRequest(
        climate=climate,
        unit=unit,
        place=home.battery_place,
        limits=candidate.limits or OperatingLimits(),
        derating=candidate.derating,
        outage=HeatedOutage(start_hour=wishes.start_hour, hours=wishes.target_hours)
        if stated
        else HeatedOutage(),
        extreme_rise=site.place.extreme_rise,
        wall_air_rise=home.battery_air_rise,
        outdoor_offset=site.place.outdoor_offset,
    )
    pointers = places | {
        "/unit": _UNIT,
        "/limits": "/candidates/*/limits",
        "/derating": _CURVE,
        "/place": _PLACE,
        "/wall_air_rise": "/home/battery_air_rise",
        "/extreme_rise": "/place/extreme_rise",
        "/outdoor_offset": "/place/outdoor_offset",
    }
    return FromSite(request, (), pointers, {_PLACE: _PLACES, _CURVE: _CURVES})
