"""Answers of the heat check: reference cells, what stands and what does not, both ends."""

from typing import Any

import pytest
from msgspec import UNSET

from service.findings import Verdict
from tests.checks.heat_exposure.requests import (
    KNOWN,
    Body,
    answer,
    body,
    rules,
    unit,
    walls,
    year_of,
)

#: Place, optical depths of 2009, highest [degC] and range [K] of its annual design day, local day,
#: wall: peak of the equivalent ambient at 17 W/(m2 K), without and with 3 h of lag [degC]. Worked
#: out apart from this product, the top's loss at 3.9 K, which is 0.02 K less here.
REFERENCE = [
    ("riverside", (33.95, -117.43), (0.448, 2.037), (37.3, 15.4, 233), 270, 50.74, 45.69),
    ("riverside", (33.95, -117.43), (0.448, 2.037), (37.3, 15.4, 233), 180, 48.86, 45.11),
    ("riverside", (33.95, -117.43), (0.448, 2.037), (37.3, 15.4, 233), 0, 41.12, 38.95),
    ("palm springs", (33.83, -116.50), (0.485, 1.942), (44.0, 13.7, 202), 270, 57.02, 52.49),
    ("palm springs", (33.83, -116.50), (0.485, 1.942), (44.0, 13.7, 202), 180, 54.24, 50.83),
]
#: Faces of the reference: front 0.6710, side 0.2581, top 0.1677 m2.
WIDTH, HEIGHT, DEPTH = 0.6604, 1.016, 0.254


def degf(celsius: float) -> float:
    return celsius * 1.8 + 32.0


@pytest.mark.parametrize("name, at, depths, day, facing, at_once, lagged", REFERENCE)
def test_the_windy_end_is_that_of_reference_cells(
    name: str, at: Any, depths: Any, day: Any, facing: float, at_once: float, lagged: float
) -> None:
    made = walls({"facing": facing, "height": 2400})
    made["climate"] = {
        "kind": "design_day",
        "highest": degf(day[0]),
        "daily_range": day[1] * 1.8,
        "day_of_year": day[2],
        "latitude": at[0],
        "longitude": at[1],
        "utc_offset_hours": -8,
        "depths": {"edition": "ashrae_2009", "beam": depths[0], "diffuse": depths[1]},
    }
    made["unit"] |= {
        "width": f"{WIDTH} m",
        "height": f"{HEIGHT} m",
        "depth": f"{DEPTH} m",
        "standoff": 0,
    }
    (found,) = answer(made).days
    assert found.day == "design"
    assert found.at_once.low == pytest.approx(degf(at_once), abs=0.2), name
    assert found.ambient.low == pytest.approx(degf(lagged), abs=0.2)
    assert found.ambient.low < found.ambient.typical < found.ambient.high


def test_air_alone_sun_and_lag_stand_side_by_side() -> None:
    for day in answer(body()).days:
        assert day.air_degf < day.ambient.low < day.at_once.low < day.front.low
        for row in day.hours:
            assert row.low <= row.typical <= row.high


def test_the_default_days_are_the_hottest_percentile_the_hottest_month_and_a_typical_one() -> None:
    found = answer(body())
    roles = ["hottest_percentile", "hottest_month", "hottest_there", "typical"]
    assert [day.day for day in found.days] == roles
    assert found.estimate == "screening_and_ranking"
    assert found.days[-1].ambient.high < found.days[0].ambient.high


def test_the_worse_of_both_hot_days_counts() -> None:
    found = answer(body())
    assert found.walls[0].ambient.high == max(day.ambient.high for day in found.days[:3])


def shown_high() -> float:
    return answer(body()).walls[0].ambient.high


#: Limit over the highest of the band shown [degF], and how it stands. Everything is known but wind
#: and sky, of which the sky's part alone lies beyond the band.
LIMITS = [(20.0, "pass"), (0.05, "undetermined"), (-2.0, "undetermined"), (-60.0, "fail")]


@pytest.mark.parametrize("over, verdict", LIMITS)
def test_a_limit_within_and_beyond_the_band(over: float, verdict: str) -> None:
    made = body(limits={"highest": shown_high() + over, "lowest": -4})
    assert rules(answer(made))["heat-limit"] == verdict


def test_all_known_passes_and_nothing_is_asked_that_decides() -> None:
    found = answer(body())
    assert found.verdict is Verdict.PASS
    assert not [question for question in found.questions if question.can_change_verdict]
    assert found.assumptions == []


UNKNOWN = [
    (body(limits=None), "heat-limit", "/limits/highest"),
    (body(derating=None), "heat-power", "/derating"),
    (body(limits={"highest": 160}), "cold-limit", "/limits/lowest"),
]


