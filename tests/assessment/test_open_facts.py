"""A fact that is not one known value: what stands in for it, and what it might be."""

from __future__ import annotations

from typing import Any

import pytest

from service.assessment.open_facts import LABELS, OpenFact, declared_facts, resolve
from service.assessment.request import SiteAssessmentRequest
from tests.assessment.sites import (
    HOME,
    Json,
    assess,
    hours,
    known_site,
    lead,
    put,
    request_of,
    steps_of,
)

_ABSENT = object()
_RESERVE = "/equipment/reserve_percent"
_BILL = "/home/monthly_kwh"
_PUMP_WATTS = "/home/well_pump_watts"
_DISTANCE = "/home/battery_distance"

#: pointer, how it is stated, what stands in for it, what it might be: the hardest last.
_OPEN = [
    ("/home/type", _ABSENT, "house", "accessory_unit house townhouse multi_family_unit"),
    ("/home/type", None, "house", "accessory_unit house townhouse multi_family_unit"),
    (
        "/home/type",
        {"as": "unknown"},
        "house",
        "accessory_unit house townhouse multi_family_unit",
    ),
    (
        "/home/type",
        {"as": "one_of", "values": ["townhouse", "house", "townhouse"]},
        "townhouse",
        "house townhouse",
    ),
    ("/home/medical_equipment", _ABSENT, "none", "none cpap other oxygen"),
    (
        "/home/medical_equipment",
        {"as": "one_of", "values": ["oxygen", "none"]},
        "oxygen",
        "none oxygen",
    ),
    ("/home/well_pump", {"as": "unknown"}, "none", "none v120 v240"),
    ("/home/well_pump", {"as": "one_of", "values": ["v240", "v120"]}, "v240", "v120 v240"),
    ("/home/sump_pump", _ABSENT, "none", "none one"),
    ("/home/internet", _ABSENT, "keep_running", "leave_off keep_running"),
    (
        "/home/internet",
        {"as": "one_of", "values": ["keep_running", "leave_off"]},
        "keep_running",
        "leave_off keep_running",
    ),
    (_RESERVE, {"as": "range", "low": 50, "likely": 70, "high": 80}, 70.0, (80.0, 50.0)),
    (_RESERVE, {"as": "range", "low": 50, "high": 80}, 65.0, (80.0, 50.0)),
    (_RESERVE, {"as": "range", "low": 50, "likely": None, "high": 80}, 65.0, (80.0, 50.0)),
    (_RESERVE, {"as": "one_of", "values": [40, 20, 60, 20]}, 20.0, (60.0, 40.0, 20.0)),
    (_RESERVE, {"as": "coarse", "answer": "mostly_empty"}, 12.5, (25.0, 0.0)),
    (_RESERVE, {"as": "coarse", "answer": "about_half"}, 50.0, (65.0, 35.0)),
    (_RESERVE, {"as": "coarse", "answer": "mostly_full"}, 87.5, (100.0, 75.0)),
    (_PUMP_WATTS, _ABSENT, 1000.0, (700.0, 2600.0)),
    (_PUMP_WATTS, {"as": "unknown"}, 1000.0, (700.0, 2600.0)),
    (_PUMP_WATTS, {"as": "range", "low": 900, "high": "1.5 kW"}, 1200.0, (900.0, 1500.0)),
    (_PUMP_WATTS, {"as": "one_of", "values": [1600, 900]}, 1600.0, (900.0, 1600.0)),
    (_BILL, {"as": "range", "low": "500 kWh", "high": "1 MWh"}, 750.0, (500.0, 1000.0)),
    (_BILL, {"as": "one_of", "values": [900, 300]}, 900.0, (300.0, 900.0)),
    (_BILL, {"as": "coarse", "answer": "small"}, 375.0, (250.0, 500.0)),
    (_DISTANCE, {"as": "coarse", "answer": "round_one_corner"}, 40.0, (20.0, 60.0)),
    (_DISTANCE, {"as": "range", "low": 30, "high": 90}, 60.0, (30.0, 90.0)),
    (_BILL, {"as": "coarse", "answer": "large"}, 1750.0, (1000.0, 2500.0)),
]


def _resolved(pointer: str, stated: Any) -> tuple[SiteAssessmentRequest, list[OpenFact]]:
    """Return the resolved site in which one fact is stated so and no load was named."""
    site: Json = {"place": {"state": "CA"}, "wishes": {}, "home": {}, "equipment": {}}
    if pointer == _PUMP_WATTS:
        site["home"]["well_pump"] = "v120"
    if stated is not _ABSENT:
        site = put(site, (pointer, stated))
    return resolve(request_of(site))


def _value(plain: Any, pointer: str) -> Any:
    here = plain
    for step in steps_of(pointer):
        here = getattr(here, step)
    return here


