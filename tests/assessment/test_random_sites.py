"""Whatever a site holds inside the contract, the answer keeps its word."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from hypothesis import given, settings

from service.findings import Verdict
from tests.assessment.sites import Json, assess, assumed, best_of, put, ranked, worst_of
from tests.assessment.strategies import SITES


def _leaves(value: Any) -> Iterator[Any]:
    if isinstance(value, dict | list):
        for inside in value.values() if isinstance(value, dict) else value:
            yield from _leaves(inside)
    else:
        yield value


def _check_words(part: Json) -> None:
    assert part["verdict"] in set(Verdict)
    assert bool(part["conditions"]) == (part["verdict"] == "conditional")
    assert all(part["conditions"])


def _check_order(answer: Json) -> None:
    for name, key in (("assumptions", "pointer"), ("questions", "pointer"), ("cautions", "id")):
        found = [item[key] for item in answer[name]]
        assert len(found) == len(set(found)), name
    first = "/home/medical_equipment"
    order = [(q["pointer"] == first, q["can_change_verdict"]) for q in answer["questions"]]
    assert order == sorted(order, reverse=True)
    in_rounds = [pointer for part in answer["rounds"] for pointer in part["pointers"]]
    assert sorted(in_rounds) == sorted(question["pointer"] for question in answer["questions"])
    verdicts = [ranked(finding["verdict"]) for finding in answer["findings"]]
    assert verdicts == sorted(verdicts)


@settings(max_examples=25)
@given(SITES)
def test_a_random_site_is_answered_in_the_vocabulary_and_without_nan(site: Json) -> None:
    answer = assess(site)
    numbers = [leaf for leaf in _leaves(answer) if isinstance(leaf, float)]
    assert all(math.isfinite(number) for number in numbers)
    for part in (answer, *answer["candidates"]):
        _check_words(part)
    _check_order(answer)
    assert [c["id"] for c in answer["candidates"]] == [c["id"] for c in site["candidates"] or []]


@settings(max_examples=20)
@given(SITES)
def test_a_random_site_stands_as_its_best_candidate_and_its_own_findings(site: Json) -> None:
    answer = assess(site)
    best = best_of(c["verdict"] for c in answer["candidates"])
    assert answer["verdict"] == worst_of([best, *(f["verdict"] for f in answer["findings"])])
    for candidate in answer["candidates"]:
        for check in candidate["checks"]:
            if check["verdict"] in ("fail", "undetermined"):
                assert ranked(candidate["verdict"]) <= ranked(check["verdict"])


@settings(max_examples=12)
@given(SITES)
def test_a_random_site_filled_with_what_was_assumed_assumes_nothing(site: Json) -> None:
    answer = assess(site)
    filled = assess(put(site, *assumed(answer)))
    assert filled["assumptions"] == []
    assert ranked(filled["verdict"]) >= ranked(answer["verdict"])