@pytest.mark.parametrize("made, rule, pointer", UNKNOWN)
def test_what_is_not_known_is_no_pass_and_is_asked(made: Body, rule: str, pointer: str) -> None:
    found = answer(made)
    assert rules(found)[rule] in ("undetermined", "conditional")
    assert found.verdict is not Verdict.PASS
    asked = {question.pointer: question for question in found.questions}
    assert asked[pointer].can_change_verdict


def test_limits_of_the_air_inside_need_the_heat_of_the_unit() -> None:
    inside = {"highest": 160, "lowest": -4, "speak_of": "inside"}
    found = answer(body(limits=inside))
    assert rules(found)["heat-limit"] == "undetermined"
    assert "/unit/losses" in {question.pointer for question in found.questions}
    told = unit(losses=150, enclosure="painted_steel")
    told["limits"] = inside | {"highest": 212}
    both = (answer(body(limits={"highest": 212, "lowest": -4})), answer(told))
    around, within = (
        next(one.actual for one in found.findings if one.rule == "heat-limit") for found in both
    )
    assert around is not None
    assert within is not None
    # 150 W over 5.5 W/(m2 K) and 1.535 m2 of faces are 17.8 K.
    area = (38 * 28 + 2 * 28 * 14 + 38 * 14) * 0.0254**2
    assert within - around == pytest.approx(150 / (5.5 * area) * 1.8, rel=0.001)


def test_own_heat_is_not_added_to_a_rated_ambient() -> None:
    told = unit(losses=400)
    assert answer(told).days == answer(body()).days
    assert rules(answer(told)) == rules(answer(body()))


POWER = [(0.5, "pass"), (4.999, "fail")]


@pytest.mark.parametrize("need, verdict", POWER)
def test_power_that_is_needed_against_what_heat_leaves(need: float, verdict: str) -> None:
    outage = KNOWN["outage"] | {"need_kw": need}
    assert rules(answer(body(outage=outage)))["heat-power"] == verdict


def test_power_and_energy_of_the_hottest_and_a_typical_day() -> None:
    hottest, typical = answer(body()).power
    assert (hottest.day, typical.day) == ("hottest", "typical")
    assert hottest.least_percent_low < typical.least_percent_low
    assert hottest.least_kw == pytest.approx(5 * hottest.least_percent_low / 100)
    assert hottest.energy_kwh == 12
    assert hottest.off_hours == 0


def test_without_a_need_what_is_left_is_the_condition() -> None:
    outage = {name: value for name, value in KNOWN["outage"].items() if name != "need_kw"}
    found = answer(body(outage=outage))
    assert found.verdict is Verdict.CONDITIONAL
    assert any("of its power" in condition for condition in found.conditions)


def test_north_is_cooler_than_west_and_walls_within_a_kelvin_are_alike() -> None:
    found = answer(walls({"facing": 270}, {"facing": 0}, {"facing": 268}))
    assert found.walls[0].id == "wall-1"
    assert found.spot == "wall-1"
    by_id = {wall.id: wall for wall in found.walls}
    assert by_id["wall-1"].alike
    assert not by_id["wall-0"].alike
    assert abs(by_id["wall-0"].behind_degf - by_id["wall-2"].behind_degf) < 1.8


def test_shade_and_colour_buy_something_and_both_the_most() -> None:
    found = answer(unit(absorptance=0.9))
    off = {remedy.id: remedy.takes_off.typical for remedy in found.remedies}
    assert 0 < off["full-shade"] <= off["shade-and-lighter"]
    assert 0 < off["lighter-colour"] <= off["shade-and-lighter"]


def test_the_shade_told_comes_to_what_the_alternative_said() -> None:
    limits = {"highest": shown_high() - 2, "lowest": -4}
    found = answer(body(limits=limits))
    said = next(one for one in found.alternatives if one.id == "full-shade")
    told = walls({"full_shade": True})
    told["limits"] = limits
    assert answer(told).verdict is said.verdict
    assert said.flips_verdict


def test_a_tree_of_full_leaf_is_full_shade_in_its_hours() -> None:
    tree = walls({"tree": {"through_percent": [0]}})
    shade = walls({"full_shade": True})
    assert answer(tree).days == answer(shade).days
    part = answer(walls({"tree": {"through_percent": [50], "from_hour": 12, "to_hour": 18}}))
    bare = answer(body())
    assert answer(shade).walls[0].ambient.high < part.walls[0].ambient.high
    assert part.walls[0].ambient.high < bare.walls[0].ambient.high


def test_an_eave_and_a_fence_take_sun_off() -> None:
    bare = answer(walls({})).walls[0].ambient.typical
    for shade in (
        {"eave": {"depth": 60, "height": 60}},
        {"screens": [{"distance": 4, "height": 12}]},
    ):
        assert answer(walls(shade)).walls[0].ambient.typical < bare


