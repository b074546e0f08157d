"""The check's request out of a site, and how an assessment stands with it."""

import json
from copy import deepcopy
from typing import Any

import msgspec
import pytest

from service.assessment.request import SiteAssessmentRequest
from service.check import FromSite
from service.checks.heat_exposure import CHECK
from service.checks.heat_exposure.request import HeatExposureRequest
from service.facts import PointClimate, SiteClimate
from service.http.problem import Problem
from tests.assessment.sites import assess, assessment, known_site, put, without
from tests.checks.heat_exposure.requests import KNOWN, WALL, Body

_ALONE = assessment([CHECK])
#: A curve that leaves all of the power however hot.
FLAT = [{"temperature": 212, "percent": 100}]


def site(**candidate: Any) -> Body:
    """Return a site of which all is known that the heat hangs on, with facts of its candidate."""
    found = known_site()
    found["place"] |= {"climate_site": "riverside", "extreme_rise": 0}
    found["home"] = found["home"] | {
        "battery_place": {"kind": "outdoors", "walls": [WALL]},
        "battery_air_rise": 0,
    }
    found["candidates"][0] |= {
        "unit": KNOWN["unit"],
        "limits": {"highest": 160, "lowest": -4},
        "derating": FLAT,
    } | candidate
    return deepcopy(found)


def made(some: Body) -> FromSite:
    """Return the check's request of a site for its candidate."""
    request = msgspec.convert(some, SiteAssessmentRequest)
    assert request.candidates
    return CHECK.from_site(request, request.candidates[0], {})


def request_of(some: Body) -> HeatExposureRequest:
    """Return the check's request of a site that has one."""
    found = made(some).request
    assert isinstance(found, HeatExposureRequest)
    return found


STANDS = [
    # facts of the candidate, verdict of the check
    ({}, "pass"),
    ({"limits": {"highest": 90, "lowest": -4}}, "fail"),
    ({"limits": None}, "undetermined"),
    ({"derating": None}, "undetermined"),
    ({"unit": None}, "undetermined"),
    ({"limits": {"highest": 160}}, "undetermined"),
    ({"derating": [{"temperature": 95, "percent": 100}, {"temperature": 180, "percent": 50}]},
     "conditional"),
]  # fmt: skip


@pytest.mark.parametrize("facts, verdict", STANDS)
def test_the_assessment_stands_as_its_heat_does(facts: Body, verdict: str) -> None:
    answer = assess(site(**facts), _ALONE)
    (check,) = answer["candidates"][0]["checks"]
    assert (check["check"], check["verdict"]) == ("heat-exposure", verdict)
    assert answer["verdict"] == verdict


@pytest.mark.parametrize(
    "pointer",
    [
        "/home/battery_place",
        "/home/battery_air_rise",
        "/place/extreme_rise",
        "/candidates/0/unit/absorptance",
        "/candidates/0/unit/lag_hours",
    ],
)
def test_a_fact_left_out_never_makes_it_better(pointer: str) -> None:
    order = ["fail", "undetermined", "conditional", "pass"]
    for highest in (95, 110, 120, 135, 150, 175):
        known = site(limits={"highest": highest, "lowest": -4})
        with_it, without_it = (
            assess(one, _ALONE)["verdict"] for one in (known, without(known, pointer))
        )
        if with_it != "fail":
            assert order.index(without_it) <= order.index(with_it), highest


def test_the_size_that_nobody_knows_is_asked_and_tried() -> None:
    answer = assess(site(unit=None), _ALONE)
    (question,) = [q for q in answer["questions"] if q["pointer"] == "/candidates/0/unit"]
    assert question["ask_by"] == "record"
    assert question["can_change_verdict"]
    assert question["label"] == "the size of a unit of candidate one"


def test_the_place_that_nobody_knows_is_asked() -> None:
    some = site()
    some["place"] = {"state": "CA"}
    assert made(some).missing == ("/place/latitude",)
    answer = assess(some, _ALONE)
    assert answer["verdict"] == "undetermined"
    (question,) = [q for q in answer["questions"] if q["pointer"] == "/place/latitude"]
    assert question["ask_by"] == "telephone"


def test_a_place_without_a_climate_site_is_asked_for_its_own_year() -> None:
    some = put(without(site(), "/place/climate_site"), ("/place/latitude", 60))
    answer = assess(put(some, ("/place/longitude", -150)), _ALONE)
    assert answer["verdict"] == "undetermined"
    assert "/place/latitude" in {question["pointer"] for question in answer["questions"]}


def test_what_decides_is_found_by_rerun() -> None:
    """A limit between the shown band and the hot end: what shades the wall would settle it."""
    answer = assess(site(limits=None), _ALONE)
    asked = {question["pointer"]: question for question in answer["questions"]}
    assert asked["/candidates/0/limits/highest"]["can_change_verdict"]
    answer = assess(site(derating=None), _ALONE)
    asked = {question["pointer"]: question for question in answer["questions"]}
    assert asked["/candidates/0/derating"]["can_change_verdict"]
    open_place = without(site(limits={"highest": 119, "lowest": -4}), "/home/battery_place")
    asked = {q["pointer"]: q for q in assess(open_place, _ALONE)["questions"]}
    assert asked["/home/battery_place"]["can_change_verdict"]


