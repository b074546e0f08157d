"""A developer of a portal: answers that can be cached, compared and shown."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import pytest

from tests.assessment.sites import FRIDGE, PLAIN_BATTERY
from tests.journeys.conftest import Client, Json

_BODIES: dict[str, Json] = {
    "/v1/site-assessment": {
        "place": {"state": "CA"},
        "wishes": {"loads": [FRIDGE], "target_hours": 24},
        "home": {"type": "house"},
        "candidates": [{"id": "one", "battery": PLAIN_BATTERY}],
    },
    "/v1/outage-runtime": {
        "use": {"kind": "loads", "rows": [FRIDGE]},
        "battery": PLAIN_BATTERY,
        "target_hours": 24,
    },
}
_EVERY_PATH = pytest.mark.parametrize("path, body", _BODIES.items(), ids=_BODIES)
_DIGEST = "answer-digest"


def _post(client: Client, path: str, body: Json) -> Any:
    answer = client.post(path, json=body)
    assert answer.status_code == 200, answer.text
    return answer


@_EVERY_PATH
def test_the_same_request_twice_gives_the_same_bytes_and_digest(
    client: Client, path: str, body: Json
) -> None:
    first, second = _post(client, path, body), _post(client, path, body)
    assert first.content == second.content
    assert first.headers[_DIGEST] == second.headers[_DIGEST]
    assert first.headers["x-request-id"] != second.headers["x-request-id"]


@_EVERY_PATH
def test_the_digest_is_the_sha_256_of_the_answer(client: Client, path: str, body: Json) -> None:
    answer = _post(client, path, body)
    assert answer.headers[_DIGEST] == hashlib.sha256(answer.content).hexdigest()


@_EVERY_PATH
def test_a_reference_is_echoed_and_changes_no_digest(client: Client, path: str, body: Json) -> None:
    plain = _post(client, path, body)
    for reference in ("lead-1", "quote:2026.7"):
        answer = _post(client, path, {**body, "reference": reference})
        assert answer.json()["reference"] == reference
        assert answer.headers[_DIGEST] == plain.headers[_DIGEST]
        assert {**answer.json(), "reference": None} == plain.json()


@_EVERY_PATH
def test_another_fact_changes_the_digest(client: Client, path: str, body: Json) -> None:
    other = json.loads(json.dumps(body).replace('"target_hours": 24', '"target_hours": 23'))
    plain = _post(client, path, body)
    assert _post(client, path, other).headers[_DIGEST] != plain.headers[_DIGEST]


@_EVERY_PATH
def test_spaces_and_the_order_of_fields_in_the_body_change_nothing(
    client: Client, path: str, body: Json
) -> None:
    turned = dict(reversed(body.items()))
    spaced = json.dumps(turned, indent=3).encode()
    answer = client.post(path, content=spaced, headers={"Content-Type": "application/json"})
    assert answer.content == _post(client, path, body).content


@_EVERY_PATH
def test_a_quantity_with_its_unit_is_the_bare_number(client: Client, path: str, body: Json) -> None:
    texts = json.loads(json.dumps(body).replace('"target_hours": 24', '"target_hours": "1 d"'))
    assert texts != body
    assert _post(client, path, texts).content == _post(client, path, body).content


@_EVERY_PATH
def test_a_calculation_is_never_stored_on_the_way(client: Client, path: str, body: Json) -> None:
    headers = _post(client, path, body).headers
    assert headers["cache-control"] == "no-store"
    assert headers["vary"] == "Accept"
    assert headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "DELETE", "PATCH"])
@pytest.mark.parametrize("path", _BODIES)
def test_a_calculation_answers_no_method_but_post_and_says_so(
    client: Client, path: str, method: str
) -> None:
    answer = client.request(method, path)
    assert answer.status_code == 405
    assert answer.headers["allow"] == "OPTIONS, POST"


@pytest.mark.parametrize("path", _BODIES)
def test_options_tell_the_methods_of_a_calculation(client: Client, path: str) -> None:
    answer = client.options(path)
    assert (answer.status_code, answer.content) == (204, b"")
    assert answer.headers["allow"] == "OPTIONS, POST"


_READ = [
    "/openapi.json",
    "/docs",
    "/livez",
    "/readyz",
    "/v1/reference/facts",
    "/v1/reference/appliances",
    "/v1/reference/ids",
]


@pytest.mark.parametrize("path", _READ)
def test_head_tells_of_a_page_what_get_tells_without_its_body(client: Client, path: str) -> None:
    read, head = client.get(path), client.head(path)
    assert (read.status_code, head.status_code) == (200, 200)
    assert head.content == b""
    for name in ("content-type", "content-length", "etag", "cache-control"):
        assert head.headers.get(name) == read.headers.get(name), name


@pytest.mark.parametrize("path", _READ)
def test_options_tell_the_methods_of_a_page(client: Client, path: str) -> None:
    answer = client.options(path)
    assert (answer.status_code, answer.headers["allow"]) == (204, "GET, HEAD, OPTIONS")


@pytest.mark.parametrize("path", [p for p in _READ if p not in ("/livez", "/readyz")])
def test_a_page_that_did_not_change_is_not_sent_again(client: Client, path: str) -> None:
    tag = client.get(path).headers["etag"]
    again = client.get(path, headers={"If-None-Match": tag})
    assert (again.status_code, again.content) == (304, b"")


def test_every_id_that_an_answer_carries_is_explained_by_the_list(client: Client) -> None:
    known = {row["id"] for row in client.get("/v1/reference/ids").json()["rows"]}
    answer = _post(client, "/v1/site-assessment", _BODIES["/v1/site-assessment"]).json()
    used = {finding["rule"] for finding in answer["findings"]}
    used |= {caution["id"] for caution in answer["cautions"]}
    for candidate in answer["candidates"]:
        for check in candidate["checks"]:
            used |= {finding["rule"] for finding in check["findings"]}
            used |= {other["id"] for other in check["alternatives"]}
    assert used
    assert used <= known
