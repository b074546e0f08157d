"""What holds for any answer: filled assumptions, questions, alternatives, no pass on an unknown."""

from typing import Any

import pytest

from service.checks.clearance.answer import ClearanceAnswer
from service.checks.clearance.other_readings import _readings
from service.checks.clearance.rule_numbers import numbers_of
from service.facts import filled
from service.findings import Verdict, rank
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import answer_of, request_of, rules

SEEDS = range(60)


def numbers(found: ClearanceAnswer) -> list[Any]:
    """Return where everything stands and may stand."""
    return [
        (one.id, one.placed, one.arrangement, one.units, one.way_before_in, one.way_left_in,
         one.barriers)
        for one in found.places
    ]  # fmt: skip


@pytest.mark.parametrize("seed", SEEDS)
def test_what_was_assumed_may_be_stated(seed: int) -> None:
    """The places stay, the verdict is no worse, the assumptions and their questions go.

    Where the units do not stand as assumed, and might if it were otherwise, `not yet` becomes `no`.
    """
    request = request_of(random_body(seed))
    found, told = answer_of(request), request
    for assumption in found.assumptions:
        told = filled(told, assumption.pointer, assumption.value)
    then = answer_of(told)
    assert then.assumptions == []
    assert numbers(then) == numbers(found)
    for one, other in zip(found.places, then.places, strict=True):
        short = one.verdict is Verdict.UNDETERMINED and one.placed < one.wanted
        assert rank(other.verdict) >= rank(one.verdict) or short
    still = {question.pointer for question in then.questions}
    assert not still & {assumption.pointer for assumption in found.assumptions}


@pytest.mark.parametrize("seed", SEEDS)
def test_a_question_changes_the_verdict_where_it_says_so_and_nowhere_else(seed: int) -> None:
    request = request_of(random_body(seed))
    found = answer_of(request, "brief")
    asked = answer_of(request).questions
    for question in asked:
        for value in question.range or ():
            then = answer_of(filled(request, question.pointer, value), "brief")
            if then.verdict is not found.verdict:
                assert question.can_change_verdict, question.pointer
                break
        else:
            assert not (question.can_change_verdict and question.range), question.pointer


def test_the_random_requests_ask_and_assume_enough() -> None:
    """Each of the properties above is met by many answers that could break it."""
    found = [answer_of(request_of(random_body(seed))) for seed in SEEDS]
    assert sum(len(one.assumptions) for one in found) > 200
    turning = [q for one in found for q in one.questions if q.can_change_verdict and q.range]
    assert len({question.pointer.rsplit("/", 1)[-1] for question in turning}) >= 8
    assert {one.verdict for one in found} >= {Verdict.FAIL, Verdict.UNDETERMINED}


def test_no_value_of_what_was_assumed_takes_a_yes_away() -> None:
    """A yes, be it on conditions, holds at every end of the range of each assumption.

    What the maker's instructions ask is not among them: that it is no more is a condition.
    """
    tried = 0
    for seed in range(150):
        request = request_of(random_body(seed) | {"home": "one_family", "state": "CA"})
        found = answer_of(request, "brief")
        if found.verdict not in (Verdict.PASS, Verdict.CONDITIONAL):
            continue
        for assumption in found.assumptions:
            if "/clearances/" in assumption.pointer:
                assert rules(found)["maker-clearance"] == "conditional"
                continue
            for value in assumption.range or ():
                then = answer_of(filled(request, assumption.pointer, value), "brief")
                assert rank(then.verdict) >= rank(Verdict.CONDITIONAL), assumption.pointer
                tried += 1
    assert tried > 100


@pytest.mark.parametrize("seed", SEEDS)
def test_a_reading_asked_for_gives_the_verdict_told_of_it(seed: int) -> None:
    """Every reading that changes the verdict is among the alternatives."""
    request = request_of(random_body(seed))
    found = answer_of(request)
    told = {one.id: one for one in found.alternatives}
    for reading in _readings(request, numbers_of(request)):
        then = answer_of(reading.request, "brief")
        if then.verdict is not found.verdict:
            assert told[reading.id].flips_verdict
        if reading.id in told:
            assert told[reading.id].verdict is then.verdict
