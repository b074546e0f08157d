"""What heat leaves of the power: counted at every end, shown with both results, never silently."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.outage_runtime import CHECK
from service.findings import Alternative, Finding, rank
from service.http.problem import Problem
from tests.checks.outage_runtime.asking import (
    Body,
    answered,
    known,
    load,
    taken,
    window,
)
from tests.checks.outage_runtime.year_requests import site, solar

#: 300 W all day, and at 17 to 19 h 1.2 kW of which 1 kW is another load: by hand 1.5 kW with the
#: larger of the two others, 1.7 kW for all at once.
ROWS = [
    load(300),
    load(1200, hours_per_day=2, windows=window(17, 19)),
    load(200, hours_per_day=2, windows=window(17, 19)),
]


def heat(low: float, high: float | None = None, worst: float | None = None, **more: Any) -> Body:
    """Return what heat leaves [%]."""
    found = {"power_percent_low": low, "power_percent_high": low if high is None else high}
    return found | ({} if worst is None else {"power_percent_worst": worst}) | more


def asked(derating: Body | None, **changes: Any) -> Body:
    """Return a request of a unit of 2 kW that carries all at once, from full, in summer."""
    unit = {"continuous_kw": 2.0}
    made = known(ROWS, unit, target_hours=4, season="summer", start_hour=12) | changes
    return made if derating is None else made | {"heat_derating": derating}


def in_heat(body: Body) -> Finding:
    """Return the finding on the hottest days."""
    (found,) = [one for one in answered(body).findings if one.rule == "power-in-the-heat"]
    return found


def shown(body: Body) -> dict[str, Alternative]:
    """Return the alternatives of an answer."""
    return {one.id: one for one in answered(body).alternatives}


STANDS = [
    # By hand: of 2 kW 85 % are 1.7 kW, which all at once take; 75 % are 1.5 kW.
    (heat(85), "pass"),
    (heat(84), "conditional"),
    (heat(75), "conditional"),
    (heat(74), "fail"),
    (heat(74, 75), "undetermined"),
    (heat(85, 90, 75), "conditional"),
    (heat(85, 90, 0), "conditional"),
    (heat(75, 85, 0), "conditional"),
    (heat(0, 0), "fail"),
    (heat(0, 100), "undetermined"),
]


@pytest.mark.parametrize("derating, verdict", STANDS)
def test_the_loads_stand_as_the_power_that_is_left(derating: Body, verdict: str) -> None:
    assert in_heat(asked(derating)).verdict == verdict
    assert answered(asked(derating)).verdict == min(
        ("pass", verdict), key=["fail", "undetermined", "conditional", "pass"].index
    )


def test_all_the_power_is_shown_beside_what_is_left() -> None:
    whole, hot = answered(asked(None)), answered(asked(heat(0, 50)))
    assert (hot.hours_low, hot.hours_typical, hot.hours_high) == (
        whole.hours_low,
        whole.hours_typical,
        whole.hours_high,
    )
    other = shown(asked(heat(0, 50)))["in-the-heat"]
    assert other.verdict == "fail"
    assert ": 0 h instead of" in other.statement


def test_a_condition_names_what_must_run_alone() -> None:
    (condition,) = answered(asked(heat(80))).conditions
    assert condition == (
        "on the hottest days only one of the loads that are not on all day runs at a time"
    )
    (condition,) = answered(asked(heat(85, 90, 0))).conditions
    assert condition == "the hottest days leave 85 % of the power, as estimated"


def test_winter_takes_nothing() -> None:
    cold = asked(heat(0), season="winter")
    assert in_heat(cold).verdict == "pass"
    assert answered(cold).verdict == answered(asked(None, season="winter")).verdict
    assert "in-the-heat" not in shown(cold)


def test_an_open_season_counts_the_heat_in_summer() -> None:
    body = {name: value for name, value in asked(heat(74)).items() if name != "season"}
    assert answered(body).verdict == "fail"
    assert answered(body).season == "summer"


def test_a_curve_of_power_says_nothing_of_energy() -> None:
    by_power = shown(asked(heat(90)))["in-the-heat"].statement
    by_both = shown(asked(heat(90, energy_percent=50)))["in-the-heat"].statement
    hours = [float(words.split(": ")[1].split(" h")[0]) for words in (by_power, by_both)]
    assert hours[0] == pytest.approx(answered(asked(None)).hours_typical, abs=0.1)
    assert hours[1] < 0.7 * hours[0]
    assert answered(asked(heat(100, energy_percent=10))).verdict == "undetermined"
    assert answered(asked(heat(100))).verdict == "pass"


def test_two_counts_of_one_heat_are_not_multiplied() -> None:
    """At 122 degF the unit's usual course leaves less than all; the lesser of both parts counts."""
    hot = known(ROWS, {"continuous_kw": 2.0, "ambient": 122}, target_hours=4, season="summer")
    limit = next(f.limit for f in answered(hot).findings if f.rule == "continuous-power")
    assert limit is not None
    assert limit < 2.0
    usual = limit / 2.0 * 100
    milder, harder = (in_heat(hot | {"heat_derating": heat(p)}) for p in (usual + 1, usual / 2))
    assert milder.limit == pytest.approx(limit)
    assert harder.limit == pytest.approx(limit / 2)


