"""Whatever is done to a good document, it is answered or refused."""

from __future__ import annotations

import math
from datetime import datetime
from typing import Any

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st

from service.check import Refused
from service.quantities.encoder import round_answer, to_json
from tests.load_profile.asking import asked
from tests.load_profile.exports import export, sections
from tests.load_profile.feeds import plain_feed, steps

GOOD = (
    plain_feed(steps(48)),
    export(datetime(2025, 3, 8), 60),
    sections(datetime(2025, 11, 1), 60, 60),
    "Start,Used (kWh),Sent (kWh)\n1/1/25 0:00,1,2\n1/1/25 1:00,,3\n1/1/25 2:00,4,\n",
)
PIECES = ["", "-", "0", "9", "<", ">", "&", '"', ",", "\n", " to ", "\0", "\u00a0", "NaN", "1e300"]
Edit = tuple[float, int, str]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    text = draw(st.sampled_from(GOOD))
    piece = st.sampled_from(PIECES) | st.text(max_size=4)
    edits = draw(st.lists(st.tuples(st.floats(0, 1), st.integers(0, 30), piece), max_size=6))
    for place, length, put in edits:
        at = int(place * len(text))
        text = text[:at] + put + text[at + length :]
    return text


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        return [n for item in value.values() for n in numbers(item)]
    if isinstance(value, list):
        return [n for item in value for n in numbers(item)]
    return [value] if isinstance(value, float) else []


def answered_or_refused(document: str) -> None:
    try:
        answer = asked(document, "day_shapes")
    except Refused as refused:
        assert [e.pointer for e in refused.errors] == ["/document"]  # noqa: PT017 - either will do
        return
    written = msgspec.json.decode(to_json(round_answer(answer)))
    assert all(math.isfinite(number) for number in numbers(written))
    assert written["statistics"]["readings"] > 0


@settings(max_examples=400)
@given(mutated())
def test_a_mutated_document_is_answered_or_refused(document: str) -> None:
    answered_or_refused(document)


@settings(max_examples=200)
@given(st.text(min_size=1, max_size=200))
def test_any_text_is_answered_or_refused(document: str) -> None:
    answered_or_refused(document)


values = st.floats(allow_nan=False, allow_infinity=False, width=32) | st.integers(-9, 9)
times = st.integers(1_700_000_000, 1_700_400_000) | st.integers(0, 2**33)
lengths = st.sampled_from([0, 1, 60, 300, 900, 1800, 3600, 7200, 86_400])


@settings(max_examples=300)
@given(st.lists(st.tuples(times, lengths, values), min_size=1, max_size=40))
def test_readings_at_random_are_answered_or_refused(
    made: list[tuple[int, int, float]],
) -> None:
    answered_or_refused(plain_feed(made))
