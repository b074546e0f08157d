"""One operation over HTTP: what is answered, and with which status what is not."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import msgspec
import pytest

from service.check import JSON, MSGPACK
from service.http.problem import PROBLEM_JSON
from tests.http.conftest import Client, Log
from tests.http.dummy_operation import BODY

_MINIMAL: dict[str, Any] = {"loads": [{"kind": "own", "name": "Lamp", "watts": 60}]}
_PLAIN = {"Content-Type": JSON}


def _post(client: Client, body: dict[str, Any], query: str = "", **headers: str) -> Any:
    sent = {"Content-Type": JSON, **{k.replace("_", "-"): v for k, v in headers.items()}}
    return client.post(f"/v1/dummy{query}", content=json.dumps(body).encode(), headers=sent)


def test_a_request_within_the_contract_is_answered_200(client: Client) -> None:
    assert _post(client, BODY).status_code == 200


def test_the_reference_is_echoed(client: Client) -> None:
    assert _post(client, BODY).json()["reference"] == "lead-0042"


def test_the_same_request_gets_the_same_bytes(client: Client) -> None:
    assert _post(client, BODY).content == _post(client, BODY).content


def test_an_answer_is_never_stored(client: Client) -> None:
    assert _post(client, BODY).headers["cache-control"] == "no-store"


def test_an_answer_states_its_language_and_what_it_varies_by(client: Client) -> None:
    headers = _post(client, BODY).headers
    assert (headers["content-language"], headers["vary"]) == ("en", "Accept")


def test_messagepack_says_what_json_says(client: Client) -> None:
    packed = client.post(
        "/v1/dummy",
        content=msgspec.msgpack.encode(BODY),
        headers={"Content-Type": MSGPACK, "Accept": MSGPACK},
    )
    assert packed.headers["content-type"] == MSGPACK
    assert msgspec.msgpack.decode(packed.content) == _post(client, BODY).json()


def test_included_parts_stand_in_the_answer_only_when_asked_for(client: Client) -> None:
    usual = _post(client, BODY).json()
    asked = _post(client, BODY, "?include=working,series").json()
    assert "working" not in usual
    assert {"working", "series"} <= set(asked)


def test_the_digest_is_that_of_the_default_answer_without_reference(client: Client) -> None:
    answer = _post(client, _MINIMAL)
    assert answer.headers["answer-digest"] == hashlib.sha256(answer.content).hexdigest()


@pytest.mark.parametrize(
    "query, accept, reference",
    [
        ("", JSON, "lead-0042"),
        ("?include=working", JSON, None),
        ("?include=working,series", MSGPACK, "lead-0043"),
        ("", MSGPACK, None),
    ],
)
def test_the_digest_is_the_same_however_the_answer_was_asked_for(
    client: Client, query: str, accept: str, reference: str | None
) -> None:
    usual = _post(client, _MINIMAL).headers["answer-digest"]
    body = _MINIMAL | ({"reference": reference} if reference else {})
    assert _post(client, body, query, Accept=accept).headers["answer-digest"] == usual


_REFUSALS = [
    # status, problem, body, headers, query
    (400, "malformed", b"", _PLAIN, ""),
    (400, "malformed", b"{", _PLAIN, ""),
    (400, "malformed", b'{"loads":1,"loads":2}', _PLAIN, ""),
    (400, "malformed", b"[" * 60_000, _PLAIN, ""),
    (406, "not-acceptable", b"{}", {**_PLAIN, "Accept": "text/html"}, ""),
    (413, "too-large", b" " * 65_537, _PLAIN, ""),
    (415, "unsupported-media-type", b"{}", {"Content-Type": "text/plain"}, ""),
    (415, "unsupported-media-type", b"{}", {}, ""),
    (415, "unsupported-media-type", b"{}", {**_PLAIN, "Content-Encoding": "gzip"}, ""),
    (422, "invalid", b"{}", _PLAIN, ""),
    (422, "invalid", b"{}", _PLAIN, "?include=nothing"),
    (422, "invalid", b"{}", _PLAIN, "?other=1"),
]


@pytest.mark.parametrize("status, problem, body, headers, query", _REFUSALS)
def test_a_refusal_is_a_problem_document_of_its_type(
    client: Client, status: int, problem: str, body: bytes, headers: dict[str, str], query: str
) -> None:
    answer = client.post(f"/v1/dummy{query}", content=body, headers=headers)
    told = answer.json()
    assert answer.headers["content-type"] == PROBLEM_JSON
    assert (answer.status_code, told["status"], told["type"]) == (
        status,
        status,
        f"/problems/{problem}",
    )


def test_an_empty_object_is_refused_with_every_missing_field(client: Client) -> None:
    assert [e["pointer"] for e in _post(client, {}).json()["errors"]] == ["/loads"]


def test_too_large_a_body_is_told_the_limit(client: Client) -> None:
    answer = client.post("/v1/narrow", content=b" " * 201, headers=_PLAIN)
    assert "200 bytes" in answer.json()["detail"]


def test_a_path_without_includes_refuses_the_parameter(client: Client) -> None:
    answer = client.post("/v1/narrow?include=working", content=b"{}", headers=_PLAIN)
    assert "there is none here" in answer.json()["detail"]


def test_rules_between_fields_are_refused_all_at_once(client: Client) -> None:
    answer = _post(client, _MINIMAL | {"fault": "refusals"})
    assert answer.status_code == 422
    assert [e["pointer"] for e in answer.json()["errors"]] == ["/colour", "/note"]


def test_a_request_that_the_calculation_refuses_is_422(client: Client) -> None:
    answer = _post(client, _MINIMAL | {"fault": "refused"})
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (422, "/note")


def test_too_much_work_is_refused_before_any_is_done(client: Client) -> None:
    answer = _post(client, _MINIMAL | {"predicted_ms": 1501, "fault": "raised"})
    assert (answer.status_code, answer.json()["type"]) == (422, "/problems/too-much-work")
    assert "1501 ms" in answer.json()["detail"]
    assert "1500 ms" in answer.json()["detail"]


@pytest.mark.parametrize("fault", ["raised", "nan"])
def test_a_fault_of_ours_is_an_honest_500_that_tells_nothing(client: Client, fault: str) -> None:
    answer = _post(client, _MINIMAL | {"fault": fault})
    assert (answer.status_code, answer.json()["type"]) == (500, "/problems/internal")
    assert "secret" not in answer.text


def test_a_fault_of_ours_leaves_its_traceback_in_the_log_under_the_request_id(
    client: Client, log: Log
) -> None:
    answer = _post(client, _MINIMAL | {"fault": "raised"})
    (fault,) = (line for line in log.lines if line["event"] == "fault")
    assert fault["request_id"] == answer.headers["x-request-id"]
    assert "secret detail" in fault["exception"]
