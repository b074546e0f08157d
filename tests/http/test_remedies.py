"""Every error says what to do; done, it is gone."""

from __future__ import annotations

import copy
import json
from typing import Any, NamedTuple

import pytest

from service.http.decoder import Decoder
from service.http.problem import Problem
from service.http.walk import MOST_ERRORS
from tests.http.dummy_operation import DummyRequest

_decoder = Decoder(DummyRequest)
_GOOD: dict[str, Any] = {
    "loads": [
        {"kind": "own", "name": "Lamp", "watts": 60},
        {"kind": "own", "name": "Fan", "watts": 40, "windows": [{"start_hour": 1, "end_hour": 2}]},
    ],
    "length": {"as": "range", "low": 5, "high": 50},
}
ABSENT = object()


class Case(NamedTuple):
    """A bad value at a pointer, the pointer of its error, words of the remedy, the remedy done."""

    at: str
    bad: Any
    error: str
    words: str
    mended: Any


_OWN = "/loads/0"
_CASES = [
    Case("/loads", ABSENT, "/loads", "add this field: a list of 1 to 60 items", _GOOD["loads"]),
    Case("/loads", [], "/loads", "give at least 1 item, not 0", _GOOD["loads"]),
    Case("/loads", 61 * _GOOD["loads"][:1], "/loads", "at most 60 items", _GOOD["loads"]),
    Case("/loads", None, "/loads", "not null", _GOOD["loads"]),
    Case(_OWN, 3, _OWN, 'an object whose "kind" is one of "catalogue", "own"', _GOOD["loads"][0]),
    Case(f"{_OWN}/kind", ABSENT, f"{_OWN}/kind", 'one of "catalogue", "own"', "own"),
    Case(f"{_OWN}/kind", "owm", f"{_OWN}/kind", '"own" perhaps', "own"),
    Case(f"{_OWN}/kind", 1, f"{_OWN}/kind", 'one of "catalogue", "own", not 1', "own"),
    Case(f"{_OWN}/name", ABSENT, f"{_OWN}/name", 'for example "Aquarium"', "Aquarium"),
    Case(f"{_OWN}/name", "", f"{_OWN}/name", "at least 1 characters", "Lamp"),
    Case(f"{_OWN}/name", "x" * 81, f"{_OWN}/name", "at most 80 characters, not 81", "x" * 80),
    Case(f"{_OWN}/name", "a\u0000b", f"{_OWN}/name", "remove character 2", "ab"),
    Case(f"{_OWN}/name", "a\u2028b", f"{_OWN}/name", "U+2028", "ab"),
    Case(f"{_OWN}/name", 5, f"{_OWN}/name", "write a text of 1 to 80 characters, not 5", "5"),
    Case(f"{_OWN}/watts", "12", f"{_OWN}/watts", 'write 12 or "12 W", not "12"', 12),
    Case(f"{_OWN}/watts", "12", f"{_OWN}/watts", 'write 12 or "12 W", not "12"', "12 W"),
    Case(f"{_OWN}/watts", "50001", f"{_OWN}/watts", "a bare number of W", 50_000),
    Case(f"{_OWN}/watts", "+012.50", f"{_OWN}/watts", "write 12.5 or", 12.5),
    Case(f"{_OWN}/quantity", "2", f"{_OWN}/quantity", 'write 2, not "2"', 2),
    Case(f"{_OWN}/quantity", "0", f"{_OWN}/quantity", "from 1 to 100, not the text", 1),
    Case(f"{_OWN}/watts", "12 m", f"{_OWN}/watts", "one of the units W", "12 W"),
    Case(f"{_OWN}/watts", "60 kW", f"{_OWN}/watts", "which is 60000 W", "50 kW"),
    Case(f"{_OWN}/watts", True, f"{_OWN}/watts", "not true", 1),
    Case(f"{_OWN}/watts", None, f"{_OWN}/watts", "not null", 1),
    Case(f"{_OWN}/watts", -1, f"{_OWN}/watts", "from 0 to 50000 W, not -1", 0),
    Case(f"{_OWN}/watts", 10**400, f"{_OWN}/watts", "not a number of more than 15", 50_000),
    Case(f"{_OWN}/duty", "0.5", f"{_OWN}/duty", 'write 0.5, not "0.5"', 0.5),
    Case(f"{_OWN}/quantity", 2.5, f"{_OWN}/quantity", "without decimals, not 2.5", 2),
    Case(f"{_OWN}/quantity", 0, f"{_OWN}/quantity", "whole number from 1 to 100, not 0", 1),
    Case(f"{_OWN}/life_support", "yes", f"{_OWN}/life_support", "true or false", True),
    Case(f"{_OWN}/tier", "critcal", f"{_OWN}/tier", '"critical" perhaps', "critical"),
    Case(f"{_OWN}/watt", 5, f"{_OWN}/watt", "no such field", ABSENT),
    Case(f"{_OWN}/watts_lo", 5, f"{_OWN}/watts_lo", 'write "watts_low" instead', ABSENT),
    Case(f"{_OWN}/a~1b~0", 5, f"{_OWN}/a~1b~0", "no such field", ABSENT),
    Case("/loads/1/windows/0/end_hour", ABSENT, "/loads/1/windows/0/end_hour", "add this", 2),
    Case("/length", "30 parsec", "/length", "one of the units", "30 m"),
    Case("/length", [], "/length", "or null, not a list", None),
    Case("/length/as", "rang", "/length/as", '"range" perhaps', "range"),
    Case("/length/low", 51, "/length/low", "not above `high`, which is 50", 50),
    Case("/length/low", "51 ft", "/length/low", "not above `high`, which is 50", "15 m"),
    Case("/length/likely", 4, "/length/likely", "from 5 to 50", 5),
    Case("/tags", {"a": 1, "b": 2, "c": 3, "d": 4, "e": 5}, "/tags", "at most 4 items", {}),
    Case("/tags", {"far too long": 1}, "/tags/far too long", "at most 8 characters", {"a": 1}),
    Case("/tags", {"a": 10}, "/tags/a", "from 0 to 9", {"a": 9}),
    Case("/reference", "a b", "/reference", "that matches", "a-b"),
    Case("/colour", None, "/colour", "or leave the field out", ABSENT),
]