def test_a_part_of_an_unknown_power_decides_nothing() -> None:
    body = asked(heat(90))
    del body["battery"]["continuous_kw"]
    assert in_heat(body).verdict == "undetermined"


def test_more_units_are_counted_by_what_is_left() -> None:
    needed = [answered(asked(one)).units.count for one in (None, heat(50), heat(10), heat(0))]
    # By hand: 1.7 kW of 2, 1 and 0.2 kW a unit; none is enough where nothing is left.
    assert needed == [1, 2, 9, None]


def test_one_more_unit_may_carry_the_loads_in_the_heat() -> None:
    body = asked(heat(60))
    assert answered(body).verdict == "fail"
    assert shown(body)["one-more-unit"].verdict == "pass"


def refused(body: Body) -> list[str]:
    """Return the pointers at which a request is refused."""
    with pytest.raises(Problem) as problem:
        taken(body)
    return [error.pointer for error in problem.value.errors]


BAD = [
    (heat(50, 40), "/heat_derating/power_percent_high"),
    (heat(50, 60, 70), "/heat_derating/power_percent_worst"),
    (heat(50, 101), "/heat_derating/power_percent_high"),
]


@pytest.mark.parametrize("derating, pointer", BAD)
def test_ends_out_of_order_are_refused(derating: Body, pointer: str) -> None:
    assert refused(asked(derating)) == [pointer]


PERCENTS = st.lists(st.floats(0, 100), min_size=3, max_size=3).map(sorted)


@settings(max_examples=40, deadline=None)
@given(PERCENTS, PERCENTS, st.sampled_from(["summer", None]), st.floats(0.5, 4))
def test_hotter_never_runs_longer_and_never_stands_better(
    cool: list[float], hot: list[float], season: str | None, kilowatts: float
) -> None:
    hotter = [min(pair) for pair in zip(cool, hot, strict=True)]
    bodies = []
    for worst, low, high in (cool, hotter):
        body = asked(heat(low, high, worst), season=season)
        body["battery"] = body["battery"] | {"continuous_kw": kilowatts}
        bodies.append({name: value for name, value in body.items() if value is not None})
    found = [answered(one) for one in bodies]
    for milder, harder in pairwise(found):
        assert rank(harder.verdict) <= rank(milder.verdict)
        assert harder.hours_typical == milder.hours_typical
    hours = [
        float(shown(one)["in-the-heat"].statement.split(": ")[1].split(" h")[0].split()[-1])
        for one in bodies
    ]
    assert hours[1] <= hours[0]
    # Verdicts alone, in one batch, are those of the whole answers.
    together = CHECK.verdicts([taken(one) for one in bodies])
    assert together == [one.verdict for one in found]


def test_through_a_year_hotter_stands_no_better() -> None:
    made = known(
        ROWS,
        {"continuous_kw": 2.0, "reserve_percent": 80},
        target_hours=12,
        climate=site(),
        solar=solar(),
    )
    made.pop("season")
    verdicts = [
        answered(made | ({} if percent is None else {"heat_derating": heat(percent)})).verdict
        for percent in (None, 90, 75, 40, 0)
    ]
    assert [rank(one) for one in verdicts] == sorted(map(rank, verdicts), reverse=True)
    assert verdicts[-1] == "fail"
    requests = [taken(made | {"heat_derating": heat(percent)}) for percent in (90, 40, 0)]
    assert CHECK.verdicts(requests) == [verdicts[1], *verdicts[3:]]


def test_a_part_of_power_too_small_to_divide_by_counts_as_none() -> None:
    """The least number above nothing that a number of JSON holds, as a percentage."""
    next_to_nothing = answered(asked(heat(5e-324, 5e-324, 5e-324)))
    nothing = answered(asked(heat(0, 0, 0)))
    assert next_to_nothing.units == nothing.units
    assert next_to_nothing.verdict == nothing.verdict
