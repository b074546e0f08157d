"""What a conditional candidate asks for: in every case that open facts leave possible."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.assessment.sites import Json, assess, hours, known_site, put

_RESERVE = "/equipment/reserve_percent"
_KEPT = "the charge kept for outages"


def _open(kwh: float, *facts: tuple[str, Any]) -> Json:
    """Return a site of which everything is known but some facts, with usable energy [kWh]."""
    site = put(known_site(), ("/candidates/0/battery/energy", {"kind": "usable", "kwh": kwh}))
    del site["candidates"][0]["battery"]["reserve_percent"]
    return put(site, (_RESERVE, 80), *facts)


def _reserve(*percents: float) -> tuple[str, Json]:
    return _RESERVE, {"as": "one_of", "values": list(percents)}


def _candidate(site: Json) -> Json:
    (candidate,) = assess(site)["candidates"]
    return dict(candidate)


# By hand: 48 h take 3.95 kWh; 7 kWh hold it new and from 80 %, not at 0.7 of that.
def test_what_is_asked_for_as_the_site_stands_has_no_if() -> None:
    candidate = _candidate(_open(7))
    assert (candidate["verdict"], candidate["because"]) == ("conditional", [])
    assert candidate["conditions"]
    assert all("(if " not in words for words in candidate["conditions"])


# By hand: of 14 kWh at 0.7 of it, 40.3 % hold 48 h.
def test_what_only_one_value_asks_for_names_the_fact_and_the_value() -> None:
    site = _open(14, (_RESERVE, {"as": "range", "low": 20, "likely": 60, "high": 100}))
    candidate = _candidate(site)
    assert candidate["because"][0] == f"conditional if {_KEPT} is 20"
    assert candidate["conditions"]
    assert all(words.endswith(f"(if {_KEPT} is 20)") for words in candidate["conditions"])


@pytest.mark.parametrize(
    "site",
    [
        _open(14, _reserve(20, 30, 90)),
        _open(5, _reserve(70, 90)),
        _open(7, ("/home/internet", None), _reserve(60, 80)),
        _open(14, ("/home/well_pump", {"as": "one_of", "values": ["v120", "v240"]})),
    ],
)
def test_every_condition_of_a_case_is_among_those_of_the_site(site: Json) -> None:
    site = put(site, ("/home/well_pump_watts", 1000))
    answer = assess(site)
    (candidate,) = answer["candidates"]
    assert candidate["verdict"] == "conditional"
    asked = {words.split(" (if ")[0] for words in candidate["conditions"]}
    for fact in answer["assumptions"]:
        for value in fact["range"]:
            case = _candidate(put(site, (fact["pointer"], value)))
            assert {words.split(" (if ")[0] for words in case["conditions"]} <= asked


def test_what_two_values_ask_for_names_both() -> None:
    site = _open(11, ("/home/well_pump", None), ("/home/well_pump_watts", 1000))
    candidate = _candidate(site)
    assert {
        "conditional if the well pump is v120",
        "conditional if the well pump is v240",
    } <= set(candidate["because"])
    for words in candidate["conditions"]:
        assert "v120" in words.split(" (if ")[1]
        assert "v240" in words.split(" (if ")[1]


@pytest.mark.parametrize("kwh", [7, 14, 900])
def test_a_sentence_never_promises_more_hours_than_were_worked_out(kwh: float) -> None:
    site = _open(kwh)
    (candidate,) = assess(site)["candidates"]
    low = hours(candidate)["hours-low"]
    said = f"{math.floor(low * 10 + 1e-6) / 10:g} h"
    figure = next(f for f in candidate["checks"][0]["figures"] if f["id"] == "hours-low")
    assert figure["at_least"] == (kwh == 900)
    assert ("at least " if figure["at_least"] else "") + said in assess(site)["headline"]
