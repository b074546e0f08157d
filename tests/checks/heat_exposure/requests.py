"""Requests of an invented unit in the heat, to vary, and their answers."""

import json
from copy import deepcopy
from typing import Any

from service.checks.heat_exposure import CHECK
from service.checks.heat_exposure.answer import HeatExposureAnswer, HeatYear
from service.checks.heat_exposure.request import HeatExposureRequest
from service.http.answering import Answering
from service.http.problem import Problem

Body = dict[str, Any]

ANSWERING = Answering(CHECK)
#: A wall of which everything is known.
WALL: Body = {"id": "west", "facing": 270, "height": 120, "full_shade": False, "ground": "ordinary"}
KNOWN: Body = {
    "climate": {"kind": "site", "site": "riverside"},
    "unit": {
        "width": 38,
        "height": 28,
        "depth": 14,
        "standoff": 2,
        "bottom": 24,
        "absorptance": 0.45,
        "lag_hours": 3,
    },
    "place": {"kind": "outdoors", "walls": [WALL]},
    "limits": {"highest": 160, "lowest": -4},
    "derating": [{"temperature": 104, "percent": 100}, {"temperature": 160, "percent": 50}],
    "outage": {"start_hour": 16, "hours": 8, "rated_kw": 5, "usable_kwh": 12, "need_kw": 2},
    "extreme_rise": 0,
    "wall_air_rise": 0,
}


def body(**more: Any) -> Body:
    """Return the request with some fields otherwise; None leaves a field out."""
    made = deepcopy(KNOWN) | more
    return {name: value for name, value in made.items() if value is not None}


def unit(**more: Any) -> Body:
    """Return the request with facts of the unit otherwise; None leaves one out."""
    made = KNOWN["unit"] | more
    return body(unit={name: value for name, value in made.items() if value is not None})


def walls(*changes: Body) -> Body:
    """Return the request with walls that differ from the known one; None leaves a fact out."""
    made = [WALL | {"id": f"wall-{at}"} | change for at, change in enumerate(changes)]
    kept = [{name: value for name, value in wall.items() if value is not None} for wall in made]
    return body(place={"kind": "outdoors", "walls": kept})


def request_of(made: Body) -> HeatExposureRequest:
    """Return the request as it comes in."""
    request, _ = ANSWERING.take(json.dumps(made).encode())
    assert isinstance(request, HeatExposureRequest)
    return request


def answer(made: Body, *includes: str) -> HeatExposureAnswer:
    """Return the answer to a request."""
    found: HeatExposureAnswer = CHECK.run(request_of(made), frozenset(includes))
    return found


def year_of(found: HeatExposureAnswer) -> HeatYear:
    """Return the year of an answer that has one."""
    assert isinstance(found.year, HeatYear)
    return found.year


def rules(found: HeatExposureAnswer) -> dict[str, str]:
    """Return the verdict of every rule."""
    return {finding.rule: str(finding.verdict) for finding in found.findings}


def refused(made: Body) -> list[str]:
    """Return the pointers at which a request is refused."""
    try:
        request_of(made)
    except Problem as problem:
        return [error.pointer for error in problem.errors]
    return []