def test_a_garage_has_no_sun_and_a_hotter_afternoon() -> None:
    west, other = (
        answer(body(place={"kind": "garage", "door_faces": door}, wall_air_rise=None))
        for door in ("west", "other")
    )
    assert not [*west.walls, *west.remedies, *west.alternatives]
    assert west.spot == "garage"
    assert other.days[0].ambient.typical < west.days[0].ambient.typical
    # 8 K in the afternoon at most, less what the lag takes off.
    assert west.days[0].ambient.high < west.days[0].air_degf + 8 * 1.8


def test_a_garage_is_three_to_eight_kelvin_hotter_on_an_afternoon() -> None:
    garage = {"kind": "garage", "door_faces": "other"}
    day = answer(body(place=garage, wall_air_rise=None)).days[0]
    excess = [band - day.air_degf for band in (day.at_once.low, day.at_once.high)]
    assert excess == pytest.approx([3 * 1.8, 8 * 1.8])
    assert day.at_once.typical - day.air_degf == pytest.approx(5.5 * 1.8)


#: Lowest allowed over the coldest hour of the typical year [degF], and how it stands: 10.8 degF of
#: hard winters and 5.8 of a clear sky lie below that hour.
COLD = [(12, "fail"), (1, "conditional"), (-5, "conditional"), (-16, "conditional"), (-17, "pass")]


@pytest.mark.parametrize("over, verdict", COLD)
def test_the_lowest_allowed_against_the_coldest_hour(over: float, verdict: str) -> None:
    coldest = answer(body()).climate.coldest_degf
    assert coldest is not None
    made = body(limits={"highest": 160, "lowest": coldest + over})
    assert rules(answer(made))["cold-limit"] == verdict


def test_nothing_known_of_the_place_holds_for_all_of_them() -> None:
    anywhere = answer(body(place=None))
    assert anywhere.spot == "anywhere"
    one = anywhere.days[0].ambient
    for facing in (0, 90, 180, 270):
        day = answer(walls({"facing": facing, "height": None})).days[0]
        assert one.low <= day.ambient.low + 0.11
        assert day.ambient.high <= one.high + 0.11
    asked = {question.pointer for question in anywhere.questions}
    assert "/place" in asked


def test_the_year_comes_with_the_series_alone() -> None:
    bare, found = answer(body()), answer(body(), "series")
    assert bare.year is UNSET
    year = year_of(found)
    for row, day in zip(year.hours, found.days[0].hours, strict=True):
        assert row.low <= row.typical <= row.high
        assert row.air >= day.air
    assert found.series is not UNSET
    ids = [line.id for line in found.series]
    assert "year/ambient/calm" in ids
    assert "hottest-day/ambient/calm" in ids
    assert year.facing_deg == 270


def test_the_year_is_at_least_as_hot_as_its_hottest_days() -> None:
    found = answer(body(), "series")
    # A day that repeats is hotter than the same day after a cooler one, by what the lag keeps.
    assert year_of(found).ambient.high > found.walls[0].ambient.high - 5


def test_a_design_day_has_no_year_and_no_winter() -> None:
    climate = {"kind": "design_day_at_site", "highest": 100, "daily_range": 25, "site": "riverside"}
    found = answer(body(climate=climate))
    assert [day.day for day in found.days] == ["design", "typical"]
    assert found.days[0].air_degf == pytest.approx(100, abs=0.05)
    cloudless = {
        "kind": "design_day",
        "highest": 100,
        "daily_range": 25,
        "day_of_year": 230,
        "latitude": 34,
        "longitude": -117,
        "utc_offset_hours": -8,
        "depths": {"edition": "ashrae_2013", "beam": 0.45, "diffuse": 2},
    }
    alone = answer(body(climate=cloudless), "series")
    assert [day.day for day in alone.days] == ["design"]
    assert alone.year is None
    assert rules(alone)["cold-limit"] == "conditional"
    assert alone.verdict is Verdict.CONDITIONAL


def test_a_place_too_far_from_every_climate_site_has_no_answer() -> None:
    found = answer(body(climate={"kind": "point", "latitude": 0, "longitude": 0}))
    assert found.verdict is Verdict.UNDETERMINED
    assert [finding.rule for finding in found.findings] == ["climate-too-far"]
    assert found.days == []


def test_the_sentences_name_the_band_and_promise_nothing() -> None:
    for made in (body(), body(place=None), body(place={"kind": "garage"})):
        found = answer(made)
        assert " to " in found.summary
        assert "By estimate" in found.summary
        assert {"heat-screening", "estimate-not-design"} <= {one.id for one in found.cautions}
