"""What an answer says: its first word, its numbers rounded to the safe side, its cautions."""

import json
import math
import random
import re
from collections.abc import Iterator
from typing import Any

import pytest

from service.ids import listed
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, appliance, known, load, sent, without

FIRST_WORDS = {
    "pass": "sign. ",
    "conditional": "sign, subject to: ",
    "undetermined": "not yet. ",
    "fail": "no. ",
}
NEVER = ("whole home", "whole-home", "whole house", "guarantee", "no upgrade needed")
SEEDS = range(8000, 8060)


def drawn(seed: int) -> Body:
    return random_requests.request(random.Random(seed))


def texts(value: Any) -> Iterator[str]:
    """Return every text of an answer, however deep."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from texts(item)
    elif isinstance(value, list):
        for item in value:
            yield from texts(item)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_sentence_is_whole_and_promises_nothing(seed: int) -> None:
    """No word of promise, no empty or doubled piece, no placeholder, no number that is none."""
    for text in texts(json.loads(sent(drawn(seed), "working", "series", "energy_balance"))):
        folded = text.casefold()
        assert text.strip(), "an empty text"
        assert not any(word in folded for word in NEVER), text
        assert not re.search(r"\b(nan|inf|none|null|true|false)\b|  |\s[.,;]|\{|\}", folded), text


@pytest.mark.parametrize("seed", SEEDS)
def test_the_headline_begins_with_the_word_of_its_verdict(seed: int) -> None:
    """Then the conditions, then the numbers, then at most three deciding facts and their way."""
    answer = answered(drawn(seed))
    assert answer.headline.startswith(FIRST_WORDS[answer.verdict])
    rest = answer.headline.removeprefix(FIRST_WORDS[answer.verdict])
    said = "; ".join(answer.conditions)
    assert rest.startswith(said)
    deciding = [one for one in answer.questions if one.can_change_verdict]
    facts = "; ".join(f"{one.label} ({one.ask_by})" for one in deciding[:3])
    assert answer.headline.endswith(f" Could overturn it: {facts}.") == bool(deciding)
    for condition in answer.conditions:
        assert condition in answer.summary


HOURS = r"(?:at least )?([\d.]+) h"


@pytest.mark.parametrize("seed", SEEDS)
def test_hours_in_sentences_are_rounded_down(seed: int) -> None:
    """Low, typical and high in headline and summary: never above the number, within a tenth."""
    answer = answered(drawn(seed))
    summary = re.search(rf"run {HOURS} to {HOURS} .*?, {HOURS} in ordinary use", answer.summary)
    head = re.search(rf"{HOURS} to {HOURS}.*?{HOURS} at typical", answer.headline)
    assert summary is not None
    assert head is not None
    exact = (answer.hours_low, answer.hours_high, answer.hours_typical)
    for printed in (summary.groups(), head.groups()):
        for text, number in zip(printed, exact, strict=True):
            assert float(text) == math.floor(number * 10 + 1e-6) / 10


@pytest.mark.parametrize("seed", SEEDS)
def test_hours_in_the_bytes_are_rounded_down_and_needs_up(seed: int) -> None:
    body = drawn(seed)
    answer, bytes_of = answered(body), json.loads(sent(body))
    for name in ("hours_low", "hours_typical", "hours_high"):
        assert -1e-8 <= getattr(answer, name) - bytes_of[name] < 0.01
    for one, written in zip(answer.readings, bytes_of["readings"], strict=True):
        assert -1e-8 <= one.hours_to_dark - written["hours_to_dark"] < 0.01
        assert -1e-9 <= one.start_kwh - written["start_kwh"] < 0.001
    for level, number in bytes_of["daily_energy"].items():
        assert -1e-9 <= number - getattr(answer.daily_energy, level) < 0.001


TARGETS: list[tuple[float, str]] = [
    (9.99, "9.99 h"),
    (0.25, "0.25 h"),
    (24, "24 h"),
    (71.5, "71.5 h"),
]


@pytest.mark.parametrize("target, words", TARGETS)
def test_a_target_is_printed_as_it_was_stated(target: float, words: str) -> None:
    """Rounded down it would be easier to hold than what was asked for."""
    answer = answered(known([load(1000)], target_hours=target))
    (finding,) = [one for one in answer.findings if one.rule == "target-held"]
    assert f"where {words} are wanted" in finding.statement
    assert f"against {words}" in answer.headline


def test_a_target_that_is_missed_by_little_is_not_printed_as_held() -> None:
    """9.95 h where 9.99 h are wanted are not 9.9 h where 9.9 h are."""
    body = known([load(1000)], {"end_of_warranty_retention": 0.995}, target_hours=9.99)
    (finding,) = [one for one in answered(body).findings if one.rule == "target-held"]
    assert finding.verdict == "conditional"
    assert "9.9 h where 9.99 h are wanted" in finding.statement


def test_the_hours_of_a_pass_are_those_of_the_worst_ends() -> None:
    """Idle draw unstated, 20 to 60 W: 8 / 0.56 h at the worst end, not 8 / 0.54 h."""
    losses = {"kind": "round_trip", "efficiency": 1}
    answer = answered(known([load(500)], {"losses": losses}, target_hours=14))
    (finding,) = [one for one in answer.findings if one.rule == "target-held"]
    assert finding.verdict == "pass"
    assert finding.actual == pytest.approx(8 / 0.56)
    assert "14.2 h where 14 h are wanted" in finding.statement


DAY = {"kind": "day_profile", "critical": [300] * 24}
BILL = {"kind": "monthly_kwh", "monthly_kwh": 500}
EVERYTHING, CHOSEN = "Everything behind the main breaker", "The chosen circuits"
WHAT: list[tuple[str, Body, str]] = [
    ("loads", known([load(300)]), CHOSEN),
    ("day profile", known([], use=DAY), CHOSEN),
    ("bill", known([], use=BILL), EVERYTHING),
    ("all of the bill", known([], use=BILL | {"share_percent": 100}), EVERYTHING),
    ("a part of the bill", known([], use=BILL | {"share_percent": 40}), CHOSEN),
]


@pytest.mark.parametrize("what, body, words", WHAT, ids=[case[0] for case in WHAT])
def test_what_the_summary_speaks_of(what: str, body: Body, words: str) -> None:
    assert answered(body).summary.startswith(words), what


CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 25, "hysteresis_percent": 10}
ALWAYS = {"estimate-not-design", "ageing", "no-source"}
OF_LOADS = ALWAYS | {"running-power-only"}
#: Loads that nobody named may hold a refrigerator.
HIDDEN = ALWAYS | {"reserve-setting", "hidden-peaks", "cold-storage"}
CAUTIONS: list[tuple[str, Body, set[str]]] = [
    # what, request (a reserve is stated, no charge), cautions
    ("loads", known([load(300)]), OF_LOADS | {"reserve-setting"}),
    ("charge stated", known([load(300)], {"start_charge_percent": 50}), OF_LOADS),
    (
        "medical",
        known([appliance("medical_o2")]),
        OF_LOADS | {"reserve-setting", "medical-equipment"},
    ),
    (
        "medical, in the caller's words",
        known([load(50, life_support=True)]),
        OF_LOADS | {"reserve-setting", "medical-equipment"},
    ),
    (
        "marked as none",
        known([appliance("medical_cpap", life_support=False)]),
        OF_LOADS | {"reserve-setting", "medical-equipment"},
    ),
    ("cold", known([appliance("freezer")]), OF_LOADS | {"reserve-setting", "cold-storage"}),
    ("sump", known([appliance("sump_pump_third")]), OF_LOADS | {"reserve-setting", "sump-pump"}),
    ("bill", known([], use=BILL), HIDDEN),
    ("day profile", known([], use=DAY), HIDDEN),
    (
        "load control",
        known([load(300), load(10, tier="normal")], load_control=CONTROL),
        OF_LOADS | {"reserve-setting", "load-control"},
    ),
    (
        "load control of nothing",
        known([load(300)], load_control=CONTROL),
        OF_LOADS | {"reserve-setting"},
    ),
    (
        "tier shed",
        known([load(300), load(9000, tier="shed")]),
        OF_LOADS | {"reserve-setting", "left-out-loads"},
    ),
]


@pytest.mark.parametrize("what, body, ids", CAUTIONS, ids=[case[0] for case in CAUTIONS])
def test_cautions_stand_where_they_belong(what: str, body: Body, ids: set[str]) -> None:
    assert {caution.id for caution in answered(body).cautions} == ids, what


def test_what_will_not_run_is_named() -> None:
    answer = answered(known([load(300), load(9000, tier="shed", name="Kiln")]))
    assert answer.will_not_run == ["Kiln"]


MEDICAL = ("/medical_plan/utility_programme", "/medical_plan/second_plan")
PLANS: list[tuple[Body, set[str]]] = [
    ({}, set(MEDICAL)),
    ({"medical_plan": {"utility_programme": False}}, {MEDICAL[1]}),
    ({"medical_plan": {"utility_programme": True, "second_plan": True}}, set()),
]


@pytest.mark.parametrize("plan, asked", PLANS)
def test_life_support_asks_for_the_plans_that_are_not_stated(plan: Body, asked: set[str]) -> None:
    body = known([load(50, life_support=True)], target_hours=4) | plan
    pointers = {question.pointer for question in answered(body).questions}
    assert pointers & set(MEDICAL) == asked


def test_a_medical_device_that_is_left_out_needs_a_plan_of_its_own_and_stays_off() -> None:
    rows = [load(50), load(40, tier="shed", name="Concentrator", life_support=True)]
    answer = answered(known(rows, target_hours=4))
    assert answer.verdict == "conditional"
    assert answer.will_not_run == ["Concentrator"]
    assert answer.conditions == [
        "a second plan stands behind the medical equipment",
        "Concentrator stays off the backed-up circuits",
    ]


def test_conditions_of_both_seasons_stand_where_the_season_is_open() -> None:
    """Summer: 8 / 0.52 = 15.4 h aged, 10 / 0.52 = 19.2 h new; winter: 4 + 3.9 kW on 5 kW."""
    winter = {"season": "winter", "hours_per_day": 0.1}
    rows = [load(4000, name="Oven", **winter), load(3900, name="Kettle", **winter)]
    rows.append(load(500, watts_high=520, season="summer"))
    answer = answered(without(known(rows, target_hours=17), "season"))
    assert answer.verdict == "conditional"
    assert answer.conditions == [
        "the battery still holds the 10.0 kWh of today (summer outage)",
        "only one of the loads that are not on all day runs at a time (winter outage)",
    ]


def test_every_id_that_answers_carry_is_in_the_list() -> None:
    ids = {row.id for row in listed()}
    for seed in SEEDS:
        answer = answered(drawn(seed))
        carried = {one.rule for one in answer.findings} | {one.id for one in answer.cautions}
        assert carried | {one.id for one in answer.alternatives} <= ids