def test_what_is_asked_only_where_it_decides_is_asked_of_a_site_too() -> None:
    """What extremes a hot day may add lies between the band and the limit."""
    open_rise = without(site(), "/place/extreme_rise")
    asked = {}
    for highest in (110, 145, 175):
        some = put(open_rise, ("/candidates/0/limits", {"highest": highest, "lowest": -4}))
        questions = {q["pointer"]: q for q in assess(some, _ALONE)["questions"]}
        asked[highest] = "/place/extreme_rise" in questions
    assert asked == {110: False, 145: True, 175: False}


def test_the_power_handed_on_is_that_of_wind_of_calm_and_of_the_hot_end() -> None:
    curve = [{"temperature": 95, "percent": 100}, {"temperature": 180, "percent": 20}]
    some = without(site(derating=curve), "/place/extreme_rise")
    found = CHECK.run(request_of(some), frozenset())
    heat = found.heat_derating
    assert heat is not None
    assert 0 < heat.worst < heat.power_percent_low < heat.power_percent_high < 100
    words = next(one.statement for one in found.findings if one.rule == "heat-power")
    ends = (heat.power_percent_low, heat.power_percent_high, heat.worst)
    low, high, worst = (int(end + 1e-6) for end in ends)
    assert f"gives {low} to {high} % of its power; {worst} % with all" in words


def test_the_weather_is_that_of_the_site() -> None:
    assert request_of(site()).climate == SiteClimate(site="riverside")
    some = put(without(site(), "/place/climate_site"), ("/place/latitude", 33.8))
    point = request_of(put(some, ("/place/longitude", -116.5), ("/place/terrain", "low_desert")))
    assert point.climate == PointClimate(latitude=33.8, longitude=-116.5, terrain="low_desert")


def test_an_hour_of_the_day_is_left_out_only_where_the_outage_is_known() -> None:
    assert request_of(site()).outage.hours == 48
    open_start = request_of(without(site(), "/wishes/start_hour")).outage
    assert (open_start.start_hour, open_start.hours) == (None, None)


def test_an_offset_of_the_home_heats_its_unit() -> None:
    def felt(offset: float) -> list[float]:
        answer = assess(put(site(), ("/place/outdoor_offset", offset)), _ALONE)
        return [f["value"] for f in answer["candidates"][0]["checks"][0]["figures"][:2]]

    cool, warm = felt(0), felt(9)
    assert [w - c for c, w in zip(cool, warm, strict=True)] == [9, 9]


def test_a_known_offset_takes_the_place_of_the_error_of_the_distance() -> None:
    county = without(site(), "/place/climate_site")
    county["place"]["county"] = "Riverside"
    answer = assess(county, _ALONE)
    assert "/place/outdoor_offset" in {one["pointer"] for one in answer["assumptions"]}
    known = assess(put(county, ("/place/outdoor_offset", 0)), _ALONE)
    assert "/place/outdoor_offset" not in {one["pointer"] for one in known["assumptions"]}
    worst = [
        one["candidates"][0]["checks"][0]["findings"][-1]["statement"] for one in (answer, known)
    ]
    assert worst[0] != worst[1]


def test_what_enters_stands_at_fields_of_the_site() -> None:
    some = without(site(), "/home/battery_air_rise")
    some["candidates"][0]["unit"] = {"width": 30, "height": 40, "depth": 8, "bottom": 20}
    some["home"]["battery_place"]["walls"][0].pop("full_shade", None)
    found = {one["pointer"] for one in assess(some, _ALONE)["assumptions"]}
    assert {
        "/home/battery_air_rise",
        "/candidates/0/unit/colour",
        "/candidates/0/unit/lag_hours",
        "/home/battery_place/walls/0/full_shade",
    } <= found


def test_units_of_the_same_make_are_worked_out_once() -> None:
    some = site()
    twin = some["candidates"][0] | {"id": "two"}
    twin["battery"] = twin["battery"] | {"count": 2}
    both = put(some, ("/candidates", [some["candidates"][0], twin]))
    request = msgspec.convert(both, SiteAssessmentRequest)
    first, second = (CHECK.from_site(request, one, {}).request for one in request.candidates or [])
    assert first == second


RISES_AGAIN = [{"temperature": at, "percent": part} for at, part in ((90, 50), (95, 20), (99, 60))]
BAD = [
    ({"limits": {"highest": 10, "lowest": 20}}, "/candidates/0/limits/highest"),
    (
        {"derating": [{"temperature": 120, "percent": 90}, {"temperature": 100, "percent": 50}]},
        "/candidates/0/derating/1/temperature",
    ),
    (
        {"derating": RISES_AGAIN},
        "/candidates/0/derating/2/percent",
    ),
    (
        {"derating": [{"temperature": 95, "percent": p} for p in (50, 20, 10)]},
        "/candidates/0/derating/2/temperature",
    ),
    ({"unit": {"width": 30, "height": 40, "depth": 8}}, "/candidates/0/unit/bottom"),
    (
        {"unit": {"width": 30, "height": 90, "depth": 8, "bottom": 24}},
        "/home/battery_place/walls/0/eave/height",
    ),
]


@pytest.mark.parametrize("facts, pointer", BAD)
def test_what_contradicts_itself_is_refused_where_it_stands(facts: Body, pointer: str) -> None:
    bad = site(**facts)
    bad["home"]["battery_place"]["walls"][0]["eave"] = {"depth": 24, "height": 96}
    second = bad["candidates"][0] | {"id": "two"}
    bad["candidates"].append(second)
    with pytest.raises(Problem) as refused:
        _ALONE.take(json.dumps(bad).encode())
    pointers = [error.pointer for error in refused.value.errors]
    assert pointer in pointers
    assert len(pointers) == len(set(pointers))
