"""The operation behind the frame: raw or as JSON, bounded, private."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest
from litestar.testing import TestClient

from service.app import create_app
from service.check import JSON, MIB, MSGPACK
from service.http.gate import INLINE
from service.http.log import open_log
from service.load_profile import LOAD_PROFILE
from service.load_profile.request import LoadProfileRequest
from service.settings import Settings
from tests.load_profile.asking import as_json
from tests.load_profile.exports import MIDWINTER, export, sections
from tests.load_profile.feeds import plain_feed, steps

PATH = "/v1/load-profile"
FEED = plain_feed(steps(48))
EXPORT = export(MIDWINTER, 48)
Client = TestClient[Any]


@pytest.fixture(scope="module")
def log() -> io.BytesIO:
    return io.BytesIO()


@pytest.fixture(scope="module")
def client(log: io.BytesIO) -> Iterator[Client]:
    with TestClient(create_app(Settings(), log=open_log("debug", log))) as opened:
        yield opened


def posted(client: Client, body: bytes | str, media: str, query: str = "", **headers: str) -> Any:
    return client.post(PATH + query, content=body, headers={"content-type": media, **headers})


RAW = [
    # media type, document
    ("application/octet-stream", FEED),
    ("application/octet-stream", EXPORT),
    ("application/atom+xml", FEED),
    ("application/xml", FEED),
    ("application/xml; charset=utf-8", FEED),
    ("text/xml", FEED),
    ("text/csv", EXPORT),
    ("text/csv; charset=UTF-8", EXPORT),
]


@pytest.mark.parametrize("media, document", RAW)
def test_a_raw_document_has_the_very_answer_of_the_same_one_in_json(
    client: Client, media: str, document: str
) -> None:
    raw = posted(client, document, media)
    wrapped = posted(client, as_json(document), JSON)
    assert (raw.status_code, wrapped.status_code) == (200, 200), raw.text
    assert raw.content == wrapped.content
    assert raw.headers["answer-digest"] == wrapped.headers["answer-digest"]


def test_the_digest_is_the_same_with_a_reference_and_with_more_included(client: Client) -> None:
    plain = posted(client, as_json(FEED), JSON)
    named = posted(client, as_json(FEED, reference="lead-1"), JSON, "?include=day_shapes")
    assert named.json()["reference"] == "lead-1"
    assert len(named.json()["day_shapes"]) == 1
    assert named.headers["answer-digest"] == plain.headers["answer-digest"]


def test_it_answers_in_messagepack_too(client: Client) -> None:
    packed = posted(client, FEED, "text/xml", accept=MSGPACK)
    assert msgspec.msgpack.decode(packed.content) == posted(client, FEED, "text/xml").json()


def test_messagepack_is_no_body_of_it(client: Client) -> None:
    refused = posted(client, msgspec.msgpack.encode({"document": FEED}), MSGPACK)
    assert refused.status_code == 415
    assert "text/csv" in refused.headers["accept"]


LIMITS = [
    # media type, byte of the body, the limit that the refusal names
    ("text/csv", 24 * MIB + 1, "24 MiB"),
    ("application/json", 32 * MIB + 1, "32 MiB"),
]


@pytest.mark.parametrize("media, size, limit", LIMITS)
def test_a_longer_body_is_refused_with_its_limit(
    client: Client, media: str, size: int, limit: str
) -> None:
    refused = posted(client, b" " * size, media)
    assert refused.status_code == 413
    assert limit in refused.json()["detail"]


def test_a_document_of_the_full_size_is_judged_and_not_cut_off(client: Client) -> None:
    line = " " * 8191 + "\n"
    padded = EXPORT + line * ((24 * MIB - len(EXPORT)) // len(line))
    assert len(padded) > 24 * MIB - len(line)
    assert posted(client, padded, "text/csv").content == posted(client, EXPORT, "text/csv").content


STRUCTURES = [b'{"document":[%s1]}' % (b"1," * 9_000), b"[" * 20_000, b'["",%s""]' % (b'"",' * MIB)]


@pytest.mark.parametrize("body", STRUCTURES)
def test_a_json_body_of_anything_but_one_long_text_is_refused_unread(
    client: Client, body: bytes
) -> None:
    refused = posted(client, body, JSON)
    assert refused.status_code == 413
    assert "one text" in refused.json()["detail"]


def test_a_refusal_points_at_the_document(client: Client) -> None:
    for refused in (posted(client, "hello", "text/csv"), posted(client, as_json("hello"), JSON)):
        assert refused.status_code == 422
        assert [error["pointer"] for error in refused.json()["errors"]] == ["/document"]


def test_every_bad_field_is_told_at_once(client: Client) -> None:
    body = {"document": "", "utc_offset_hours": 99, "offset": 1}
    refused = posted(client, json.dumps(body), JSON)
    assert refused.status_code == 422
    pointers = {error["pointer"] for error in refused.json()["errors"]}
    assert pointers == {"/document", "/utc_offset_hours", "/offset"}


def test_nothing_of_a_document_stands_in_the_log_or_the_answer(
    client: Client, log: io.BytesIO
) -> None:
    words = ("Invented Way", "invented home", "Jane Invented", "4711-0815")
    private = "Jane Invented,4711-0815\n" + sections(MIDWINTER, 96)
    bad = "Jane Invented,kWh\n4711-0815,invented home\n"
    for document in (private, FEED, bad, FEED[:-40]):
        for reply in (
            posted(client, document, "application/octet-stream"),
            posted(client, as_json(document), JSON),
        ):
            assert not any(word in reply.text for word in words)
    assert log.getvalue().count(b"\n") > 8
    assert not any(word.encode() in log.getvalue() for word in words)


def test_a_document_of_more_than_some_hundred_readings_leaves_the_event_loop() -> None:
    request = LoadProfileRequest(document=plain_feed(steps(4000)))
    assert LOAD_PROFILE.work(request) > INLINE


def test_no_document_within_the_limit_asks_for_too_much_work() -> None:
    longest = LoadProfileRequest(document=" " * (24 * MIB))
    assert LOAD_PROFILE.work(longest) <= LOAD_PROFILE.work_limit


def test_the_profile_is_taken_as_it_is_by_the_outage_runtime(client: Client) -> None:
    year = posted(client, plain_feed(steps(8760)), "application/xml").json()["profile"]["watts"]
    body = {
        "use": {"kind": "interval_profile", "watts": year},
        "battery": {"energy": {"kind": "usable", "kwh": 12}, "continuous_kw": 5},
        "target_hours": 4,
    }
    answer = client.post("/v1/outage-runtime", json=body)
    assert answer.status_code == 200, answer.text
