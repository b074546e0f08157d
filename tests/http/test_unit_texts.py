"""A text with a unit is the bare number it states, wherever the number may stand."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.http.decoder import Decoder
from tests.http.dummy_operation import DummyRequest

_decoder = Decoder(DummyRequest)
_LOAD: dict[str, Any] = {"kind": "own", "name": "Lamp", "watts": 60}

_TEXTS = [
    # text, the bare number; exact factors of the international foot and inch (NIST SP 811, B.8)
    ("30 ft", 30),
    ("30.48 m", 100),
    ("6 in", 0.5),
    ("3/4 in", 0.0625),
]


def _decode(length: Any) -> Any:
    return _decoder.decode(json.dumps({"loads": [_LOAD], "length": length}).encode())


@pytest.mark.parametrize("text, number", _TEXTS)
def test_a_text_with_a_unit_is_the_bare_number(text: str, number: float) -> None:
    assert _decode(text) == _decode(number)


@pytest.mark.parametrize("text, number", _TEXTS)
def test_a_text_with_a_unit_may_stand_in_a_range(text: str, number: float) -> None:
    texts = {"as": "range", "low": text, "likely": text, "high": "150 m"}
    assert _decode(texts).length.low == _decode({**texts, "low": number}).length.low == number


@pytest.mark.parametrize("text, number", _TEXTS)
def test_a_text_with_a_unit_may_stand_in_a_list_of_values(text: str, number: float) -> None:
    assert _decode({"as": "one_of", "values": [text, 7]}).length.values == [number, 7]
