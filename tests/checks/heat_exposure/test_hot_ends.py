"""What is not known stands no better than its worst value, and numbers say whose end they are."""

import numpy as np
import pytest

from service.checks.heat_exposure.answer import HeatExposureAnswer
from service.climate import climate_sites, typical_year
from service.findings import Verdict, rank
from tests.checks.heat_exposure.requests import (
    KNOWN,
    Body,
    answer,
    body,
    refused,
    rules,
    unit,
    walls,
    year_of,
)

WEST = walls({"facing": 270})
GARAGE = {"kind": "garage", "door_faces": "west"}
ALL_POWER = [{"temperature": 212, "percent": 100}]


def limited(made: Body, limit: float) -> Body:
    """Return the request with a limit, below which it has all of its power [degF]."""
    curve = [{"temperature": limit, "percent": 100}]
    return made | {"limits": {"highest": limit, "lowest": -40}, "derating": curve}


def most(made: Body) -> float:
    """Return the hot end [degF]."""
    return answer(limited(made, 212)).walls[0].ambient.hot


@pytest.mark.parametrize("limit", range(110, 170, 4))
@pytest.mark.parametrize("site", ["riverside", "palm_springs", "san_diego_miramar"])
def test_no_unknown_stands_better_than_its_worst_value(site: str, limit: float) -> None:
    """Colour, extremes, air at the wall: undetermined at best where the worst is no pass."""
    made = limited(WEST, limit) | {"climate": {"kind": "site", "site": site}}
    open_colour = made | {"unit": {k: v for k, v in made["unit"].items() if k != "absorptance"}}
    dark = made | {"unit": open_colour["unit"] | {"colour": "dark"}}
    pairs = [(open_colour, dark)]
    for name, end in (("extreme_rise", 10.8), ("wall_air_rise", 5.4)):
        pairs.append(({k: v for k, v in made.items() if k != name}, made | {name: end}))
    for unknown, worst in pairs:
        known = rank(answer(worst).verdict)
        assert rank(answer(unknown).verdict) <= max(known, rank(Verdict.UNDETERMINED))


FENCED: Body = {"facing": 180, "height": None, "screens": [{"distance": 3, "height": 8}]}
NO_STANDOFF: Body = {"width": 30, "height": 40, "depth": 8, "bottom": 36, "colour": "medium"}


@pytest.mark.parametrize("facing", [110, 180, 250])
def test_an_absent_standoff_before_a_fence_is_no_cooler_than_any_usual_one(facing: float) -> None:
    """Nearer the wall a unit sees more of the sun over the fence."""
    made = walls(FENCED | {"facing": facing})
    made["unit"] = NO_STANDOFF | {"lag_hours": 0}
    absent = most(made)
    for inches in (0, 1, 2, 3, 4):
        told = made | {"unit": made["unit"] | {"standoff": inches}}
        assert most(told) <= absent + 0.3


def test_the_shades_of_a_wall_of_unknown_facing_help_no_pass() -> None:
    """A slot between wall and fence lets the sun in at some facings and not at their neighbours."""
    made = walls({"facing": None, "height": None, "screens": [{"distance": 3.25, "height": 20}]})
    made["unit"] = {"width": 30, "height": 30, "depth": 1, "standoff": 2, "bottom": 24}
    made["unit"] |= {"absorptance": 1, "lag_hours": 1}
    made["climate"] = {"kind": "site", "site": "chino"}
    bound = most(made)
    for facing in range(1, 360, 13):
        told = walls(
            {"facing": facing, "height": None, "screens": [{"distance": 3.25, "height": 20}]}
        )
        assert most(made | {"place": told["place"]}) <= bound


def power_low_and_finding(found: HeatExposureAnswer) -> tuple[float, float, str]:
    words = next(one.statement for one in found.findings if one.rule == "heat-power")
    return found.power[0].least_percent_low, found.power[0].least_percent_high, words


@pytest.mark.parametrize("site", ["riverside", "santa_maria", "oakland", "chino"])
def test_the_power_shown_is_the_power_of_the_finding(site: str) -> None:
    """Of the worse of the hottest days at both ends, not of the kinder one."""
    curve = [{"temperature": 95, "percent": 100}, {"temperature": 131, "percent": 0}]
    made = body(derating=curve, limits={"highest": 140, "lowest": -4})
    made["climate"] = {"kind": "site", "site": site}
    low, high, words = power_low_and_finding(answer(made))
    assert f"{int(low + 1e-6)} %" in words
    assert f"{int(high + 1e-6)} %" in words


def test_hours_power_and_bands_reach_to_the_hot_end() -> None:
    """Known at their hot ends, colour and rises come to no more than what was said before."""
    made = unit(absorptance=None) | {"derating": [{"temperature": 135, "percent": 100}]}
    made = {k: v for k, v in made.items() if k not in ("extreme_rise", "wall_air_rise")}
    told = made | {"extreme_rise": 10.8, "wall_air_rise": 5.4}
    told["unit"] = made["unit"] | {"absorptance": 0.95}
    open_facts, known = answer(made), answer(told)
    for day, then in zip(open_facts.days, known.days, strict=True):
        assert then.ambient.high <= day.ambient.hot + 0.1
        for row, after in zip(day.hours, then.hours, strict=True):
            assert after.typical <= row.high
    assert known.power[0].off_hours <= open_facts.power[0].off_hours
    assert open_facts.power[0].off_hours > 0
    assert open_facts.power[0].least_percent_low <= known.power[0].least_percent_low


