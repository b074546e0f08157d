"""What is asked next, and in which order."""

from __future__ import annotations

from typing import Any

import pytest

from service.facts import Equipment, Home
from tests.assessment.leads import LEADS
from tests.assessment.sites import (
    BATTERY,
    HOME,
    PLAIN_BATTERY,
    Json,
    answered,
    asked,
    assess,
    assumed,
    known_site,
    lead,
    put,
    request_of,
    steps_of,
)

_EVERY_LEAD = pytest.mark.parametrize("site", LEADS.values(), ids=LEADS)
_MEDICAL = "/home/medical_equipment"
_ROUND_OF = {
    "telephone": "telephone",
    "photo": "photos",
    "recording": "photos",
    "record": "records",
    "visit": "visit",
}


def _flips(site: Json, answer: Json, question: Json) -> bool:
    reruns = (
        assess(answered(site, answer, question["pointer"], value)) for value in question["range"]
    )
    return any(rerun["verdict"] != answer["verdict"] for rerun in reruns)


@_EVERY_LEAD
def test_a_question_claims_to_decide_exactly_where_a_rerun_flips_the_verdict(site: Json) -> None:
    answer = assess(site)
    for question in answer["questions"]:
        if question["range"] is None:
            assert not question["can_change_verdict"], question["pointer"]
        else:
            flips = _flips(site, answer, question)
            assert question["can_change_verdict"] == flips, question["pointer"]


def test_the_leads_have_questions_that_decide_and_questions_that_do_not() -> None:
    decides = [q["can_change_verdict"] for s in LEADS.values() for q in assess(s)["questions"]]
    assert decides.count(True) >= 8
    assert decides.count(False) >= 8


@_EVERY_LEAD
def test_medical_equipment_is_asked_first_then_what_decides(site: Json) -> None:
    questions = assess(site)["questions"]
    order = [(q["pointer"] == _MEDICAL, q["can_change_verdict"]) for q in questions]
    assert order == sorted(order, reverse=True)


@pytest.mark.parametrize("candidates", [None, [{"id": "one", "battery": BATTERY}]])
@pytest.mark.parametrize(
    "stated, not_asked",
    [
        (None, True),
        ({"as": "unknown"}, True),
        ({"as": "one_of", "values": ["none", "cpap"]}, True),
        ("none", False),
        ("oxygen", False),
    ],
)
def test_a_caution_stands_as_long_as_medical_equipment_is_open(
    candidates: list[Json] | None, stated: Any, not_asked: bool
) -> None:
    answer = assess(put(known_site(candidates=candidates), (_MEDICAL, stated)))
    assert ("medical-not-asked" in [c["id"] for c in answer["cautions"]]) == not_asked
    first = answer["questions"][0]["pointer"] if answer["questions"] else None
    assert (first == _MEDICAL) == not_asked


@_EVERY_LEAD
def test_rounds_hold_every_question_once_in_its_order_by_the_way_it_is_asked(site: Json) -> None:
    answer = assess(site)
    names = [part["round"] for part in answer["rounds"]]
    assert names == [n for n in ("telephone", "photos", "records", "visit") if n in names]
    for part in answer["rounds"]:
        assert part["pointers"] == [
            q["pointer"] for q in answer["questions"] if _ROUND_OF[q["ask_by"]] == part["round"]
        ]
    assert sorted(p for part in answer["rounds"] for p in part["pointers"]) == sorted(asked(answer))


@_EVERY_LEAD
def test_every_assumption_and_every_tried_answer_is_a_field_that_can_be_filled(site: Json) -> None:
    answer = assess(site)
    request_of(put(site, *assumed(answer)))
    for question in answer["questions"]:
        for value in question["range"] or []:
            request_of(answered(site, answer, question["pointer"], value))


#: What can be written in a field whose question tries no value.
_UNTRIED: dict[str, Any] = {
    "/candidates": [{"id": "one", "battery": PLAIN_BATTERY}],
    "/wishes/loads": [{"kind": "catalogue", "appliance": "tv"}],
    "/home/medical_plan/utility_programme": True,
    "/home/medical_plan/second_plan": True,
}


