"""JSON is read strictly: one unambiguous text, and a refusal that says where it breaks."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.http.json_text import parse, repeats_a_name
from service.http.problem import Problem

_blanks = st.text(alphabet=" \t\r\n", max_size=2)
_names = st.sampled_from(["a", "b", ":", '"', '":', "a b", "é", "\\", "\n:", " :"])
_scalars = st.one_of(st.none(), st.booleans(), st.integers(), _names)


@st.composite
def _texts(draw: st.DrawFn, depth: int = 3) -> str:
    """Draw a JSON text with any blanks and escapes, names repeated as it happens."""
    before, after = draw(_blanks), draw(_blanks)
    kind = draw(st.integers(0, 3)) if depth else 0
    if kind == 0:
        inner = json.dumps(draw(_scalars), ensure_ascii=draw(st.booleans()))
    elif kind == 1:
        inner = "[" + ",".join(draw(st.lists(_texts(depth - 1), max_size=3))) + "]"
    else:
        members = draw(st.lists(st.tuples(_names, _texts(depth - 1)), max_size=4))
        inner = "{" + ",".join(f"{_name(draw, n)}:{v}" for n, v in members) + "}"
    return before + inner + after


def _name(draw: st.DrawFn, name: str) -> str:
    escaped = "".join(f"\\u{ord(c):04x}" for c in name)
    quoted = f'"{escaped}"' if draw(st.integers(0, 9)) == 0 else json.dumps(name)
    return draw(_blanks) + quoted + draw(_blanks)


def _has_repeats(text: str) -> bool:
    found: list[bool] = []

    def note(pairs: list[tuple[str, Any]]) -> None:
        found.append(any(count > 1 for count in Counter(name for name, _ in pairs).values()))

    json.loads(text, object_pairs_hook=note)
    return any(found)


@settings(max_examples=400)
@given(_texts())
def test_a_name_that_stands_twice_in_one_object_is_always_found(text: str) -> None:
    assert repeats_a_name(text.encode()) is _has_repeats(text)


def test_every_repeated_name_is_told_by_its_pointer() -> None:
    _, errors = parse(b'{"a":[{"b":1,"b":2}],"c/d":1,"c/d":2}')
    assert [error.pointer for error in errors] == ["/c~1d", "/a/0/b"]


def test_a_name_may_stand_in_neighbouring_objects() -> None:
    assert parse(b'[{"a":1},{"a":{"a":2}}]') == ([{"a": 1}, {"a": {"a": 2}}], [])


_MALFORMED = [
    # text, words of the refusal
    (b"", "the body is empty"),
    (b" \n\t", "the body is empty"),
    (b'{"a":1', "it ends too early"),
    (b'{"a":"b', 'unexpected """ at line 1, column 6 (byte 5)'),
    (b'{\n "a": tru}', 'unexpected "t" at line 2, column 7 (byte 8)'),
    (b'{"a":1}}', 'unexpected "}" at line 1, column 8 (byte 7)'),
    (b"{'a':1}", 'unexpected "\'" at line 1, column 2 (byte 1)'),
    (b'{"\xc3\xa9":01}', 'unexpected "1" at line 1, column 7 (byte 7)'),
    (b'{"a":NaN}', "NaN is no JSON number"),
    (b'{"a":Infinity}', "Infinity is no JSON number"),
    (b'{"a":-Infinity}', "-Infinity is no JSON number"),
    (b'{"a":"\\ud800"}', "\\ud800 at line 1, column 7 (byte 6) is half of a surrogate pair"),
    (b'{"a":"\\udc00\\ud800"}', "\\udc00 at line 1, column 7"),
    (b'{"a":"\\ud800\\\\udc00"}', "\\ud800 at line 1, column 7"),
    (b'{"a":"\xff"}', "byte 6 is no UTF-8"),
    (b'{"a":"\xed\xa0\x80"}', "byte 6 is no UTF-8"),
    (b'\xef\xbb\xbf{"a":1}', "byte order mark"),
    (b'{"a":"\x00"}', 'unexpected "U+0000" at line 1, column 7 (byte 6)'),
    (b"[" * 100_000, "nested too deeply"),
    (b'{"a":' * 100_000, "nested too deeply"),
]


@pytest.mark.parametrize("text, words", _MALFORMED)
def test_a_text_that_is_no_json_is_told_where_it_breaks(text: bytes, words: str) -> None:
    with pytest.raises(Problem) as caught:
        parse(text)
    assert caught.value.type.id == "malformed"
    assert words in caught.value.detail


@pytest.mark.parametrize("text", [b'"\\ud83d\\ude00"', b'"\\\\ud800"', b'"\\u00e9"'])
def test_whole_surrogate_pairs_and_escaped_backslashes_are_text(text: bytes) -> None:
    assert parse(text) == (json.loads(text), [])


def test_an_integer_of_any_length_is_read() -> None:
    assert parse(b"9" * 5000)[0] == float("inf")
