"""MessagePack is read as strictly as JSON: the same values, every name once."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.check import MSGPACK
from service.http.decoder import Decoder
from service.http.msgpack_body import parse, repeats_a_name
from service.http.problem import Problem
from tests.http.dummy_operation import BODY, DummyRequest

_decoder = Decoder(DummyRequest)
_LOADS = msgspec.msgpack.encode("loads") + msgspec.msgpack.encode(BODY["loads"])


def test_a_messagepack_body_is_the_request_that_the_same_json_is() -> None:
    packed = msgspec.msgpack.encode(BODY)
    assert _decoder.decode(packed, MSGPACK) == _decoder.decode(msgspec.json.encode(BODY))


def test_a_text_with_a_unit_is_taken_in_messagepack_too() -> None:
    request: Any = _decoder.decode(msgspec.msgpack.encode(BODY | {"length": "12 in"}), MSGPACK)
    assert request.length == 1.0


_values = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(-(2**63), 2**64 - 1),
        st.floats(allow_nan=False),
        st.text(max_size=40),
        st.binary(max_size=5),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=20), st.dictionaries(st.text(max_size=40), inner, max_size=20)
    ),
    max_leaves=30,
)


@given(_values)
def test_a_value_without_repeats_is_never_taken_for_one_with(value: Any) -> None:
    # Floats in four bytes and long forms of lengths are no writer's shortest form.
    long_form = b"\xdd\x00\x00\x00\x02\xca\x3f\x80\x00\x00" + msgspec.msgpack.encode(value)
    assert not repeats_a_name(msgspec.msgpack.encode(value))
    assert not repeats_a_name(long_form)


_REPEATS = [
    b"\x82\xa1a\x01\xa1a\x02",
    b"\x82\xa1a\x01\xd9\x01a\x02",  # the same name, its length written in two ways
    b"\x82\xda\x00\x01a\x01\xdb\x00\x00\x00\x01a\x02",
    b"\xde\x00\x02\xa1a\xc0\xa1a\xc0",
    b"\xdf\x00\x00\x00\x02\xa1a\xcb\x3f\xf0\x00\x00\x00\x00\x00\x00\xa1a\xc3",
    b"\x91\x82\xa1a\x90\xa1a\x80",
    b"\x82\xa1a\x82\xa1b\x01\xa1c\x02\xa1a\x02",
    b"\x81\xa1a\xdc\x00\x01\x82\xa1b\xc4\x01\x00\xa1b\xd4\x05\x01",
]


@pytest.mark.parametrize("body", _REPEATS)
def test_a_name_that_stands_twice_in_a_map_is_found(body: bytes) -> None:
    assert repeats_a_name(body)


def test_a_repeated_name_is_malformed() -> None:
    with pytest.raises(Problem, match="more than once") as caught:
        _decoder.decode(b"\x82" + _LOADS + _LOADS, MSGPACK)
    assert caught.value.type.id == "malformed"


_MALFORMED = [
    # body, words of the refusal
    (b"", "the body is empty"),
    (b"\x81\xa1a", "truncated"),
    (b"\x01\x02", "trailing characters"),
    (b"\xc1", "malformed"),
    (b"\x81\x81\x01\x01\x01", "map keys"),
    (b"\xa1\xff", "no UTF-8"),
    (b"\x91" * 100_000, "nested too deeply"),
]


@pytest.mark.parametrize("body, words", _MALFORMED)
def test_a_body_that_is_no_messagepack_is_malformed(body: bytes, words: str) -> None:
    with pytest.raises(Problem) as caught:
        parse(body)
    assert caught.value.type.id == "malformed"
    assert words in caught.value.detail


_FOREIGN = [
    # value of the field length, words of the refusal
    (b"\xc4\x01a", "binary or extension data"),
    (b"\xd4\x05\x01", "binary or extension data"),
    (b"\xd6\xff\x00\x00\x00\x00", "binary or extension data"),
    (b"\xcb\x7f\xf8\x00\x00\x00\x00\x00\x00", "beyond every bound"),
    (b"\xca\x7f\x80\x00\x00", "beyond every bound"),
]


@pytest.mark.parametrize("value, words", _FOREIGN)
def test_what_json_does_not_have_is_refused_at_its_pointer(value: bytes, words: str) -> None:
    with pytest.raises(Problem) as caught:
        _decoder.decode(b"\x82" + _LOADS + b"\xa6length" + value, MSGPACK)
    (error,) = caught.value.errors
    assert (caught.value.type.id, error.pointer) == ("invalid", "/length")
    assert words in error.detail


def test_a_name_that_is_no_text_is_refused() -> None:
    with pytest.raises(Problem) as caught:
        _decoder.decode(b"\x82" + _LOADS + b"\x01\x01", MSGPACK)
    assert "every name of an object must be a text" in caught.value.errors[0].detail