@pytest.mark.parametrize("pointer, stated, value, values", _OPEN)
def test_an_open_fact_has_a_value_that_stands_in_and_all_it_might_be_the_hardest_last(
    pointer: str, stated: Any, value: Any, values: str | tuple[float, ...]
) -> None:
    plain, found = _resolved(pointer, stated)
    fact = next(fact for fact in found if fact.pointer == pointer)
    wanted = tuple(values.split()) if isinstance(values, str) else values
    assert (fact.value, fact.values) == (value, wanted)
    assert _value(plain, pointer) == value


@pytest.mark.parametrize(
    "pointer, value",
    [*((f"/home/{name}", value) for name, value in HOME.items()), (_RESERVE, 60.0), (_BILL, 700.0)],
)
def test_a_bare_value_is_known_and_stays_as_it_is(pointer: str, value: Any) -> None:
    plain, found = _resolved(pointer, value)
    assert pointer not in [fact.pointer for fact in found]
    assert _value(plain, pointer) == value


@pytest.mark.parametrize("pointer", [_RESERVE, _BILL, _DISTANCE])
@pytest.mark.parametrize("stated", [_ABSENT, None, {"as": "unknown"}])
def test_a_number_of_which_nothing_is_known_is_left_to_the_checks(
    pointer: str, stated: Any
) -> None:
    plain, found = _resolved(pointer, stated)
    assert pointer not in [fact.pointer for fact in found]
    assert _value(plain, pointer) is None


def test_every_declared_fact_is_stated_somewhere_in_the_tables_above() -> None:
    assert {case[0] for case in _OPEN} == set(declared_facts())


@pytest.mark.parametrize(
    "pump, is_open", [("v120", True), ("v240", True), (_ABSENT, True), ("none", False)]
)
def test_the_watts_of_a_well_pump_are_open_unless_there_is_none(pump: Any, is_open: bool) -> None:
    _, found = _resolved("/home/well_pump", pump)
    assert (_PUMP_WATTS in [fact.pointer for fact in found]) == is_open


@pytest.mark.parametrize("stated", [None, {"as": "unknown"}])
def test_not_asked_and_not_known_leave_the_same_open(stated: Any) -> None:
    for pointer in declared_facts():
        left = _resolved(pointer, _ABSENT)[1]
        assert _resolved(pointer, stated)[1] == left, pointer


def test_every_open_fact_has_its_label() -> None:
    assert set(declared_facts()) < set(LABELS)


def test_where_no_load_was_named_a_usual_set_stands_in() -> None:
    plain, found = _resolved("/home/type", "house")
    fact = next(fact for fact in found if fact.pointer == "/wishes/essential_set")
    assert (fact.value, fact.values) == ("standard", ("bare", "standard", "rural_winter"))
    assert plain.wishes.essential_set == "standard"


@pytest.mark.parametrize(
    "wishes, home",
    [
        ({"loads": [{"kind": "catalogue", "appliance": "tv"}]}, {}),
        ({"essential_set": "bare"}, {}),
        ({}, {"monthly_kwh": 700}),
        ({}, {"monthly_kwh": {"as": "coarse", "answer": "small"}}),
    ],
)
def test_no_set_stands_in_for_loads_or_a_bill_that_were_named(wishes: Json, home: Json) -> None:
    plain, found = resolve(request_of({"place": {"state": "CA"}, "wishes": wishes, "home": home}))
    assert "/wishes/essential_set" not in [fact.pointer for fact in found]
    assert plain.wishes.essential_set == wishes.get("essential_set")


def test_a_bill_is_not_asked_about_where_the_loads_are_known() -> None:
    site = lead(home={"monthly_kwh": {"as": "coarse", "answer": "large"}})
    _, found = resolve(request_of(site))
    assert _BILL not in [fact.pointer for fact in found]


@pytest.mark.parametrize(
    "pointer, values",
    [
        ("/home/medical_equipment", ("none", "cpap", "other", "oxygen")),
        ("/home/well_pump", ("none", "v120", "v240")),
        (_PUMP_WATTS, (700.0, 1000.0, 2600.0)),
        ("/home/sump_pump", ("none", "one")),
        ("/home/internet", ("leave_off", "keep_running")),
        (_RESERVE, (80.0, 50.0)),
        (_BILL, (500.0, 1000.0)),
    ],
)
def test_each_value_leaves_no_more_hours_than_the_one_before(
    pointer: str, values: tuple[Any, ...]
) -> None:
    site = put(known_site(), *[("/home/well_pump", "v240")] * (pointer == _PUMP_WATTS))
    del site["candidates"][0]["battery"]["reserve_percent"]
    if pointer == _BILL:
        del site["wishes"]["loads"]
    found = [hours(assess(put(site, (pointer, value)))["candidates"][0]) for value in values]
    lows = [figures["hours-low"] for figures in found]
    assert lows == sorted(lows, reverse=True)
    assert lows[0] > lows[-1]
