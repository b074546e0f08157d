"""An estimator: from the lead, over the questions that decide, to a verdict that can be shown."""

from __future__ import annotations

import copy
from itertools import pairwise
from typing import Any

import pytest

from tests.assessment.sites import answered, ranked
from tests.journeys.conftest import Client, Json

_SITE = "/v1/site-assessment"
_OUTAGE = "/v1/outage-runtime"
#: A unit for a garage, of a data sheet that allows great heat and cold (invented).
_SHEET: Json = {
    "unit": {
        "width": 30,
        "height": 40,
        "depth": 8,
        "standoff": 1,
        "bottom": 18,
        "mass": 265,
    },
    "limits": {"highest": 167, "lowest": -22},
    "derating": [{"temperature": 167, "percent": 100}],
    "siting": {
        "listed": True,
        "energy": 14,
        "clearances": {"left": 6, "right": 6, "top": 6},
        "worked_on_live": True,
        "volts_to_ground": 120,
        "handle": 20,
    },
}
#: Rules on where storage may hang, confirmed by a licensed person.
_SITING_RULES = [
    "unit-spacing", "unit-energy", "location-energy", "working-space", "handle-height",
    "room-use", "fire-detection", "vehicle-protection", "equipment-space",
]  # fmt: skip
#: A garage, measured, whose left wall is clear of vehicles (invented).
_GARAGE: Json = {
    "kind": "garage",
    "id": "garage",
    "width": 260,
    "depth": 300,
    "height": 108,
    "attached": False,
    "detection": True,
    "measured_by": "tape",
    "vehicle_opening": {"left": 60, "width": 180, "height": 84},
    "walls": [
        {
            "side": "left",
            "hanging": {
                "build": "wood_stud",
                "stud_spacing": 16,
                "services_in_wall": False,
                "confirmed": True,
            },
        }
    ],
    "way_in": {"narrowest": 96, "steps": 0, "slope_percent": 0, "people": 6},
}
#: A house, its refrigerator, its furnace blower and its lamps, no large motor (invented).
_LEAD: Json = {
    "reference": "lead-0107",
    "place": {"state": "CA", "county": "Butte"},
    "wishes": {
        "target_hours": 24,
        "loads": [
            {"kind": "catalogue", "appliance": "refrigerator"},
            {"kind": "catalogue", "appliance": "gas_furnace_fan"},
            {"kind": "catalogue", "appliance": "led_lights"},
        ],
    },
    "home": {
        "well_pump": "none",
        "sump_pump": "none",
        "medical_equipment": "none",
        "internet": {"as": "unknown"},
        "motors": [],
        "battery_distance": 40,
        "battery_place": {"kind": "garage", "door_faces": "other"},
        "battery_spots": [_GARAGE],
        "anchorage": {"sds": 1.5, "height_part": 0.5, "designed": True},
        "battery_run": [{"length": 40, "place": "outside_wall", "way": "pvc40"}],
    },
    "equipment": {
        "transfer": {"kind": "automatic", "connected_load_va": 4500},
        "terminals": {
            "near": {"marked": 75, "smallest": "14", "largest": "6"},
            "far": {"marked": 75, "smallest": "14", "largest": "2/0"},
        },
    },
    "confirmed_rules": ["backed-up-capacity", "conductor-tables", *_SITING_RULES],
    "candidates": [
        {
            "id": "one-unit",
            "battery": {"energy": {"kind": "usable", "kwh": 13}, "continuous_kw": 5},
            "inverter": {"continuous_a": 20.8, "most_breaker_a": 30},
            **_SHEET,
        },
        {
            "id": "four-units",
            "battery": {
                "energy": {"kind": "usable", "kwh": 13},
                "count": 4,
                "continuous_kw": 5,
                "reserve_percent": 80,
            },
            "inverter": {"continuous_a": 20.8, "most_breaker_a": 30},
            **_SHEET,
        },
    ],
}


def _ask(client: Client, lead: Json) -> Json:
    answer = client.post(_SITE, json=lead)
    assert answer.status_code == 200, answer.text
    found: Json = answer.json()
    return found


