"""The check's request out of a site, and how an assessment stands with it."""

import json
from typing import Any, get_args

import msgspec
import pytest

from service.assessment.request import SiteAssessmentRequest
from service.check import FromSite
from service.checks.surge_feasibility import CHECK
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.facts.motor import MotorKindId
from service.published.appliance_motors import appliance_motors
from service.published.appliances import catalogue
from tests.assessment.sites import assess, assessment, known_site

Body = dict[str, Any]
UNIT = {"energy": {"kind": "usable", "kwh": 12}, "continuous_kw": 5, "count": 2}


def appliance(name: str, **more: Any) -> Body:
    return {"kind": "catalogue", "appliance": name, **more}


def made(wishes: Body, candidate: Body | None = None, **more: Any) -> FromSite:
    """Return the check's request of a site for one candidate."""
    one = candidate or {"id": "one", "battery": UNIT}
    site = {"place": {"state": "CA"}, "wishes": wishes, "candidates": [one], **more}
    request = msgspec.convert(site, SiteAssessmentRequest)
    assert request.candidates
    return CHECK.from_site(request, request.candidates[0], {})


def request_of(wishes: Body, candidate: Body | None = None, **more: Any) -> SurgeFeasibilityRequest:
    found = made(wishes, candidate, **more).request
    assert isinstance(found, SurgeFeasibilityRequest)
    return found


def test_every_motor_of_the_catalogue_is_one_the_contract_knows() -> None:
    assert set(appliance_motors()) <= {row for row, known in catalogue().items() if known.has_motor}
    assert {motor.kind for motor in appliance_motors().values()} <= set(get_args(MotorKindId))


def test_named_rows_bring_motors_of_their_size() -> None:
    rows = [appliance("ac_central_3t"), appliance("well_pump_1hp"), appliance("sump_pump_third")]
    found = {motor.id: motor for motor in request_of({"loads": rows}).motors}
    assert found["central-air-conditioner-3-tons"].tons == 3
    well = found["well-pump-1-hp-240-v"]
    assert (well.horsepower, well.circuit) == (1, "both_legs")
    assert found["sump-pump-1-3-hp"].circuit == "one_leg"


def test_two_of_a_kind_are_two_motors() -> None:
    found = request_of({"loads": [appliance("ac_central_2t", quantity=2)]}).motors
    assert [motor.id for motor in found] == [
        "central-air-conditioner-2-tons",
        "central-air-conditioner-2-tons-2",
    ]


def test_what_a_fact_brings_is_of_unknown_size() -> None:
    """Nobody said how large the well pump is: its row's half horsepower is no evidence."""
    rows = [appliance("refrigerator")]
    (pump,) = request_of({"loads": rows}, home={"well_pump": "v240"}).motors
    assert (pump.kind, pump.horsepower) == ("well_pump", None)
    unit = {"kind": "cooling", "size": {"kind": "tons", "tons": 3}}
    (cooler,) = request_of({"loads": rows}, home={"conditioning": [unit]}).motors
    assert (cooler.kind, cooler.tons) == ("compressor_scroll", 3)


def test_a_stated_list_of_motors_is_all_of_them() -> None:
    rows = [appliance("ac_central_3t")]
    assert made({"loads": rows}, home={"motors": []}).missing == ("/home/motors",)
    none = [appliance("refrigerator")]
    assert request_of({"loads": none}, home={"motors": []}).motors == []
    stated = {"id": "condenser", "kind": "compressor_scroll", "locked_rotor_a": 77}
    (motor,) = request_of({"loads": rows}, home={"motors": [stated]}).motors
    assert motor.locked_rotor_a == 77


def test_all_day_loads_and_the_largest_other_run_beside() -> None:
    rows = [
        appliance("refrigerator", watts=150),
        appliance("modem", watts=6),
        appliance("microwave", watts=1000),
        appliance("toaster", watts=1100),
        appliance("spa_heater"),
        appliance("ac_central_3t"),
        {"kind": "own", "name": "Oxygen", "watts": 300, "life_support": True},
    ]
    running = request_of({"loads": rows}).running or []
    assert {load.watts: load.life_support for load in running} == {
        300: True,
        1100: False,
        150: False,
        6: False,
    }
    assert running[0].life_support


def test_many_loads_are_joined_beyond_forty_rows() -> None:
    rows = [{"kind": "own", "name": f"Load {n}", "watts": 10 + n} for n in range(60)]
    running = request_of({"loads": rows}).running or []
    assert len(running) <= 40
    assert sum(load.watts for load in running) == pytest.approx(sum(10 + n for n in range(60)))


