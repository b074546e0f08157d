"""Words of clearance answers: promises never made, headlines by verdict, whole sentences."""

import json
from typing import get_args

import msgspec
import pytest

from service.checks.clearance.answer import ClearanceAnswer
from service.checks.clearance.held import LABELS
from service.facts.transfer import SitingRuleId
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import (
    Body,
    answer,
    answer_of,
    body,
    finding,
    garage,
    opening,
    request_of,
    room,
    rules,
    unit,
    wall,
)

NEVER = ("whole home", "whole-home", "whole house", "guarantee", "no upgrade needed")
#: Verdict, how the headline begins.
BEGINS = {"pass": "sign. ", "conditional": "sign, subject to: ", "undetermined": "not yet. ",
          "fail": "no. "}  # fmt: skip
TELEPHONE = {"kind": "by_telephone", "id": "side", "where": "side_yard", "narrowest": 48}
MADE: list[Body] = [
    body(),
    body(garage()),
    body(room("bedroom")),
    body(TELEPHONE),
    body(wall(opening(60, 100)), units=[unit(count=4)]),
    *(random_body(seed) for seed in range(60)),
]


@pytest.fixture(scope="module")
def answers() -> list[ClearanceAnswer]:
    return [answer_of(request_of(made), "working") for made in MADE]


def sentences(found: ClearanceAnswer) -> list[str]:
    """Return what an answer says in whole sentences."""
    said = [found.headline, found.summary]
    said += [one.statement for one in found.findings]
    said += [one.statement for one in found.alternatives]
    said += [one.statement for one in found.fixes]
    said += [one.why for one in found.questions] + [one.text for one in found.cautions]
    return said + [one.what for one in found.measure] + [one.reading for one in found.alternatives]


def test_no_answer_promises_what_no_answer_can(answers: list[ClearanceAnswer]) -> None:
    for found in answers:
        words = json.dumps(msgspec.to_builtins(found)).lower()
        assert not [one for one in NEVER if one in words]


def test_headlines_begin_by_verdict(answers: list[ClearanceAnswer]) -> None:
    assert {str(found.verdict) for found in answers} == set(BEGINS)
    for found in answers:
        assert found.headline.startswith(BEGINS[found.verdict])


def test_conditions_stand_with_a_conditional_answer_and_no_other(
    answers: list[ClearanceAnswer],
) -> None:
    for found in answers:
        assert bool(found.conditions) is (found.verdict == "conditional")
        assert all(condition in found.headline for condition in found.conditions)


def test_every_sentence_is_whole(answers: list[ClearanceAnswer]) -> None:
    for found in answers:
        for said in sentences(found):
            assert said.endswith("."), said
            assert said is found.headline or not said[0].islower(), said
            plain = said.replace("S_DS", "SDS").replace("None of", "No one of")
            assert not [one for one in ("  ", " .", "..", "None", "_") if one in plain], said
        assert all(question.question.endswith("?") for question in found.questions)


def test_no_question_opens_a_cover(answers: list[ClearanceAnswer]) -> None:
    for found in answers:
        words = " ".join(question.question for question in found.questions).lower()
        assert not [one for one in ("remove", "take off", "unscrew", "dead front") if one in words]


def test_questions_that_decide_come_first(answers: list[ClearanceAnswer]) -> None:
    for found in answers:
        order = [question.can_change_verdict for question in found.questions]
        assert order == sorted(order, reverse=True)
        pointers = [question.pointer for question in found.questions]
        assert len(pointers) == len(set(pointers))


def test_the_worst_findings_come_first_and_give_the_verdict(
    answers: list[ClearanceAnswer],
) -> None:
    worst_first = list(BEGINS)[::-1]
    for found in answers:
        order = [worst_first.index(one.verdict) for one in found.findings]
        assert order == sorted(order)
        assert found.findings[0].verdict == found.verdict
        chosen = next((one for one in found.places if one.id == found.place), None)
        failed = [] if chosen is None else chosen.fails_by
        assert failed == [one.rule for one in found.findings if one.verdict == "fail"]


def test_every_rule_of_a_code_can_be_confirmed_and_then_stands_on_that_word() -> None:
    """A weak number is conditional until somebody confirms it as adopted; then it passes."""
    assert set(LABELS) == set(get_args(SitingRuleId))
    window = wall(opening(100, 36))
    open_ended = answer(body(window, confirmed_rules=[]))
    weak = {rule for rule, verdict in rules(open_ended).items() if verdict == "conditional"}
    assert weak == {"opening-distance", "working-space", "walkway", "unit-energy",
                    "location-energy", "handle-height", "flood-height"}  # fmt: skip
    (asked,) = [one for one in open_ended.questions if one.pointer == "/confirmed_rules"]
    assert asked.can_change_verdict
    for rule in weak:
        rest = sorted(weak - {rule})
        found = answer(body(window, confirmed_rules=rest))
        assert [one.rule for one in found.findings if one.verdict == "conditional"] == [rule]
        assert LABELS[rule] in found.conditions[0]
    assert answer(body(window, confirmed_rules=sorted(weak))).verdict == "pass"


def test_a_place_told_by_telephone_is_measured_before_it_is_answered() -> None:
    found = answer(body(TELEPHONE))
    assert (found.verdict, found.place, found.places) == ("undetermined", None, [])
    assert {one.how for one in found.measure} == {"tape", "photo"}
    assert "47 in" in finding(found, "place-known").statement
    narrow = answer(body(TELEPHONE | {"narrowest": {"value": 46, "within": 0}}))
    assert narrow.verdict == "undetermined"
    assert "short of the 47 in" in finding(narrow, "place-known").statement