def _deciding(answer: Json) -> list[Json]:
    return [question for question in answer["questions"] if question["can_change_verdict"]]


def _confirmed(client: Client, answer: Json, lead: Json, question: Json) -> Any:
    """Return what the owner answers: what stood in, or the catalogue's usual number."""
    pointer = question["pointer"]
    for assumption in answer["assumptions"]:
        if assumption["pointer"] == pointer:
            return assumption["value"]
    assert pointer.endswith("/watts"), question
    row = lead["wishes"]["loads"][int(pointer.split("/")[3])]
    known = client.get("/v1/reference/appliances").json()["rows"]
    return next(a["run_w_typical"] for a in known if a["id"] == row["appliance"])


@pytest.fixture(scope="module")
def talks(client: Client) -> list[tuple[Json, Json]]:
    """Return lead and answer after each deciding question that was asked and confirmed."""
    lead = copy.deepcopy(_LEAD)
    answer = _ask(client, lead)
    found = [(lead, answer)]
    while _deciding(answer):
        question = _deciding(answer)[0]
        value = _confirmed(client, answer, lead, question)
        lead = answered(lead, answer, question["pointer"], value)
        answer = _ask(client, lead)
        found.append((lead, answer))
        assert len(found) < 20, "the questions never end"
    return found


def test_the_lead_is_not_decided_and_the_first_question_is_asked_by_telephone(
    talks: list[tuple[Json, Json]],
) -> None:
    _, answer = talks[0]
    assert answer["verdict"] == "undetermined"
    assert _deciding(answer)[0]["ask_by"] == "telephone"
    assert answer["rounds"][0]["round"] == "telephone"
    assert answer["rounds"][0]["pointers"][0] == _deciding(answer)[0]["pointer"]


def test_a_confirmed_answer_never_makes_the_verdict_worse(talks: list[tuple[Json, Json]]) -> None:
    verdicts = [ranked(answer["verdict"]) for _, answer in talks]
    assert verdicts == sorted(verdicts)
    assert talks[-1][1]["verdict"] == "pass"


def test_questions_of_more_than_one_round_decide_on_the_way(
    talks: list[tuple[Json, Json]],
) -> None:
    ways = {question["ask_by"] for _, answer in talks for question in _deciding(answer)}
    assert {"telephone", "photo", "record"} <= ways
    assert len(talks) > 4


def test_an_answered_question_is_not_asked_again(talks: list[tuple[Json, Json]]) -> None:
    for (_, before), (_, after) in pairwise(talks):
        pointer = _deciding(before)[0]["pointer"]
        assert pointer not in [question["pointer"] for question in after["questions"]]
        assert pointer not in [assumption["pointer"] for assumption in after["assumptions"]]


def test_in_the_end_the_headline_names_nothing_that_could_overturn_it(
    talks: list[tuple[Json, Json]],
) -> None:
    _, answer = talks[-1]
    assert answer["headline"].startswith("sign")
    assert "overturn" not in answer["headline"]
    assert answer["reference"] == "lead-0107"


def test_the_homeowner_is_promised_nothing_that_cannot_be_kept(
    talks: list[tuple[Json, Json]],
) -> None:
    for _, answer in talks:
        for words in ("whole home", "whole house", "guarantee", "no upgrade needed"):
            assert words not in answer["summary"].lower()


def _outage_request(lead: Json, candidate: Json) -> Json:
    """Return a candidate's own request, written as a plan checker would: from the lead."""
    wishes, home = lead["wishes"], lead["home"]
    rows = [*wishes["loads"]]
    if home.get("internet") != "leave_off":
        rows += [{"kind": "catalogue", "appliance": name} for name in ("modem", "router")]
    # The curve of its data sheet leaves all of the power up to its highest temperature.
    whole = {"power_percent_low": 100, "power_percent_high": 100, "power_percent_worst": 100}
    request = {
        "use": {"kind": "loads", "rows": rows},
        "battery": candidate["battery"],
        "heat_derating": whole,
    }
    passed_on = ("target_hours", "target_tier", "start_hour", "season")
    return request | {name: wishes[name] for name in passed_on if name in wishes}


