"""The check's request out of a site, and how an assessment stands with it."""

from typing import Any

import msgspec
import pytest

from service.assessment.request import SiteAssessmentRequest
from service.check import FromSite
from service.checks.conductor_sizing import CHECK
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.facts import SegmentsRun
from tests.assessment.sites import assess, assessment, known_site
from tests.checks.conductor_sizing.requests import MARKED

Body = dict[str, Any]
UNIT = {"energy": {"kind": "usable", "kwh": 12}, "continuous_kw": 5, "count": 2}
SHEET = {"continuous_a": 25, "count": 2, "most_breaker_a": 40}


def made(home: Body | None, **candidate: Any) -> FromSite:
    """Return the check's request of a site for one candidate."""
    one = {"id": "one", "battery": UNIT} | candidate
    site = {"place": {"state": "CA"}, "wishes": {}, "candidates": [one], "home": home}
    request = msgspec.convert(site, SiteAssessmentRequest)
    assert request.candidates
    return CHECK.from_site(request, request.candidates[0], {})


def test_each_unit_has_a_circuit_of_its_own() -> None:
    request = made({"battery_distance": 60}, inverter=SHEET).request
    assert isinstance(request, ConductorSizingRequest)
    assert (request.circuit.amps, request.circuit.most_breaker_a) == (25, 40)
    bare = made({"battery_distance": 60}).request
    assert isinstance(bare, ConductorSizingRequest)
    assert (bare.circuit.amps, bare.circuit.kw) == (None, 5)


@pytest.mark.parametrize(
    "home, battery, missing",
    [
        (None, UNIT, ("/home/battery_distance",)),
        ({"battery_distance": {"as": "unknown"}}, UNIT, ("/home/battery_distance",)),
        (
            {"battery_distance": 60},
            {"energy": {"kind": "usable", "kwh": 12}},
            ("/candidates/*/battery/continuous_kw",),
        ),
    ],
)
def test_what_is_missing(home: Body | None, battery: Body, missing: tuple[str, ...]) -> None:
    found = made(home, battery=battery)
    assert found.request is None
    assert found.missing == missing


_ALONE = assessment([CHECK])


def site(distance: Any, **more: Any) -> Body:
    """Return a site of which everything is known but what is told."""
    found = known_site(confirmed_rules=["conductor-tables"])
    if distance is not None:
        found["home"]["battery_distance"] = distance
    found["candidates"][0]["inverter"] = SHEET | more
    found["equipment"]["terminals"] = {"near": MARKED, "far": MARKED}
    return found


STANDS = [
    (60, {}, "conditional"),
    (None, {}, "undetermined"),
    ({"as": "coarse", "answer": "round_one_corner"}, {}, "conditional"),
    (60, {"most_breaker_a": None}, "conditional"),
    (60, {"most_breaker_a": 25}, "fail"),
    (5280, {}, "fail"),
]


@pytest.mark.parametrize("distance, more, verdict", STANDS)
def test_the_assessment_stands_as_its_wire_does(distance: Any, more: Body, verdict: str) -> None:
    assert assess(site(distance, **more), _ALONE)["verdict"] == verdict


def test_the_distance_nobody_knows_is_asked_by_telephone() -> None:
    answer = assess(site(None), _ALONE)
    asked = {question["pointer"]: question for question in answer["questions"]}
    assert asked["/home/battery_distance"]["ask_by"] == "telephone"


def test_the_break_points_are_shown() -> None:
    (candidate,) = assess(site(60), _ALONE)["candidates"]
    (check,) = candidate["checks"]
    reach = [figure["value"] for figure in check["figures"]]
    assert reach == sorted(reach)
    assert reach[0] >= 60
    assert all("as far as" in figure["label"] for figure in check["figures"])


def test_a_run_by_its_parts_stands_for_the_distance() -> None:
    wall = [{"length": 60, "place": "outside_wall", "way": "pvc40"}]
    request = made({"battery_run": wall, "battery_distance": 99}, inverter=SHEET).request
    assert isinstance(request, ConductorSizingRequest)
    assert isinstance(request.run, SegmentsRun)
    known = site(None)
    known["home"]["battery_run"] = wall
    assert assess(known, _ALONE)["candidates"][0]["checks"][0]["verdict"] == "pass"
    asked = assess(site(60), _ALONE)["questions"]
    assert "/home/battery_run" in {question["pointer"] for question in asked}