def test_the_candidates_power_stands_in_for_its_inverter() -> None:
    rows = [appliance("refrigerator")]
    bare = request_of({"loads": rows}).inverter
    assert bare is not None
    assert (bare.continuous_kw, bare.count, bare.surge) == (5, 2, None)
    sheet = {"surge": [{"seconds": 10, "amps": 31}]}
    own = request_of({"loads": rows}, {"id": "one", "battery": UNIT, "inverter": sheet}).inverter
    assert own is not None
    assert (own.continuous_kw, own.count) == (5, 2)
    one_leg = UNIT | {"split_phase": False}
    small = request_of({"loads": rows}, {"id": "one", "battery": one_leg}).inverter
    assert small is not None
    assert small.volts == 120


MISSING = [
    # wishes, battery, motors stated, what is missing
    ({}, UNIT, None, ("/wishes/loads",)),
    (
        {"loads": [appliance("refrigerator")]},
        {"energy": {"kind": "usable", "kwh": 12}},
        None,
        ("/candidates/*/battery/continuous_kw",),
    ),
    ({"loads": [appliance("well_pump", quantity=7)]}, UNIT, None, ("/home/motors",)),
]


@pytest.mark.parametrize("wishes, battery, motors, missing", MISSING)
def test_what_is_missing(wishes: Body, battery: Body, motors: Any, missing: Any) -> None:
    found = made(wishes, {"id": "one", "battery": battery})
    assert found.request is None
    assert found.missing == missing


_BOTH = assessment([CHECK])
SHEET = {
    "surge": [{"seconds": 0.5, "amps": 120}, {"seconds": 10, "amps": 60}],
    "beyond_rating": "folds_back",
}
BEHIND = {"kind": "automatic", "connected_load_va": 4000}
CONDENSER = {
    "id": "condenser",
    "kind": "compressor_scroll",
    "locked_rotor_a": 77,
    "rated_load_a": 14,
    "volts": 230,
    "delay": True,
    "wire": {"length": 60, "size": "10"},
}


def site(motors: list[Body] | None, inverter: Body | None) -> Body:
    """Return a site of which everything is known but what is told."""
    found = known_site()
    found["wishes"]["loads"].append(appliance("ac_central_3t"))
    if motors is not None:
        found["home"]["motors"] = motors
    found["equipment"]["transfer"] = BEHIND
    found["confirmed_rules"] = ["backed-up-capacity"]
    found["candidates"][0]["battery"]["continuous_kw"] = 9.6
    if inverter is not None:
        found["candidates"][0]["inverter"] = inverter
    return found


STANDS = [
    ([CONDENSER], SHEET, "pass"),
    (None, SHEET, "undetermined"),
    ([CONDENSER], None, "undetermined"),
    ([CONDENSER | {"locked_rotor_a": 200, "rated_load_a": 40}], SHEET, "fail"),
    ([], SHEET, "undetermined"),
]


@pytest.mark.parametrize("motors, inverter, verdict", STANDS)
def test_the_assessment_stands_as_its_motors_do(
    motors: list[Body] | None, inverter: Body | None, verdict: str
) -> None:
    assert assess(site(motors, inverter), _BOTH)["verdict"] == verdict


def test_the_nameplate_that_decides_is_asked_for() -> None:
    answer = assess(site(None, SHEET), _BOTH)
    asked = {question["pointer"]: question for question in answer["questions"]}
    assert asked["/home/motors"]["can_change_verdict"]
    assert asked["/home/motors"]["ask_by"] == "photo"
    assert answer["questions"][0]["pointer"] == "/home/motors"


def test_the_surge_ratings_that_decide_are_asked_for() -> None:
    answer = assess(site([CONDENSER], None), _BOTH)
    asked = {question["pointer"]: question for question in answer["questions"]}
    assert asked["/candidates/0/inverter/surge"]["can_change_verdict"]


def test_bad_motors_of_a_site_are_refused_where_they_stand() -> None:
    from service.http.problem import Problem

    bad = site([CONDENSER | {"locked_rotor_a": 20}], {"continuous_a": 25, "continuous_kw": 6})
    with pytest.raises(Problem) as refused:
        _BOTH.take(json.dumps(bad).encode())
    pointers = {error.pointer for error in refused.value.errors}
    assert pointers == {"/home/motors/0/locked_rotor_a", "/candidates/0/inverter/continuous_a"}
