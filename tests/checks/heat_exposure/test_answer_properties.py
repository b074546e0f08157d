"""What holds for any answer: filled assumptions, batches, questions, shade, mirror, own years."""

from typing import Any

import pytest

from service.checks.heat_exposure import CHECK
from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import BETWEEN_FACINGS
from service.checks.heat_exposure.verdicts import Judged, judge_all, verdicts
from service.climate import climate_sites, typical_year
from service.facts import filled
from service.findings import Verdict, rank
from tests.checks.heat_exposure.requests import Body, answer, body, request_of, unit, walls, year_of
from tests.checks.heat_exposure.test_requests import drawn

BARE = unit(absorptance=None, lag_hours=None, standoff=None, bottom=None)
BARE["place"] = {"kind": "outdoors", "walls": [{"id": "any", "facing": 250}]}
for _name in ("extreme_rise", "wall_air_rise"):
    del BARE[_name]
PARTLY = [
    BARE,
    BARE | {"place": {"kind": "outdoors", "walls": [{"id": "any"}]}},
    BARE | {"place": {"kind": "garage"}},
    BARE | {"place": None},
    BARE | {"limits": {"highest": 140}},
    BARE | {"limits": {}},
    BARE | {"derating": None, "outage": {}},
    BARE | {"outage": {"rated_kw": 5}},
]


def asked(made: Body) -> HeatExposureRequest:
    return request_of({name: value for name, value in made.items() if value is not None})


def run(request: HeatExposureRequest) -> Any:
    return CHECK.run(request, frozenset())


@pytest.mark.parametrize("made", PARTLY)
def test_what_was_assumed_may_be_stated(made: Body) -> None:
    """The numbers stay, the verdict is no worse, the assumption goes."""
    request = asked(made)
    found, told = run(request), request
    for assumption in found.assumptions:
        told = filled(told, assumption.pointer, assumption.value)
    then = run(told)
    assert then.assumptions == []
    assert rank(then.verdict) >= rank(found.verdict)
    for one, other in zip(then.days, found.days, strict=True):
        assert one.ambient.typical == pytest.approx(other.ambient.typical, abs=1e-3)
        assert one.front.high == pytest.approx(other.front.high, abs=1e-3)
    still = {question.pointer for question in then.questions}
    assert not still & {assumption.pointer for assumption in found.assumptions}


@pytest.mark.parametrize("made", PARTLY)
def test_a_question_that_says_so_changes_the_verdict(made: Body) -> None:
    request = asked(made)
    found = run(request)
    for question in found.questions:
        if question.range is not None:
            turned = [run(filled(request, question.pointer, v)).verdict for v in question.range]
            changes = any(then is not found.verdict for then in turned)
            assert changes is question.can_change_verdict, question.pointer


def test_no_value_of_what_is_not_known_takes_a_pass_away() -> None:
    made = BARE | {"limits": {"highest": 212, "lowest": -40}, "outage": {"rated_kw": 5}}
    made |= {"derating": [{"temperature": 212, "percent": 100}]}
    request = asked(made)
    found = run(request)
    assert found.verdict is Verdict.PASS
    for assumption in found.assumptions:
        for value in assumption.range or ():
            then = run(filled(request, assumption.pointer, value))
            assert then.verdict is Verdict.PASS, assumption.pointer


def judged_of(request: HeatExposureRequest) -> list[Judged]:
    """Return how every spot stands."""
    found = columns(**arguments([request], remedies=False))
    return judge_all(request, found["days"][0], found["solved"][0])


def least_part(request: HeatExposureRequest) -> float:
    """Return the least part of its power over all that is not known."""
    (judged,) = judged_of(request)
    assert judged.parts is not None
    return judged.parts.least


@pytest.mark.parametrize("start", [0, 6, 12, 18, 21])
def test_the_least_power_holds_for_every_lag_and_colour_that_may_be(start: float) -> None:
    """At night a slow unit is the hotter one: the least of a short window is not at one end."""
    open_ends = unit(absorptance=None, colour="medium", lag_hours=None)
    open_ends["outage"] = {"start_hour": start, "hours": 3}
    open_ends["derating"] = [
        {"temperature": 60, "percent": 100},
        {"temperature": 212, "percent": 0},
    ]
    request = request_of(open_ends)
    least = least_part(request)
    for lag in (2, 2.2, 2.6, 3, 3.3, 3.7, 4):
        for part in (0.6, 0.7, 0.8):
            told = filled(filled(request, "/unit/lag_hours", lag), "/unit/absorptance", part)
            assert least_part(told) >= least - 1e-3


def test_power_between_the_band_and_the_hot_end_is_no_pass() -> None:
    request = request_of(body(outage={"start_hour": 16, "hours": 8, "rated_kw": 5}))
    (judged,) = judged_of(request)
    assert judged.parts is not None
    least, band = judged.parts.least, judged.parts.shown_low
    assert least < band
    turns = [(least - 1e-6, "pass"), ((least + band) / 2, "undetermined"), (band + 1e-6, "")]
    for part, verdict in turns:
        told = filled(request, "/outage/need_kw", 5 * part)
        stands = next(one.verdict for one in run(told).findings if one.rule == "heat-power")
        assert stands == (verdict or stands)
        assert verdict or stands in (Verdict.UNDETERMINED, Verdict.FAIL)