@_EVERY_LEAD
def test_a_question_without_tried_values_leads_to_a_field_that_can_be_filled(site: Json) -> None:
    for question in assess(site)["questions"]:
        if question["range"] is None:
            pointer = question["pointer"]
            answer = assess(put(site, (pointer, _UNTRIED[pointer])))
            assert pointer not in asked(answer)


@pytest.mark.parametrize("field", list(HOME))
@pytest.mark.parametrize("stated", [None, {"as": "unknown"}])
@pytest.mark.parametrize("candidates", [0, 1])
def test_an_open_fact_of_the_home_is_always_asked(
    field: str, stated: Json | None, candidates: int
) -> None:
    site = put(known_site(), (f"/home/{field}", stated))
    if not candidates:
        del site["candidates"]
    assert f"/home/{field}" in asked(assess(site))


@pytest.mark.parametrize(
    "wishes",
    [
        {},
        {"essential_set": "bare"},
        {"loads": [{"kind": "catalogue", "appliance": a} for a in ("modem", "router")]},
    ],
)
def test_modem_and_router_are_asked_about_while_the_internet_is_open(wishes: Json) -> None:
    question = asked(assess({"place": {"state": "CA"}, "wishes": wishes}))["/home/internet"]
    assert "modem" in question["question"]
    assert "router" in question["question"]


def test_the_well_pump_question_asks_for_the_voltage_of_its_breaker() -> None:
    question = asked(assess(lead()))["/home/well_pump"]
    assert "240 V" in question["question"]
    assert question["range"] == ["none", "v120", "v240"]


@pytest.mark.parametrize("site", [lead(wishes={}), {"place": {"state": "CA"}, "wishes": {}}])
def test_target_hours_that_were_not_stated_are_asked(site: Json) -> None:
    assert "/wishes/target_hours" in asked(assess(site))


@pytest.mark.parametrize("value", ["cpap", "oxygen", "other"])
@pytest.mark.parametrize(
    "stated", [lead(), lead(wishes={"target_hours": 12}, home={"monthly_kwh": 500})]
)
def test_medical_equipment_brings_its_caution_and_asks_for_the_plan(
    stated: Json, value: str
) -> None:
    answer = assess(put(stated, ("/home/medical_equipment", value)))
    assert "medical-equipment" in [caution["id"] for caution in answer["cautions"]]
    assert {"/home/medical_plan/utility_programme", "/home/medical_plan/second_plan"} <= set(
        asked(answer)
    )
    assert answer["verdict"] != "pass"


def test_a_question_names_the_candidate_it_is_about() -> None:
    batteries = [PLAIN_BATTERY, {**PLAIN_BATTERY, "count": 3}]
    names = ["left", "right"]
    site = lead(candidates=[{"id": n, "battery": b} for n, b in zip(names, batteries, strict=True)])
    own = [q for q in assess(site)["questions"] if q["pointer"].startswith("/candidates/")]
    assert own
    for question in own:
        name = names[int(steps_of(question["pointer"])[1])]
        assert name in question["label"]
        assert f"({name})" in question["question"]


@_EVERY_LEAD
def test_the_headline_names_the_first_three_deciding_facts_and_how_they_are_had(
    site: Json,
) -> None:
    answer = assess(site)
    deciding = [q for q in answer["questions"] if q["can_change_verdict"]]
    named = [f"{question['label']} ({question['ask_by']})" for question in deciding]
    ending = f" Could overturn it: {'; '.join(named[:3])}."
    assert answer["headline"].endswith(ending) if named else "overturn" not in answer["headline"]


def test_no_question_tells_an_owner_to_open_equipment() -> None:
    for site in LEADS.values():
        for question in assess(site)["questions"]:
            words = question["question"].lower()
            for opened in ("remove", "unscrew", "take off", "open the panel", "pull the meter"):
                assert opened not in words, question["pointer"]


def test_every_fact_of_a_site_stands_in_its_home_or_its_equipment() -> None:
    known = {f"/home/{n}" for n in Home.__struct_fields__}
    known |= {f"/equipment/{n}" for n in Equipment.__struct_fields__}
    site = {"place": {"state": "CA"}, "wishes": {}, "candidates": [{"id": "a", "battery": BATTERY}]}
    for pointer in asked(assess(site)):
        group = steps_of(pointer)[0]
        assert group in ("wishes", "candidates") or pointer in known
