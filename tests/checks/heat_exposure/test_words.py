"""Sentences name the cause, one number under one word, and nothing that reads as its opposite."""

import pytest

from service.findings import Verdict
from tests.checks.heat_exposure.requests import KNOWN, Body, answer, body, unit, walls

GARAGE = {"kind": "garage", "door_faces": "west"}


def statement(made: Body, rule: str) -> str:
    return next(one.statement for one in answer(made).findings if one.rule == rule)


def test_a_no_for_the_cold_speaks_of_the_cold() -> None:
    made = walls({"facing": 0}) | {"limits": {"highest": 200, "lowest": 60}}
    found = answer(made)
    assert found.verdict is Verdict.FAIL
    assert "colder than the unit allows" in found.summary
    assert "more than" not in found.summary
    assert "60 degF is allowed" in found.headline


def test_where_wind_and_sky_decide_no_missing_fact_is_blamed() -> None:
    made = walls({"facing": 270}) | {"limits": {"highest": 125, "lowest": -4}}
    found = answer(made)
    assert (found.verdict, found.questions) == (Verdict.UNDETERMINED, [])
    assert "wind and sky" in found.summary
    assert "missing" not in found.summary


def test_one_band_stands_in_headline_summary_and_finding() -> None:
    """With a limit of the air inside, the unit's own heat is in all of them."""
    limits = {"highest": 160, "lowest": -4, "speak_of": "inside"}
    made = unit(losses=150) | {"limits": limits}
    found, words = answer(made), statement(made, "heat-limit")
    band = words.split(" is ")[1].split(",")[0]
    assert band in found.headline
    assert band in found.summary
    assert "air inside" in found.summary
    assert "air inside" in found.headline


def test_a_stated_curve_is_not_called_absent() -> None:
    made = body(limits={"highest": 160, "lowest": -4, "speak_of": "inside"})
    assert "no derating curve" not in statement(made, "heat-power")
    assert "no derating curve" in statement(body(derating=None), "heat-power")


@pytest.mark.parametrize("over", [0.02, 0.2, 0.6])
def test_a_number_that_holds_is_not_rounded_over_its_limit(over: float) -> None:
    most = answer(body()).walls[0].ambient.hot
    limit = round(most + over, 2)
    made = body(limits={"highest": limit, "lowest": -4})
    words = statement(made, "heat-limit")
    assert answer(made).findings[-1].verdict is Verdict.PASS
    assert float(words.split("; ")[1].split(" degF")[0]) <= limit
    coldest = answer(body()).climate.coldest_degf
    assert coldest is not None
    lowest = round(coldest - over, 2)
    words = statement(body(limits={"highest": 160, "lowest": lowest}), "cold-limit")
    assert float(words.split("is at ")[1].split(" degF")[0]) >= lowest


def test_a_garage_has_no_sun_in_its_words() -> None:
    found = answer(body(place=GARAGE, wall_air_rise=None))
    assert "in the garage" in found.summary
    for words in (found.summary, found.headline, *(one.statement for one in found.findings)):
        assert "sun" not in words


def test_no_sum_of_unknowns_is_printed_that_no_limit_could_hold() -> None:
    made = {"climate": KNOWN["climate"], "unit": {"width": 30, "height": 40, "depth": 2}}
    made["climate"] = {"kind": "site", "site": "palm_springs"}
    words = statement(made, "heat-limit")
    assert all(float(word) <= 212 for word in words.replace(";", " ").split() if word.isdigit())


def test_what_buys_nothing_is_no_alternative() -> None:
    made = walls({"facing": 0, "height": 240}) | {"climate": {"kind": "site", "site": "chino"}}
    made["unit"] = made["unit"] | {"absorptance": 0.1}
    assert not answer(made).alternatives


def test_a_rated_power_below_the_need_is_not_blamed_on_heat() -> None:
    full = [{"temperature": 212, "percent": 100}]
    made = body(derating=full, outage=KNOWN["outage"] | {"need_kw": 6})
    assert "too little in any air" in statement(made, "heat-power")


@pytest.mark.parametrize("made", [body(), body(place=None), body(place=GARAGE)])
def test_a_yes_says_that_it_screens(made: Body) -> None:
    found = answer(made)
    assert "screening estimate" in found.headline
    for words in (found.headline, found.summary):
        assert "feels" not in words
        assert "at least 0 %" not in words