@pytest.fixture(scope="module")
def shown(client: Client, talks: list[tuple[Json, Json]]) -> tuple[Json, Json]:
    """Return the assessment's candidate with a reserve of its own, and its whole outage answer."""
    lead, answer = talks[-1]
    place = next(i for i, c in enumerate(answer["candidates"]) if c["id"] == "four-units")
    request = _outage_request(lead, lead["candidates"][place])
    season = next(
        (a["value"] for a in answer["assumptions"] if a["pointer"] == "/wishes/season"), None
    )
    if season:
        request["season"] = season
    whole = client.post(f"{_OUTAGE}?include=working,series,energy_balance", json=request)
    assert whole.status_code == 200, whole.text
    return answer["candidates"][place]["checks"][0], whole.json()


def test_the_candidates_own_answer_says_what_the_assessment_said(
    shown: tuple[Json, Json],
) -> None:
    short, whole = shown
    for name in ("verdict", "headline", "findings", "alternatives"):
        assert short[name] == whole[name], name
    figures = {figure["id"]: figure["value"] for figure in short["figures"]}
    for level in ("low", "typical", "high"):
        assert figures[f"hours-{level}"] == pytest.approx(whole[f"hours_{level}"], abs=0.0101)


def test_its_hours_are_those_of_its_readings_and_in_order(shown: tuple[Json, Json]) -> None:
    _, whole = shown
    readings = {
        (r["use"], r["capacity"], r["start"]): r["hours_to_dark"] for r in whole["readings"]
    }
    assert len(readings) == 12
    assert whole["hours_low"] == readings["high", "end_of_warranty", "reserve"]
    assert whole["hours_typical"] == readings["typical", "now", "reserve"]
    assert whole["hours_high"] == readings["low", "now", "full"]
    assert whole["hours_low"] <= whole["hours_typical"] <= whole["hours_high"]


def test_its_series_end_where_its_hours_end(shown: tuple[Json, Json]) -> None:
    _, whole = shown
    lines = {line["id"]: line for line in whole["series"]}
    for level in ("low", "typical", "high"):
        line = lines[f"stored-energy/{level}"]
        assert line["x"] == sorted(line["x"])
        assert len(line["x"]) == len(line["y"]) > 2
        assert line["x"][-1] == pytest.approx(whole[f"hours_{level}"], abs=0.0101)
        assert min(line["y"]) >= 0


def test_its_energy_balance_closes(shown: tuple[Json, Json]) -> None:
    _, whole = shown
    assert whole["energy_balance"]
    for balance in whole["energy_balance"]:
        spent = balance["served_kwh"] + balance["lost_kwh"] + balance["end_kwh"]
        # Four numbers, each rounded to 1e-9 kWh.
        assert balance["start_kwh"] == pytest.approx(spent, abs=3e-9, rel=0)


def test_its_working_names_each_quantity_with_value_and_unit(shown: tuple[Json, Json]) -> None:
    _, whole = shown
    listed = {source["id"] for source in whole["sources"]}
    assert len(whole["working"]) > 5
    for line in whole["working"]:
        assert line["quantity"]
        assert line["expression"]
        assert line["unit"]
        assert line["source"] is None or line["source"].split("/")[0] in {
            source.split("/")[0] for source in listed
        } | {"temperature_capacity", "temperature_power"}


def test_without_the_includes_the_answer_is_the_same_but_for_them(
    client: Client, talks: list[tuple[Json, Json]]
) -> None:
    lead, _ = talks[-1]
    request = _outage_request(lead, lead["candidates"][1])
    usual = client.post(_OUTAGE, json=request)
    whole = client.post(f"{_OUTAGE}?include=working,series,energy_balance", json=request)
    more = {"working", "series", "energy_balance"}
    assert set(whole.json()) - set(usual.json()) == more
    assert {k: v for k, v in whole.json().items() if k not in more} == usual.json()
    assert usual.headers["answer-digest"] == whole.headers["answer-digest"]
