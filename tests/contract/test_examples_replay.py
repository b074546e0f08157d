"""The examples are true: each request has exactly the answer that stands beside it."""

import json
from typing import Any

import pytest
from litestar.testing import TestClient

from service.app import operations
from service.check import Operation
from service.http.contract_examples import RESPONSE, Example, examples_of, request_files
from tests.contract.subject import EXAMPLES, component, contract, errors_of

REPLAYED = [
    pytest.param(operation, example, id=f"{operation.id}/{example.name}")
    for operation in operations()
    for example in examples_of(operation, EXAMPLES)
]
INCLUDED = [
    pytest.param(operation, example, include, id=f"{operation.id}/{example.name}/{include}")
    for operation in operations()
    for example in examples_of(operation, EXAMPLES)
    for include in (*operation.includes, ",".join(operation.includes))
    if include
]


def posted(client: TestClient[Any], path: str, example: Example) -> Any:
    return client.post(path, content=example.body, headers={"content-type": example.media})


def canonical(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()


@pytest.mark.parametrize("operation, example", REPLAYED)
def test_an_example_is_answered_byte_for_byte(
    client: TestClient[Any], operation: Operation, example: Example
) -> None:
    answer = posted(client, operation.path, example)
    assert answer.status_code == 200, answer.text
    assert answer.content == canonical(example.response), (
        "if the change is meant: python -m tests.contract.write_examples"
    )


@pytest.mark.parametrize("operation, example", REPLAYED)
def test_an_example_fits_the_contract_closed_on_both_sides(
    operation: Operation, example: Example
) -> None:
    document = contract(closed_answers=True)
    request = component(document, operation.request.__name__)
    answer = component(document, operation.answer.__name__)
    assert example.is_raw or errors_of(document, request, example.request) == []
    assert errors_of(document, answer, example.response) == []


@pytest.mark.parametrize("operation, example, include", INCLUDED)
def test_an_answer_with_what_it_can_include_fits_the_closed_contract(
    client: TestClient[Any], operation: Operation, example: Example, include: str
) -> None:
    answer = posted(client, f"{operation.path}?include={include}", example)
    document = contract(closed_answers=True)
    assert answer.status_code == 200, answer.text
    assert errors_of(document, component(document, operation.answer.__name__), answer.json()) == []


def test_every_operation_has_an_example_and_no_file_stands_alone() -> None:
    ids = {operation.id for operation in operations()}
    assert {folder.name for folder in EXAMPLES.iterdir()} == ids
    for folder in EXAMPLES.iterdir():
        names = [path.name for path in folder.iterdir()]
        requests = {name for name, _, _ in request_files(folder)}
        answers = {name.removesuffix(RESPONSE) for name in names if name.endswith(RESPONSE)}
        assert requests == answers, folder.name
        assert requests, folder.name
        assert len(names) == len(requests) + len(answers), folder.name


def test_no_example_is_above_40_kb() -> None:
    for path in EXAMPLES.rglob("*.json"):
        assert path.stat().st_size <= 40_000, path.name


def test_the_contract_leads_with_the_first_example_of_every_operation() -> None:
    for operation in operations():
        first = examples_of(operation, EXAMPLES)[0]
        body = contract()["paths"][operation.path]["post"]["requestBody"]
        shown = body["content"]["application/json"]["examples"]
        assert next(iter(shown)) == first.name
        assert shown[first.name] == {"summary": first.summary, "value": first.request}