def _put(pointer: str, value: Any) -> dict[str, Any]:
    body: Any = copy.deepcopy(_GOOD)
    *steps, last = (s.replace("~1", "/").replace("~0", "~") for s in pointer.split("/")[1:])
    here = body
    for step in steps:
        here = here[int(step)] if isinstance(here, list) else here[step]
    place: Any = int(last) if isinstance(here, list) else last
    if value is ABSENT:
        here.pop(place, None)
    else:
        here[place] = value
    return dict(body)


def _decode(body: Any) -> Any:
    return _decoder.decode(json.dumps(body).encode())


def _errors(body: Any) -> tuple[Any, ...]:
    with pytest.raises(Problem) as caught:
        _decode(body)
    return caught.value.errors


@pytest.mark.parametrize("case", _CASES, ids=lambda case: f"{case.at}={str(case.bad)[:20]!r}")
def test_an_error_names_its_field_and_its_remedy(case: Case) -> None:
    (error,) = _errors(_put(case.at, case.bad))
    assert error.pointer == case.error
    assert case.words in error.detail


@pytest.mark.parametrize("case", _CASES, ids=lambda case: f"{case.at}={str(case.mended)[:20]!r}")
def test_the_remedy_done_the_error_is_gone(case: Case) -> None:
    assert _decode(_put(case.at, case.mended))


def test_a_number_beyond_a_double_is_refused_at_its_pointer() -> None:
    with pytest.raises(Problem) as caught:
        _decoder.decode(b'{"loads":[{"kind":"own","name":"a","watts":1e400}]}')
    assert caught.value.errors[0].pointer == "/loads/0/watts"


def test_every_bad_field_is_told_at_once() -> None:
    bad = {"loads": [{"kind": "own", "watts": "x"}], "colour": "read", "lenght": 1, "note": ""}
    assert {e.pointer for e in _errors(bad)} == {
        "/loads/0/name",
        "/loads/0/watts",
        "/colour",
        "/lenght",
        "/note",
    }


def test_so_many_errors_that_nobody_reads_them_end_with_a_word_that_more_follow() -> None:
    errors = _errors(_GOOD | {f"unknown_{place}": 1 for place in range(500)})
    assert len(errors) == MOST_ERRORS + 1
    assert "more errors follow" in errors[-1].detail


def test_a_callers_own_text_is_never_repeated_at_length() -> None:
    errors = _errors(_GOOD | {"colour": "x" * 5000, "y" * 5000: 1})
    assert all(len(e.pointer) + len(e.detail) < 400 for e in errors)


def test_a_callers_own_text_is_repeated_in_printable_signs_alone() -> None:
    (error,) = _errors(_GOOD | {"colour": "\u202eder\u0000"})
    assert error.detail.isprintable()
