"""A position for which several climate sites are as fitting: the answer of each is shown."""

import pytest

from service.climate import climate_sites
from service.findings import Alternative, rank
from tests.checks.heat_exposure.requests import Body, answer, body

#: Positions for which several sites of one tier answer.
POINTS: list[Body] = [
    {"latitude": 33.95, "longitude": -117.4, "terrain": "inland_valley"},
    {"latitude": 33.75, "longitude": -116.36, "terrain": "low_desert"},
    {"latitude": 34.05, "longitude": -118.25},
]


def at(point: Body) -> Body:
    """Return the known request at a position."""
    return body(climate={"kind": "point"} | point)


def others(made: Body) -> list[Alternative]:
    """Return the other sites of an answer."""
    return [one for one in answer(made).alternatives if one.id == "other-climate-site"]


def felt(words: str) -> str:
    """Return the band that an alternative states first."""
    return words.split(" is ")[1].split(" instead of")[0]


@pytest.mark.parametrize("point", POINTS)
def test_each_feels_as_if_it_were_named(point: Body) -> None:
    shown = others(at(point))
    assert shown
    ids = {site.name: name for name, site in climate_sites().items()}
    for one in shown:
        name = one.reading.removeprefix("With the weather of ").removesuffix(" instead.")
        named = answer(body(climate={"kind": "site", "site": ids[name]}))
        assert f"is {felt(one.statement)} on the hottest days" in named.headline


@pytest.mark.parametrize("point", POINTS)
def test_the_answer_holds_for_all_of_them(point: Body) -> None:
    whole = answer(at(point))
    assert len(whole.climate.sites) > 1
    for one in others(at(point)):
        assert rank(one.verdict) >= rank(whole.verdict)
        assert one.flips_verdict == (one.verdict is not whole.verdict)


def test_the_hottest_of_them_is_no_other() -> None:
    names = [one.reading for one in others(at(POINTS[0]))]
    assert len(names) == len(set(names)) == len(answer(at(POINTS[0])).climate.sites) - 1


def test_a_named_site_and_a_county_have_no_other() -> None:
    assert others(body()) == []
    county = {"kind": "county", "state": "CA", "county": "Riverside"}
    assert others(body(climate=county)) == []
