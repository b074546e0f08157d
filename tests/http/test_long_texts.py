"""A JSON body around one long document is bounded beside its texts, in one look."""

from __future__ import annotations

import time

import pytest

from service.check import MIB
from service.http.long_texts import refuse_structure
from service.http.problem import Problem

PASSING = [
    b"",
    b"[1,2,3]",
    b'{"document": "%s"}' % (b"a" * MIB),
    b'{"document": "%s", "reference": "r"}' % (b'\\"\\\\\\n' * (MIB // 6)),
    b'{"document": "%s' % (b"a" * MIB),
]
REFUSED = [
    b"[" * MIB,
    b'{"document": "a"}' + b" " * MIB,
    b'["a"' + b',"a"' * 10_000 + b"]",
    b'{"document": %s}' % (b"1" * MIB),
]


@pytest.mark.parametrize("body", PASSING)
def test_a_body_that_is_little_more_than_texts_passes(body: bytes) -> None:
    refuse_structure(body)


@pytest.mark.parametrize("body", REFUSED)
def test_a_body_of_anything_else_is_refused(body: bytes) -> None:
    with pytest.raises(Problem, match="Beside its texts") as caught:
        refuse_structure(body)
    assert caught.value.type.status == 413


# Each would take minutes if a text that never ends were looked for again from every quote.
UNENDED = [b'"' + b'\\"' * MIB, b'"' + b"\\" * (2 * MIB) + b'"', b'{"a": "' + b'\\\\"' * 400]


@pytest.mark.parametrize("body", UNENDED)
def test_the_look_takes_a_time_in_proportion_to_the_body(body: bytes) -> None:
    started = time.process_time()
    refuse_structure(body)
    assert time.process_time() - started < 5.0
