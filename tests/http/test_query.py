"""The query knows include alone, each value once; everything else is refused by name."""

from __future__ import annotations

import pytest

from service.http.problem import Problem
from service.http.query import includes_asked, no_query

_KNOWN = ("working", "series")
_TAKEN = [
    (b"", set()),
    (b"include=working", {"working"}),
    (b"include=series,working", {"working", "series"}),
    (b"include=series%2Cworking", {"working", "series"}),
]
_REFUSED = [
    # query, words of the refusal
    (b"include=", 'remove ""'),
    (b"include", "write name=value"),
    (b"include=workin", 'write "working", not "workin"'),
    (b"include=all", 'include knows "working", "series"'),
    (b"include=working,working", 'write "working" once'),
    (b"include=working&include=series", "write include once"),
    (b"includes=working", 'remove the parameter "includes"'),
    (b"x=1&y=2", 'remove the parameter "y"'),
    (b"Include=working", 'remove the parameter "Include"'),
    (b"include=%ff", "in UTF-8"),
    (b"include=%00", 'remove "U+0000"'),
    (b"&", "write name=value"),
    (b"x=1&" * 30, "write name=value"),
    (b"include=" + b"a" * 3000, "write name=value"),
]


@pytest.mark.parametrize("query, includes", _TAKEN)
def test_includes_are_divided_by_commas(query: bytes, includes: set[str]) -> None:
    assert includes_asked(query, _KNOWN) == includes


@pytest.mark.parametrize("query, words", _REFUSED)
def test_anything_else_in_the_query_is_refused_by_name(query: bytes, words: str) -> None:
    with pytest.raises(Problem) as caught:
        includes_asked(query, _KNOWN)
    assert caught.value.type.id == "invalid"
    assert words in caught.value.detail


def test_every_fault_of_the_query_is_told_at_once() -> None:
    with pytest.raises(Problem) as caught:
        includes_asked(b"a=1&include=b&include=c", _KNOWN)
    assert all(word in caught.value.detail for word in ('"a"', '"b"', "include once"))


def test_a_path_that_knows_no_parameter_refuses_every_one() -> None:
    with pytest.raises(Problem, match="there is none here"):
        no_query(b"include=working")
