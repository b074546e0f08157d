"""Loads that somebody named, that a set names, and that nobody named."""

from __future__ import annotations

from typing import Any

import pytest

from tests.assessment.sites import BATTERY, HOME, Json, assess, known_site, put, ranked, without

_PUMP, _WATTS = "/home/well_pump", "/home/well_pump_watts"
_SPLIT_PHASE = "/candidates/0/battery/split_phase"
_HUGE = {**BATTERY, "energy": {"kind": "usable", "kwh": 900}, "continuous_kw": 50}
_FRIDGE = known_site()["wishes"]["loads"][0]


def _energy(site: Json) -> float:
    """Return the typical energy of a day that the site needs [kWh]."""
    needs = {figure["id"]: float(figure["value"]) for figure in assess(site)["needs"]}
    return needs["daily-energy-typical"]


def _site(**wishes: Any) -> Json:
    return known_site(
        wishes={"target_hours": 24, "season": "summer", **wishes},
        candidates=[{"id": "one", "battery": _HUGE}],
    )


def _rules(answer: Json) -> list[str]:
    return [finding["rule"] for finding in answer["findings"]]


def test_loads_that_nobody_named_leave_the_best_battery_undetermined() -> None:
    answer = assess(_site())
    assert (answer["verdict"], _rules(answer)) == ("undetermined", ["loads-not-named"])
    assert answer["candidates"][0]["checks"][0]["verdict"] == "pass"


def test_loads_that_nobody_named_mend_no_failure() -> None:
    small = {**BATTERY, "energy": {"kind": "usable", "kwh": 0.1}}
    assert assess(put(_site(), ("/candidates/0/battery", small)))["verdict"] == "fail"


@pytest.mark.parametrize("site", [_site(essential_set="bare"), _site(loads=[_FRIDGE])])
def test_loads_that_were_named_may_pass(site: Json) -> None:
    answer = assess(site)
    assert (answer["verdict"], _rules(answer)) == ("pass", [])


def test_a_bill_stands_for_the_loads_of_the_whole_home() -> None:
    assert _rules(assess(put(_site(), ("/home/monthly_kwh", 300)))) == []


def test_single_loads_and_a_set_are_joined_and_what_both_name_counts_once() -> None:
    tea = {"kind": "own", "name": "Kettle", "watts": 1000, "hours_per_day": 1}
    bare = _energy(_site(essential_set="bare"))
    assert _energy(_site(loads=[tea], essential_set="bare")) == pytest.approx(bare + 1)
    # The set names the refrigerator; the one that is named takes 300 W x 0.33 for a day.
    named = [{**_FRIDGE, "watts": 300}]
    usual = _energy(_site(loads=[{"kind": "catalogue", "appliance": "refrigerator"}]))
    joined = _energy(_site(loads=named, essential_set="bare"))
    assert joined == pytest.approx(bare - usual + 0.3 * 0.33 * 24)


# By hand: the pump runs 0.06 of the day at typical use.
@pytest.mark.parametrize("pump", ["v120", "v240"])
@pytest.mark.parametrize("watts, energy", [(700, 1.008), (1000, 1.44), (2600, 3.744), (None, 1.44)])
def test_a_well_pump_brings_its_own_watts(pump: str, watts: float | None, energy: float) -> None:
    site = _site(loads=[_FRIDGE])
    with_pump = put(site, (_PUMP, pump), (_WATTS, watts))
    assert _energy(with_pump) - _energy(site) == pytest.approx(energy)


@pytest.mark.parametrize(
    "pump, split_phase, verdict",
    [
        ("v120", False, "pass"),
        ("v120", None, "pass"),
        ("v240", True, "pass"),
        ("v240", None, "conditional"),
        ("v240", False, "fail"),
    ],
)
def test_a_well_pump_brings_its_voltage(pump: str, split_phase: bool | None, verdict: str) -> None:
    site = put(_site(loads=[_FRIDGE]), (_PUMP, pump), (_WATTS, 1000), (_SPLIT_PHASE, split_phase))
    assert assess(site)["verdict"] == verdict


# 26 kWh hold a pump of 1000 W for the 48 h, and not one of 2600 W.
@pytest.mark.parametrize(
    "stated, pump",
    [
        (None, "v120"),
        (None, "v240"),
        ({"as": "unknown"}, "v120"),
        ({"as": "unknown"}, "v240"),
        ({"as": "one_of", "values": ["none", "v120"]}, "v120"),
        ({"as": "one_of", "values": ["none", "v240"]}, "v240"),
    ],
)
@pytest.mark.parametrize("kwh", [15, 26])
def test_a_well_pump_that_was_not_asked_for_is_no_better_than_one(
    stated: Json | None, pump: str, kwh: float
) -> None:
    site = put(known_site(), ("/candidates/0/battery/energy/kwh", kwh), (_PUMP, stated))
    with_pump = put(site, (_PUMP, pump))
    assert ranked(assess(site)["verdict"]) <= ranked(assess(with_pump)["verdict"])


def test_a_pump_that_is_not_there_takes_nothing_whatever_its_watts() -> None:
    site = _site(loads=[_FRIDGE])
    assert site["home"] == HOME
    assert _energy(put(site, (_WATTS, 2600))) == _energy(site)
    assert assess(put(site, (_WATTS, 2600)))["verdict"] == assess(without(site, _PUMP))["verdict"]
