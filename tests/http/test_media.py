"""Media types: what a body may be written in, and which type an answer comes in."""

from __future__ import annotations

import pytest

from service.check import JSON, MSGPACK
from service.http.media import answer_media, body_media
from service.http.problem import Problem

_BOTH = (JSON, MSGPACK)

_READ = [
    # Content-Type, the media type it is read as
    (b"application/json", JSON),
    (b"Application/JSON", JSON),
    (b"application/json; charset=utf-8", JSON),
    (b'application/json;charset="UTF-8"', JSON),
    (b"application/json;", JSON),
    (b"application/vnd.msgpack", MSGPACK),
]
_NOT_READ = [
    None,
    b"",
    b"text/json",
    b"application/problem+json",
    b"application/json; charset=latin-1",
    b"application/json; version=1",
    b"application/vnd.msgpack; charset=utf-8",
    b"application/json, application/json",
    b"application/json" + b";" * 1000,
]


@pytest.mark.parametrize("header, media", _READ)
def test_a_content_type_of_ours_is_read(header: bytes, media: str) -> None:
    assert body_media(header, None, _BOTH) == media


@pytest.mark.parametrize(
    "media", ["text/csv", "text/xml", "application/xml", "application/atom+xml"]
)
def test_a_raw_text_may_say_that_it_is_utf8(media: str) -> None:
    assert body_media(f"{media}; charset=utf-8".encode(), None, (JSON, media)) == media
    with pytest.raises(Problem):
        body_media(f"{media}; charset=latin-1".encode(), None, (JSON, media))


def test_bytes_have_no_charset() -> None:
    with pytest.raises(Problem):
        body_media(b"application/octet-stream; charset=utf-8", None, ("application/octet-stream",))


@pytest.mark.parametrize("header", _NOT_READ)
def test_any_other_content_type_is_refused_with_those_that_are_read(header: bytes | None) -> None:
    with pytest.raises(Problem) as caught:
        body_media(header, None, _BOTH)
    assert caught.value.type.status == 415
    assert caught.value.headers == ((b"accept", b"application/json, application/vnd.msgpack"),)


def test_a_compressed_body_is_refused_with_the_encoding_that_is_read() -> None:
    with pytest.raises(Problem, match="uncompressed") as caught:
        body_media(b"application/json", b"gzip", _BOTH)
    assert caught.value.headers == ((b"accept-encoding", b"identity"),)


def test_the_encoding_identity_is_none() -> None:
    assert body_media(b"application/json", b"identity", _BOTH) == JSON


_ACCEPTED = [
    # Accept, the media type of the answer
    (None, JSON),
    (b"", JSON),
    (b"*/*", JSON),
    (b"application/*", JSON),
    (b"application/vnd.msgpack", MSGPACK),
    (b"application/json, application/vnd.msgpack", JSON),
    (b"application/json;q=0.5, application/vnd.msgpack", MSGPACK),
    (b"application/json;q=0, */*", MSGPACK),
    (b"*/*;q=0.1, application/vnd.msgpack;q=0.2", MSGPACK),
    (b"text/html, application/json;q=0.001", JSON),
    (b"text/html;q=2, */*", JSON),
    (b"application/json; charset=utf-8", JSON),
    (b"APPLICATION/JSON ; Q=1.000", JSON),
    (b"application/json;v=2, */*;q=0.5", JSON),
]
_NOT_ACCEPTED = [
    b"text/html",
    b"application/json;q=0",
    b"application/json;q=0, application/vnd.msgpack;q=0.0",
    b"application/json;v=2",
    b"application/json;q=-1",
    b"image/*",
    b"*/*;q=0",
    b"application/json" + b" " * 1000,
]


@pytest.mark.parametrize("header, media", _ACCEPTED)
def test_the_answer_comes_in_the_type_preferred(header: bytes | None, media: str) -> None:
    assert answer_media(header, _BOTH) == media


@pytest.mark.parametrize("header", _NOT_ACCEPTED)
def test_without_an_acceptable_type_there_is_no_answer(header: bytes) -> None:
    with pytest.raises(Problem) as caught:
        answer_media(header, _BOTH)
    assert caught.value.type.status == 406
    assert "application/vnd.msgpack" in caught.value.detail
