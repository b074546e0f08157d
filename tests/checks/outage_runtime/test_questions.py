"""Questions and assumptions keep what they claim: each is tried by filling the field in."""

import json
import random
from typing import Any

import pytest

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.findings import Question, rank
from service.quantities.encoder import round_answer, to_json
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, known, load, without
from tests.checks.outage_runtime.reruns import filled

TINY = without(known([load(20)]), "continuous_kw")
WEAK = without(known([load(100)]), "continuous_kw")
HUGE = TINY | {"battery": TINY["battery"] | {"energy": {"kind": "usable", "kwh": 1000}}}
SMALL_LOAD = without(known([load(20)], target_hours=4), "continuous_kw")


def drawn(seed: int) -> Body:
    """Return a request; every other one is of a strong unit and a target that it just may hold."""
    draw = random.Random(seed)
    body = random_requests.request(draw)
    if seed % 2:
        return body
    unit: Body = body["battery"] | {"split_phase": True}
    strong = body | {"battery": unit | ({"continuous_kw": 50} if "continuous_kw" in unit else {})}
    target = answered(strong).hours_typical * draw.uniform(0.5, 1.2)
    return strong | {"target_hours": min(max(target, 0.25), 336.0)}


def flips(body: Body, question: Question, answer: OutageRuntimeAnswer) -> bool:
    """Whether any value that the question names changes the verdict, by rerun."""
    assert question.range is not None
    reruns = [answered(filled(body, question.pointer, value)) for value in question.range]
    return any(rerun.verdict != answer.verdict for rerun in reruns)


@pytest.mark.parametrize("seed", range(60))
def test_a_question_changes_the_verdict_exactly_where_it_claims_to(seed: int) -> None:
    """Every value of its range is tried; a question without a range claims nothing."""
    body = drawn(3000 + seed)
    answer = answered(body)
    for question in answer.questions:
        if question.range is None:
            assert not question.can_change_verdict, question.pointer
        else:
            claimed = question.can_change_verdict
            assert claimed == flips(body, question, answer), question.pointer


AGED_7, AGED_10_5 = (
    without(known([load(500)], {"age_years": age}, target_hours=4), "warranty_years")
    for age in (7, 10.5)
)
PINNED: list[tuple[str, Body, str, bool]] = [
    # what, request, pointer of the question, whether it can change the verdict
    ("20 W fit any inverter, no target", TINY, "/battery/continuous_kw", False),
    ("20 W fit any inverter, a target held", SMALL_LOAD, "/battery/continuous_kw", True),
    ("all that may be asked for is held", HUGE, "/target_hours", False),
    ("80 hours are held, a week is not", WEAK, "/target_hours", True),
    # 10 years are usual, 15 at most: at 10.5 the unit may be within its warranty or beyond it.
    ("older than the usual warranty", AGED_10_5, "/battery/warranty_years", True),
    ("within any usual warranty", AGED_7, "/battery/warranty_years", False),
]


@pytest.mark.parametrize("what, body, pointer, claims", PINNED, ids=[case[0] for case in PINNED])
def test_what_a_question_claims(what: str, body: Body, pointer: str, claims: bool) -> None:
    answer = answered(body)
    (question,) = [one for one in answer.questions if one.pointer == pointer]
    assert question.can_change_verdict is claims, what
    assert flips(body, question, answer) is claims, what


def test_the_random_requests_bring_questions_that_decide_and_others() -> None:
    asked: dict[str, set[bool]] = {}
    for seed in range(60):
        for question in answered(drawn(3000 + seed)).questions:
            asked.setdefault(question.pointer.split("/")[-1], set()).add(
                question.can_change_verdict
            )
    for name in ("continuous_kw", "reserve_percent", "watts", "season"):
        assert asked[name] == {True, False}, name


def test_deciding_questions_come_first() -> None:
    for seed in range(20):
        claims = [one.can_change_verdict for one in answered(drawn(3000 + seed)).questions]
        assert claims == sorted(claims, reverse=True)


def test_watts_are_asked_of_a_load_that_runs_in_the_season() -> None:
    """In winter it is not the air conditioner that is asked about."""
    rows = [{"kind": "catalogue", "appliance": name} for name in ("ac_central_3t", "freezer")]
    pointers = [one.pointer for one in answered(known(rows, target_hours=12)).questions]
    assert "/use/rows/0/watts" not in pointers
    assert "/use/rows/1/watts" in pointers


def fill_all(body: Body) -> Body:
    """Fill in every assumption of the answer as the caller reads it, by its pointer."""
    sent: Any = json.loads(to_json(round_answer(answered(body))))
    for assumption in sent["assumptions"]:
        body = filled(body, assumption["pointer"], assumption["value"])
    return body


def numbers(answer: OutageRuntimeAnswer) -> list[float]:
    """Return the numbers that an answer works out, in one row."""
    found = [answer.hours_low, answer.hours_typical, answer.hours_high]
    for one in answer.readings:
        found += [one.start_kwh, one.hours_to_dark, one.normal_hours or 0, one.comfort_hours or 0]
    daily, marginal, power = answer.daily_energy, answer.marginal, answer.power
    found += [daily.low_kwh, daily.typical_kwh, daily.high_kwh]
    found += [marginal.more_energy_hours, marginal.more_power_hours]
    found += [answer.largest_constant_load_w or 0, answer.units.count or 0]
    found += [time for event in answer.events for time in (event.hours, event.hour_of_day)]
    return found + ([power.with_largest_kw, power.with_two_largest_kw] if power else [])


@pytest.mark.parametrize("seed", range(40))
def test_assumptions_filled_in_give_the_same_numbers_and_no_worse_verdict(seed: int) -> None:
    """The answer then carries neither those assumptions nor questions about their fields."""
    body = drawn(4000 + seed)
    before, after = answered(body), answered(fill_all(body))
    assert numbers(after) == pytest.approx(numbers(before), rel=1e-9, abs=1e-9)
    assert rank(after.verdict) >= rank(before.verdict)
    assert after.assumptions == []
    stated = {assumption.pointer for assumption in before.assumptions}
    assert not stated & {question.pointer for question in after.questions}


def test_every_absent_field_that_has_a_default_is_listed_as_an_assumption() -> None:
    """The barest request: what enters without having been said."""
    energy = {"kind": "nominal", "kwh": 10}
    bare = {"use": {"kind": "loads", "rows": [load(100)]}, "battery": {"energy": energy}}
    pointers = {
        assumption.pointer for assumption in answered(bare | {"target_hours": 1}).assumptions
    }
    assert pointers == {
        "/battery/count",
        "/battery/energy/depth_of_discharge",
        "/battery/losses/kind",
        "/battery/losses/efficiency",
        "/battery/losses/idle_watts",
        "/battery/reserve_percent",
        "/battery/floor_percent",
        "/battery/ambient",
        "/battery/age_years",
        "/battery/end_of_warranty_retention",
        "/target_tier",
        "/start_hour",
        "/season",
        "/power_limit_rule",
    }


def test_a_reserve_that_a_stated_charge_makes_idle_is_no_assumption() -> None:
    body = without(
        known([load(100)], {"start_charge_percent": 50}, target_hours=1), "reserve_percent"
    )
    answer = answered(body)
    assert "/battery/reserve_percent" not in [one.pointer for one in answer.assumptions]
    assert "/battery/reserve_percent" not in [one.pointer for one in answer.questions]