def test_a_rise_measured_in_a_garage_goes_before_the_rule_of_thumb() -> None:
    """Record and rise, nothing on top: Riverside's hottest day and 10.8 degF."""
    found = answer(body(place=GARAGE, wall_air_rise=10.8))
    for day in found.days:
        assert day.at_once.low == pytest.approx(day.air_degf + 10.8)
        assert day.at_once.high == pytest.approx(day.air_degf + 10.8)
    asked = {one.pointer for one in answer(body(place=GARAGE, wall_air_rise=None)).questions}
    assert "/wall_air_rise" in asked


def test_an_extreme_rise_heats_hot_days_alone() -> None:
    """The typical day and the year stay as they are recorded."""
    bare, hot = (answer(body(extreme_rise=rise), "series") for rise in (0, 10.8))
    assert hot.days[-1] == bare.days[-1]
    assert hot.days[0].ambient.low == pytest.approx(bare.days[0].ambient.low + 10.8)
    assert year_of(hot) == year_of(bare)
    for day in hot.days:
        counted = [row.air for row in day.hours if row.threshold_degf > day.air_degf]
        assert not any(counted)


def test_a_county_is_too_cold_where_all_of_its_places_are() -> None:
    """One mountain site does not speak for the coast: the place is asked."""
    county = {"kind": "county", "state": "CA", "county": "Los Angeles"}
    made = body(climate=county, limits={"highest": 212, "lowest": 20}, derating=ALL_POWER)
    found = answer(made)
    assert rules(found)["cold-limit"] == "undetermined"
    assert "/climate" in {one.pointer for one in found.questions}
    made["limits"]["lowest"] = 80
    assert rules(answer(made))["cold-limit"] == "fail"


def test_a_garage_and_a_slow_unit_are_not_as_cold_as_the_record() -> None:
    limits = {"highest": 212, "lowest": 34}
    garage = answer(body(place=GARAGE, limits=limits, wall_air_rise=None))
    assert rules(garage)["cold-limit"] == "conditional"
    slow = body(limits=limits)
    slow["unit"] = KNOWN["unit"] | {"lag_hours": 24}
    assert rules(answer(slow))["cold-limit"] == "conditional"
    quick = body(limits=limits)
    quick["unit"] = KNOWN["unit"] | {"lag_hours": 0}
    assert rules(answer(quick))["cold-limit"] == "fail"


@pytest.mark.parametrize(
    "nothing",
    [
        {"tree": {"through_percent": [100]}},
        {"tree": {"through_percent": [0], "from_hour": 12, "to_hour": 12}},
    ],
)
def test_a_tree_that_shades_nothing_changes_nothing(nothing: Body) -> None:
    made = walls({"facing": 0, "height": 240}) | {
        "climate": {"kind": "site", "site": "palm_springs"}
    }
    told = walls({"facing": 0, "height": 240} | nothing) | {"climate": made["climate"]}
    bare, treed = answer(made).days, answer(told).days
    for day, then in zip(bare, treed, strict=True):
        assert then.ambient.typical == pytest.approx(day.ambient.typical, abs=0.01)


def test_a_narrow_eave_does_not_lower_the_wall_behind_it() -> None:
    """One inch of eave at the unit's top, under a wall of 20 ft, lets no sun over the wall."""
    bare = answer(walls({"facing": 0, "height": 240})).walls[0].ambient
    eaved = answer(walls({"facing": 0, "height": 240, "eave": {"depth": 1, "height": 53}}))
    assert eaved.walls[0].ambient.high <= bare.high + 0.1


def test_a_unit_that_gives_nothing_is_no_yes() -> None:
    """Off at every reading through the whole outage: no, whether a need is stated or not."""
    dead = [{"temperature": 50, "percent": 100}]
    outage = {key: value for key, value in KNOWN["outage"].items() if key != "need_kw"}
    made = body(limits={"highest": 212, "lowest": -4}, derating=dead, outage=outage)
    assert rules(answer(made))["heat-power"] == "fail"
    assert "/outage/need_kw" in refused(body(outage=KNOWN["outage"] | {"need_kw": 0}))
    part = [{"temperature": 110, "percent": 100}, {"temperature": 122, "percent": 0}]
    some = answer(made | {"derating": part})
    assert some.power[0].least_percent_low == 0
    assert rules(some)["heat-power"] == "undetermined"


CURVES = [
    ([(100, 100), (120, 0), (121, 100)], "/derating/2/percent"),
    ([(100, 100), (100, 50), (100, 20)], "/derating/2/temperature"),
]


@pytest.mark.parametrize("points, pointer", CURVES)
def test_a_curve_that_no_unit_has_is_refused(
    points: list[tuple[float, float]], pointer: str
) -> None:
    curve = [{"temperature": at, "percent": part} for at, part in points]
    assert pointer in refused(body(derating=curve))
    cold_and_hot = [(14, 50), (32, 100), (104, 100), (122, 50)]
    curve = [{"temperature": at, "percent": part} for at, part in cold_and_hot]
    assert not refused(body(derating=curve))


@pytest.mark.parametrize("kind", ["dark", "always", "turned", "own"])
def test_a_year_without_the_sun_of_its_place_is_refused(kind: str) -> None:
    site, year = climate_sites()["riverside"], typical_year("riverside")
    made: Body = {
        "kind": "own_year",
        "latitude": site.latitude_deg,
        "longitude": site.longitude_deg,
        "utc_offset_hours": site.utc_offset_h,
        "dni_w_m2": year.dni.tolist(),
        "dhi_w_m2": year.dhi.tolist(),
        "dry_bulb_degc": (year.dry_bulb - 273.15).tolist(),
    }
    light = {
        "dark": np.zeros(8760),
        "always": np.full(8760, 300.0),
        "turned": np.roll(year.ghi, 8),
        "own": year.ghi,
    }
    found = refused(body(climate=made | {"ghi_w_m2": light[kind].tolist()}))
    assert found == ([] if kind == "own" else ["/climate/ghi_w_m2"])
