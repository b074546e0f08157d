"""A check is registered once: the dummy appears wherever the house lists its checks."""

import json

import pytest

from service.app import operations
from service.assessment import site_assessment
from service.check import Check
from service.checks.outage_runtime import CHECK
from service.http.answering import Answering
from service.http.reference_lists import reference_lists
from tests.contract.dummy import DUMMY
from tests.contract.subject import EXAMPLES, contract_of

REQUEST = min((EXAMPLES / "site-assessment").glob("*.request.json")).read_bytes()


@pytest.fixture(scope="module")
def site() -> dict[str, object]:
    answering = Answering(site_assessment([CHECK, DUMMY]))
    taken, _ = answering.take(REQUEST)
    answer: dict[str, object] = json.loads(answering.answer(taken, frozenset()).body)
    return answer


def test_it_appears_in_the_contract() -> None:
    document = contract_of((*operations(), DUMMY), EXAMPLES)
    assert document["paths"]["/v1/dummy-check"]["post"]["operationId"] == "dummy_check"
    assert "DummyAnswer" in document["components"]["schemas"]


def test_it_appears_in_the_reference_lists() -> None:
    lists = {listed.id: json.loads(listed.body()) for listed in reference_lists((DUMMY,))}
    assert [row["id"] for row in lists["checks"]["rows"]] == ["dummy-check"]


def test_it_appears_in_the_site_assessment(site: dict[str, list[dict[str, list[object]]]]) -> None:
    assert site["candidates"]
    for candidate in site["candidates"]:
        checks = [summary["check"] for summary in candidate["checks"]]  # type: ignore[index]
        assert checks == ["outage-runtime", "dummy-check"]


def test_nothing_else_lists_the_checks() -> None:
    offered = [operation for operation in operations() if isinstance(operation, Check)]
    assert CHECK in offered


def test_a_check_takes_only_answers_of_checks_before_it() -> None:
    before: set[str] = set()
    for operation in operations():
        if isinstance(operation, Check):
            assert set(operation.after) <= before, operation.id
            before.add(operation.id)


def test_every_operation_has_a_path_of_its_own() -> None:
    ids = [operation.id for operation in operations()]
    assert len(ids) == len(set(ids))
