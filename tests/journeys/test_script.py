"""A script: MessagePack in and out says what JSON says."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from tests.assessment.leads import LEADS
from tests.assessment.sites import assumed, put
from tests.journeys.conftest import Client, Json

_JSON, _PACKED = "application/json", "application/vnd.msgpack"
_SITE = "/v1/site-assessment"
_ENCODE = {_JSON: msgspec.json.encode, _PACKED: msgspec.msgpack.encode}
_DECODE: dict[str, Any] = {_JSON: msgspec.json.decode, _PACKED: msgspec.msgpack.decode}
_CHOSEN = ("a refrigerator", "ranges", "two candidates", "everything known")


def _post(client: Client, body: Json, sent: str, wanted: str) -> tuple[Json, Any]:
    answer = client.post(
        _SITE, content=_ENCODE[sent](body), headers={"Content-Type": sent, "Accept": wanted}
    )
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"].split(";")[0] == wanted
    return _DECODE[wanted](answer.content), answer.headers


@pytest.mark.parametrize("name", _CHOSEN)
@pytest.mark.parametrize("sent, wanted", [(_JSON, _PACKED), (_PACKED, _JSON), (_PACKED, _PACKED)])
def test_an_answer_says_the_same_in_either_form_to_a_request_in_either_form(
    client: Client, name: str, sent: str, wanted: str
) -> None:
    usual, usual_headers = _post(client, LEADS[name], _JSON, _JSON)
    found, headers = _post(client, LEADS[name], sent, wanted)
    assert found == usual
    assert headers["answer-digest"] == usual_headers["answer-digest"]


def test_what_was_assumed_can_be_packed_and_sent_back(client: Client) -> None:
    lead = LEADS["a refrigerator"]
    answer, _ = _post(client, lead, _PACKED, _PACKED)
    filled, _ = _post(client, put(lead, *assumed(answer)), _PACKED, _PACKED)
    assert answer["assumptions"]
    assert filled["assumptions"] == []


@pytest.mark.parametrize("sent", [_JSON, _PACKED])
def test_the_same_fields_are_refused_in_either_form(client: Client, sent: str) -> None:
    body = {"place": {"state": 5}, "wishes": {"target_hours": True, "hours": 1}, "home": []}
    answer = client.post(_SITE, content=_ENCODE[sent](body), headers={"Content-Type": sent})
    assert answer.status_code == 422
    assert answer.headers["content-type"] == "application/problem+json"
    assert {error["pointer"] for error in answer.json()["errors"]} == {
        "/place/state",
        "/wishes/target_hours",
        "/wishes/hours",
        "/home",
    }


def test_an_answer_in_a_form_that_is_not_known_is_refused(client: Client) -> None:
    answer = client.post(_SITE, json=LEADS["a refrigerator"], headers={"Accept": "application/xml"})
    assert answer.status_code == 406
    assert _JSON in answer.json()["detail"]
    assert _PACKED in answer.json()["detail"]
