"""What the site assessment takes from this check: its request out of a site, needs, figures."""

import json
from typing import Any

import msgspec
import pytest

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.facts import Candidate, Site
from tests.checks.outage_runtime.asking import UNIT, Body, answered, appliance, known, load

PLACE = {"state": "CA"}
CANDIDATE = msgspec.convert({"id": "one", "battery": UNIT}, Candidate)
ROWS = [load(500, watts_low=250, watts_high=800), load(2000, hours_per_day=1)]


def site(wishes: Body, **more: Any) -> Site:
    return msgspec.json.decode(json.dumps({"place": PLACE, "wishes": wishes} | more), type=Site)


def request_of(some: Site, candidate: Candidate = CANDIDATE) -> OutageRuntimeRequest:
    found = CHECK.from_site(some, candidate, {}).request
    assert isinstance(found, OutageRuntimeRequest)
    return found


NEEDS: list[tuple[str, Site, dict[str, float]]] = [
    # what, site, numbers by id: kWh a day, kWh to the target, kW
    # 24 h of 0.25, 0.5, 0.8 kW and 2 kWh; 36 h are one and a half days; 0.5 + 2, 0.8 + 2 kW.
    (
        "loads",
        site({"loads": ROWS, "target_hours": 36}),
        {
            "daily-energy-low": 8,
            "daily-energy-typical": 14,
            "daily-energy-high": 21.2,
            "target-energy-typical": 21,
            "running-power-one": 2.5,
            "running-power-all": 2.8,
        },
    ),
    # The worse season is that of the cooler: 24 kWh.
    (
        "season open",
        site({"loads": [load(1000, season="summer"), load(10)]}),
        {"daily-energy-typical": 24.24, "running-power-one": 1.01},
    ),
    (
        "season stated",
        site({"loads": [load(1000, season="summer"), load(10)], "season": "winter"}),
        {"daily-energy-typical": 0.24, "running-power-one": 0.01},
    ),
]


@pytest.mark.parametrize("what, some, expected", NEEDS, ids=[case[0] for case in NEEDS])
def test_needs_of_a_site(what: str, some: Site, expected: dict[str, float]) -> None:
    found = {figure.id: figure.value for figure in CHECK.needs(some)}
    for name, value in expected.items():
        assert found[name] == pytest.approx(value, abs=1e-9), name


def test_a_bill_needs_energy_and_states_no_power() -> None:
    ids = {figure.id for figure in CHECK.needs(site({}, home={"monthly_kwh": 600}))}
    assert "daily-energy-typical" in ids
    assert not {one for one in ids if one.startswith("running-power")}


def test_figures_are_the_three_hours_of_the_answer() -> None:
    answer = answered(known(ROWS))
    found = {figure.id: figure.value for figure in CHECK.figures(answer)}
    assert found == {
        "hours-low": answer.hours_low,
        "hours-typical": answer.hours_typical,
        "hours-high": answer.hours_high,
    }


BROUGHT: list[tuple[str, Body, set[str]]] = [
    # what is known of the home, appliances that stand beside the wished ones
    ("cpap", {"medical_equipment": "cpap"}, {"medical_cpap"}),
    ("another device counts as oxygen", {"medical_equipment": "other"}, {"medical_o2"}),
    ("well pump", {"well_pump": "v240"}, {"well_pump"}),
    ("sump pump", {"sump_pump": "one"}, {"sump_pump_third"}),
    ("internet", {"internet": "keep_running"}, {"modem", "router"}),
    ("nothing", {"medical_equipment": "none", "internet": "leave_off"}, set()),
]


@pytest.mark.parametrize("what, home, names", BROUGHT, ids=[case[0] for case in BROUGHT])
def test_facts_of_the_home_bring_their_loads(what: str, home: Body, names: set[str]) -> None:
    """Once: a load that the wishes name already is not brought again."""
    request = request_of(site({"loads": [appliance("freezer")]}, home=home))
    found = [row.appliance for row in request.use.rows]  # type: ignore[union-attr]  # loads
    assert sorted(found) == sorted({"freezer"} | names), what
    named = site({"loads": [appliance(name) for name in sorted({"freezer"} | names)]}, home=home)
    assert len(request_of(named).use.rows) == 1 + len(names)  # type: ignore[union-attr]  # loads


def test_the_equipments_reserve_counts_where_the_candidate_states_none() -> None:
    bare = {name: value for name, value in UNIT.items() if name != "reserve_percent"}
    open_one = msgspec.convert({"id": "two", "battery": bare}, Candidate)
    some = site({"loads": ROWS}, equipment={"reserve_percent": 35.0})
    assert request_of(some, open_one).battery.reserve_percent == 35
    assert request_of(some).battery.reserve_percent == 100


def test_wishes_and_equipment_reach_the_request() -> None:
    wishes = {"loads": ROWS, "target_hours": 30, "target_tier": "normal", "start_hour": 6}
    control = {"comfort_shed_percent": 40, "normal_shed_percent": 20, "hysteresis_percent": 5}
    more = {"load_control": control, "power_limit_rule": "proportional"}
    request = request_of(site(wishes | {"season": "summer"}, equipment=more))
    assert (request.target_hours, request.target_tier, request.start_hour) == (30, "normal", 6)
    assert (request.season, request.power_limit_rule) == ("summer", "proportional")
    assert request.load_control is not None
    assert request.load_control.comfort_shed_percent == 40


def test_without_candidate_there_is_no_request_and_the_candidates_are_missing() -> None:
    found = CHECK.from_site(site({"loads": ROWS}), None, {})
    assert found.request is None
    assert found.missing == ("/candidates",)