SKY = [({"eave": {"depth": 30, "height": 90}}, True), ({"eave": {"depth": 1, "height": 90}}, False)]


@pytest.mark.parametrize("shade, covered", [*SKY, ({"full_shade": True}, True), ({}, False)])
def test_what_stands_over_a_unit_takes_the_cold_sky_from_it(shade: Body, covered: bool) -> None:
    cool, *usual, hot = arguments([request_of(walls(shade))])["sky_loss"][0].tolist()
    assert (cool, hot) == (63, 0)
    assert usual == [0 if covered else 63] * 3


def test_a_day_that_is_stated_has_no_hotter_one_added() -> None:
    climate = {"kind": "design_day_at_site", "highest": 100, "daily_range": 25, "site": "riverside"}
    ends = {hot_end(request_of(body(climate=climate, extreme_rise=rise))) for rise in (None, 0)}
    assert len(ends) == 1
    assert hot_end(request_of(body(extreme_rise=None))) > hot_end(request_of(body()))


@pytest.mark.parametrize("step", range(12))
def test_a_facing_between_those_tried_stays_within_them(step: int) -> None:
    unknown = asked(BARE | {"place": {"kind": "outdoors", "walls": [{"id": "any"}]}})
    most = _most(run(unknown))
    facing = 7.0 + 30.0 * step
    told = filled(unknown, "/place/walls/0/facing", facing)
    assert _most(run(told)) <= most


@pytest.mark.parametrize("site, facing", [("riverside", 237)])
def test_a_black_thin_unit_stays_within_the_facings_tried(site: str, facing: float) -> None:
    """What is between the directions tried needs the margin: without it both are hotter."""
    made = unit(width=40, height=60, depth=1, absorptance=1, lag_hours=2, bottom=None)
    made["climate"] = {"kind": "site", "site": site}
    made["place"] = {"kind": "outdoors", "walls": [{"id": "any"}]}
    request = request_of(made)
    most = hot_end(request)
    between = hot_end(filled(request, "/place/walls/0/facing", facing))
    assert most - BETWEEN_FACINGS < between < most


def hot_end(request: HeatExposureRequest) -> float:
    """Return the highest temperature over all that is not known [K]."""
    (judged,) = judged_of(request)
    assert judged.ends is not None
    return judged.ends.most


def _most(found: Any) -> float:
    """Return the hot end of the wall that stands first [degF]."""
    return float(found.walls[0].ambient.hot)


def test_a_batch_is_each_request_alone_and_its_whole_answer() -> None:
    requests = [asked(made) for made in PARTLY] + [request_of(drawn(seed)) for seed in range(30)]
    together = verdicts(requests)
    assert together == [verdicts([request])[0] for request in requests]
    assert together == [run(request).verdict for request in requests]
    assert len(set(together)) > 1


@pytest.mark.parametrize("facing", [20, 100, 200, 290])
def test_more_shade_is_never_hotter(facing: float) -> None:
    bare = answer(walls({"facing": facing, "height": None}))
    shades: list[Body] = [
        {"full_shade": True},
        {"eave": {"depth": 30, "height": 80}},
        {"screens": [{"distance": 5, "height": 8}]},
        {"tree": {"through_percent": [30]}},
    ]
    for shade in shades:
        found = answer(walls({"facing": facing, "height": None} | shade))
        assert _most(found) <= _most(bare)
        assert found.walls[0].ambient.low <= bare.walls[0].ambient.low + 1.5


def test_a_darker_unit_and_a_hotter_place_are_hotter() -> None:
    light, dark = (answer(unit(absorptance=part)) for part in (0.3, 0.8))
    hot = answer(body(extreme_rise=9))
    assert light.walls[0].ambient.high < dark.walls[0].ambient.low
    assert hot.walls[0].ambient.typical == pytest.approx(
        answer(body()).walls[0].ambient.typical + 9, abs=1e-6
    )


def test_own_hours_of_a_site_answer_as_the_site_does() -> None:
    site, year = climate_sites()["riverside"], typical_year("riverside")
    own = {
        "kind": "own_year",
        "latitude": site.latitude_deg,
        "longitude": site.longitude_deg,
        "utc_offset_hours": site.utc_offset_h,
        "ghi_w_m2": year.ghi.tolist(),
        "dni_w_m2": year.dni.tolist(),
        "dhi_w_m2": year.dhi.tolist(),
        "dry_bulb_degc": (year.dry_bulb - 273.15).round(1).tolist(),
    }
    mine, shipped = answer(body(climate=own), "series"), answer(body(), "series")
    for one, other in zip(mine.days, shipped.days, strict=True):
        assert one.date == other.date
        assert one.ambient.high == pytest.approx(other.ambient.high, abs=1e-6)
    assert year_of(mine).hours == year_of(shipped).hours


def test_a_county_spans_its_sites() -> None:
    county = answer(body(climate={"kind": "county", "state": "CA", "county": "Riverside"}))
    for site in county.climate.sites:
        one = answer(body(climate={"kind": "site", "site": site})).walls[0].ambient
        assert county.walls[0].ambient.low <= one.low + 0.11
        assert one.high <= county.walls[0].ambient.high + 0.11
    assert county.climate.temperature_error_degf > 0
