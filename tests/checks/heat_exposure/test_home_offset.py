"""How much hotter it is at the home than at its climate site: every temperature moves with it."""

import pytest

from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.climate_days import climate_days
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.reruns import Told, rerun
from service.checks.heat_exposure.verdicts import verdicts
from service.facts import filled
from tests.checks.heat_exposure.requests import (
    KNOWN,
    Body,
    answer,
    body,
    request_of,
    rules,
    walls,
    year_of,
)

NORTH = walls({"facing": 0}) | {"climate": {"kind": "site", "site": "chino"}}
FENCED = walls({"facing": 180, "screens": [{"distance": 4, "height": 9}]})
GARAGE = body(place={"kind": "garage", "door_faces": "west"}, wall_air_rise=None)
COUNTY: Body = {"kind": "county", "state": "CA", "county": "Los Angeles"}


@pytest.mark.parametrize("made", [body(), NORTH, FENCED, GARAGE, body(place=None)])
def test_every_day_and_the_year_are_as_much_hotter(made: Body) -> None:
    """The hottest days stay the same days: one step on all of the air changes no order."""
    bare, hot = (answer(made | {"outdoor_offset": offset}, "series") for offset in (0, 9))
    assert "hottest_there" in {day.day for day in hot.days}
    assert hot.days[-1].day == "typical"
    for day, then in zip(bare.days, hot.days, strict=True):
        assert (then.day, then.date, then.air_degf) == (day.day, day.date, day.air_degf)
        for end in ("low", "typical", "high", "hot"):
            assert getattr(then.ambient, end) == pytest.approx(getattr(day.ambient, end) + 9)
    assert year_of(hot).ambient.hot == pytest.approx(year_of(bare).ambient.hot + 9)
    cold = [found.climate.coldest_degf or 0.0 for found in (bare, hot)]
    assert cold[1] == pytest.approx(cold[0] + 9)


@pytest.mark.parametrize("lowest", [12, 20, 28, 36, 44, 52])
@pytest.mark.parametrize("made", [body(), GARAGE, body(climate=COUNTY)])
def test_the_cold_stands_by_the_difference_alone(made: Body, lowest: float) -> None:
    """A home as much warmer, a limit as much higher: the same."""
    found = {
        rules(answer(made | {"outdoor_offset": by, "limits": {"highest": 212, "lowest": low}}))[
            "cold-limit"
        ]
        for by, low in ((0, lowest), (9, lowest + 9), (-9, lowest - 9))
    }
    assert len(found) == 1


def test_an_offset_that_is_stated_leaves_no_error_of_the_distance() -> None:
    """Neither at the hot end nor at the cold one."""
    far = body(climate={"kind": "point", "latitude": 33.95, "longitude": -117.4})
    assert climate_days(request_of(far).climate).error > 0
    open_fact, known = answer(far), answer(far | {"outdoor_offset": 0})
    assert known.walls[0].ambient.hot < open_fact.walls[0].ambient.hot
    assert known.walls[0].ambient.high == pytest.approx(open_fact.walls[0].ambient.high)
    assert known.climate.coldest_degf == open_fact.climate.coldest_degf
    cold = [
        next(one.statement for one in found.findings if one.rule == "cold-limit")
        for found in (open_fact, known)
    ]
    assert cold[0] != cold[1]


def test_each_place_of_a_county_is_tried_as_if_it_were_named() -> None:
    """The first of them too, whose days stand among those at hand."""
    for highest in (100, 115, 130):
        made = body(climate=COUNTY, limits={"highest": highest, "lowest": -40})
        request = request_of(made)
        days = climate_days(request.climate)
        solved = columns(**arguments([request], [days], remedies=False))["solved"][0]
        sites = [{"kind": "site", "site": place.site} for place in days.places]
        told = [Told((("/climate", site),)) for site in sites]
        named = [verdicts([filled(request, "/climate", site)])[0] for site in sites]
        assert rerun(request, days, solved, told) == named


def test_outages_of_other_hours_are_not_worked_out_as_one() -> None:
    """The hottest day is sought in the hours of the outage too."""
    made = [
        request_of(NORTH | {"outage": KNOWN["outage"] | {"start_hour": start, "need_kw": need}})
        for start in (0, 6, 16)
        for need in (3.5, 4.2, 4.6)
    ]
    assert verdicts(made) == [verdicts([one])[0] for one in made]
