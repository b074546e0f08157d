"""What the assessment refuses beside what its contract refuses."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.http.problem import Problem
from tests.assessment.sites import FRIDGE, PLAIN_BATTERY, Json, assess, assessment, lead, put

_ANSWERING = assessment()


def _refused(site: Json) -> dict[str, str]:
    with pytest.raises(Problem) as caught:
        _ANSWERING.take(json.dumps(site).encode())
    assert caught.value.type.id == "invalid"
    return dict(caught.value.errors)


def _candidates(*ids: str) -> list[Json]:
    return [{"id": name, "battery": PLAIN_BATTERY} for name in ids]


def test_a_candidates_id_that_stands_twice_is_refused_where_it_comes_again() -> None:
    errors = _refused(lead(candidates=_candidates("a", "b", "a", "b", "a")))
    assert list(errors) == ["/candidates/2/id", "/candidates/3/id", "/candidates/4/id"]
    assert all("give each its own id" in detail for detail in errors.values())


def test_with_its_own_id_each_candidate_is_answered() -> None:
    answer = assess(lead(candidates=_candidates("a", "b", "A")))
    assert [candidate["id"] for candidate in answer["candidates"]] == ["a", "b", "A"]


#: pointer, bad value, pointer of the error, remedy done.
_BETWEEN_FIELDS: list[tuple[str, Any, str, Any]] = [
    (
        "/wishes/loads/1",
        {"kind": "own", "name": "Lamp", "watts": 5, "watts_low": 9},
        "/wishes/loads/1/watts_low",
        4,
    ),
    (
        "/wishes/loads/1",
        {"kind": "own", "name": "Lamp", "watts": 5, "watts_high": 3},
        "/wishes/loads/1/watts_high",
        6,
    ),
    (
        "/wishes/loads/1",
        {**FRIDGE, "hours_per_day": 5, "windows": [{"start_hour": 7, "end_hour": 9}]},
        "/wishes/loads/1/hours_per_day",
        2,
    ),
    (
        "/equipment/reserve_percent",
        {"as": "range", "low": 80, "high": 20},
        "/equipment/reserve_percent/low",
        10,
    ),
    (
        "/home/monthly_kwh",
        {"as": "range", "low": 100, "likely": 900, "high": 200},
        "/home/monthly_kwh/likely",
        150,
    ),
]


@pytest.mark.parametrize("pointer, bad, error, mended", _BETWEEN_FIELDS)
def test_a_rule_between_fields_is_refused_at_its_pointer_and_mended_there(
    pointer: str, bad: Any, error: str, mended: Any
) -> None:
    site = put(lead(wishes={"loads": [FRIDGE, FRIDGE]}), (pointer, bad))
    assert list(_refused(site)) == [error]
    assert assess(put(site, (error, mended)))["verdict"]


def test_every_rule_between_fields_is_told_at_once() -> None:
    site = lead(
        wishes={"loads": [{"kind": "own", "name": "Lamp", "watts": 5, "watts_low": 9}]},
        candidates=_candidates("a", "a"),
    )
    assert list(_refused(site)) == ["/wishes/loads/0/watts_low", "/candidates/1/id"]


@pytest.mark.parametrize(
    "pointer, value",
    [
        ("/home/medical_equipment", {"as": "coarse", "answer": "some"}),
        ("/home/monthly_kwh", {"as": "coarse", "answer": "mostly_full"}),
        ("/equipment/reserve_percent", {"as": "one_of", "values": []}),
        ("/home/type", {"as": "range", "low": "house", "high": "townhouse"}),
        ("/home/type", {"as": "unknown", "why": "nobody knows"}),
        ("/candidates", []),
        ("/place/state", "California"),
        ("/permit_date", "2026-02-30"),
    ],
)
def test_a_fact_takes_no_form_that_its_contract_does_not_list(pointer: str, value: Any) -> None:
    (error,) = _refused(put(lead(), (pointer, value)))
    assert error.startswith(pointer)
