"""A range is in order wherever it stands: low, likely, high."""

from __future__ import annotations

import json
from typing import Annotated, Any

import pytest
from msgspec import Meta, Struct

from service.facts import FactRange, FactUnknown
from service.http.decoder import Decoder
from service.http.fact_order import order_errors, range_finder
from service.http.problem import Problem
from tests.http.dummy_operation import DummyRequest

_Number = Annotated[float, Meta(ge=0, le=9)]
_Fact = _Number | FactRange[_Number] | FactUnknown


class Inner(Struct, forbid_unknown_fields=True, kw_only=True):
    """An object inside the request."""

    bare: FactRangeOnly | None = None
    fact: _Fact | None = None


class FactRangeOnly(Struct, forbid_unknown_fields=True, kw_only=True):
    """An object two steps inside the request."""

    fact: _Fact = 1.0


class Outer(Struct, forbid_unknown_fields=True, kw_only=True):
    """Ranges in every kind of place."""

    fact: _Fact = 1.0
    inner: Inner | None = None
    many: Annotated[list[_Fact], Meta(max_length=3)] = []
    named: Annotated[dict[Annotated[str, Meta(max_length=9)], _Fact], Meta(max_length=3)] = {}
    one_or_many: _Number | Annotated[list[_Fact], Meta(max_length=3)] = 1.0


class NoFacts(Struct):
    """A request without any range."""

    number: _Number


_decoder = Decoder(Outer)
_WRONG = {"as": "range", "low": 2, "high": 1}
_RIGHT = {"as": "range", "low": 1, "likely": 1, "high": 2}
_PLACES = [
    # body with the range in it, pointer of the range
    ({"fact": ...}, "/fact"),
    ({"inner": {"fact": ...}}, "/inner/fact"),
    ({"inner": {"bare": {"fact": ...}}}, "/inner/bare/fact"),
    ({"many": [1, ...]}, "/many/1"),
    ({"named": {"a/b": ...}}, "/named/a~1b"),
    ({"one_or_many": [...]}, "/one_or_many/0"),
]


def _with(body: Any, range_: Any) -> Any:
    if body is ...:
        return range_
    if isinstance(body, dict):
        return {name: _with(held, range_) for name, held in body.items()}
    return [_with(held, range_) for held in body] if isinstance(body, list) else body


@pytest.mark.parametrize("body, pointer", _PLACES)
def test_a_range_out_of_order_is_refused_wherever_it_stands(body: Any, pointer: str) -> None:
    with pytest.raises(Problem) as caught:
        _decoder.decode(json.dumps(_with(body, _WRONG)).encode())
    assert [error.pointer for error in caught.value.errors] == [f"{pointer}/low"]


@pytest.mark.parametrize("body, pointer", _PLACES)
def test_a_range_in_order_is_taken_wherever_it_stands(body: Any, pointer: str) -> None:
    decoded = _decoder.decode(json.dumps(_with(body, _RIGHT)).encode())
    assert isinstance(decoded, Outer), pointer


_ORDERS = [
    # low, likely, high, pointers of the errors
    (1, None, 1, []),
    (1, 1, 1, []),
    (1, 2, 3, []),
    (2, None, 1, ["/low"]),
    (1, 0, 3, ["/likely"]),
    (1, 4, 3, ["/likely"]),
    (2, 5, 1, ["/low"]),
    ("b", "c", "a", []),
    (True, None, False, []),
]


@pytest.mark.parametrize("low, likely, high, pointers", _ORDERS)
def test_the_order_is_low_likely_high(low: Any, likely: Any, high: Any, pointers: Any) -> None:
    assert [error.pointer for error in order_errors(low, likely, high)] == pointers


def test_a_request_without_ranges_is_not_searched_for_them() -> None:
    assert range_finder(NoFacts) is None


def test_a_request_with_ranges_is_searched_for_them() -> None:
    assert range_finder(DummyRequest) is not None
