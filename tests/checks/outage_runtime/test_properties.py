"""What must hold for any request: more load, more energy, another order, another unit.

The exceptions that load control brings stand at the end, each as a case of its own.
"""

import random
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.verdicts import verdicts
from service.findings import rank
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, known, load, reading, sent, taken

#: A pseudo-random source that hypothesis draws, so that a failure shrinks.
draws = st.randoms(use_true_random=False)
BOUNDED = settings(max_examples=60)
#: Slack of a comparison of two hours [h].
SLACK = 1e-9


def hours(body: Body) -> list[float]:
    return [one.hours_to_dark for one in answered(body).readings]


def every_hour(answer: OutageRuntimeAnswer) -> list[float]:
    """Return the hours of all readings and tiers, -1 where there is no such tier."""
    found = [(r.hours_to_dark, r.normal_hours, r.comfort_hours) for r in answer.readings]
    return [-1.0 if time is None else time for times in found for time in times]


def uncontrolled(draw: random.Random) -> Body:
    """Return a request of loads in one season, without load control."""
    body = random_requests.request(draw, load_control=False, only_loads=True)
    return body | {"season": draw.choice(["summer", "winter"])}


def heavier(draw: random.Random, body: Body) -> Body:
    """Return the request with more of one load, or with one load more."""
    rows = list(body["use"]["rows"])
    place = draw.randrange(len(rows))
    row = rows[place]
    if row["kind"] == "own" and draw.random() < 0.7:
        watts = {name: row[name] for name in ("watts", "watts_low", "watts_high") if name in row}
        rows[place] = row | {name: value * 1.5 + 1 for name, value in watts.items()}
    elif draw.random() < 0.5:
        rows[place] = row | {"quantity": row.get("quantity", 1) + 1}
    else:
        rows.append({"kind": "own", "name": "One more", "watts": draw.uniform(1, 2000)})
    return body | {"use": {"kind": "loads", "rows": rows}}


@BOUNDED
@given(draws)
def test_more_load_never_lengthens_without_load_control(draw: random.Random) -> None:
    body = uncontrolled(draw)
    before, after = hours(body), hours(heavier(draw, body))
    assert all(b <= a + SLACK for a, b in zip(before, after, strict=True))


def more_energy(unit: Body) -> Body:
    return {"energy": unit["energy"] | {"kwh": unit["energy"]["kwh"] * 1.3}}


def more_units(unit: Body) -> Body:
    return {"count": unit.get("count", 1) + 1}


def more_reserve(unit: Body) -> Body:
    reserve = unit.get("reserve_percent", 20)
    return {"reserve_percent": reserve + (100 - reserve) / 2}


def more_power(unit: Body) -> Body:
    return {"continuous_kw": unit.get("continuous_kw", 100) * 1.5}


def less_idle(unit: Body) -> Body:
    losses = unit.get("losses", {"kind": "round_trip"})
    return {} if losses["kind"] == "part_load" else {"losses": losses | {"idle_watts": 0}}


def longer_promise(unit: Body) -> Body:
    return {"end_of_warranty_retention": min(unit.get("end_of_warranty_retention", 0.7) * 1.1, 1)}


BETTER: list[Callable[[Body], Body]] = [
    more_energy,
    more_units,
    more_reserve,
    less_idle,
    longer_promise,
]


@pytest.mark.parametrize("better", BETTER, ids=lambda better: better.__name__)
@settings(max_examples=25)
@given(draw=draws)
def test_a_better_battery_never_shortens_without_load_control(
    better: Callable[[Body], Body], draw: random.Random
) -> None:
    body = uncontrolled(draw)
    unit = body["battery"]
    before, after = hours(body), hours(body | {"battery": unit | better(unit)})
    assert all(b >= a - SLACK for a, b in zip(before, after, strict=True))


@settings(max_examples=25)
@given(draws)
def test_more_power_never_shortens_where_an_overload_trips(draw: random.Random) -> None:
    """In proportion a stronger inverter serves more and empties the cells sooner; see the end."""
    body = uncontrolled(draw) | {"power_limit_rule": "shed_tiers"}
    unit = body["battery"]
    before, after = hours(body), hours(body | {"battery": unit | more_power(unit)})
    assert all(b >= a - SLACK for a, b in zip(before, after, strict=True))


@BOUNDED
@given(draws)
def test_the_order_of_rows_does_not_matter(draw: random.Random) -> None:
    body = random_requests.request(draw, only_loads=True)
    rows = list(body["use"]["rows"])
    draw.shuffle(rows)
    one, other = answered(body), answered(body | {"use": {"kind": "loads", "rows": rows}})
    assert one.verdict == other.verdict
    assert one.season == other.season
    assert every_hour(other) == pytest.approx(every_hour(one), rel=1e-9, abs=1e-9)
    assert one.power is not None
    assert other.power is not None
    assert other.power.with_two_largest_kw == pytest.approx(one.power.with_two_largest_kw)
    assert one.units.count == other.units.count


@BOUNDED
@given(draws)
def test_a_longer_target_never_improves_the_verdict(draw: random.Random) -> None:
    body = random_requests.request(draw)
    targets = sorted(draw.uniform(0.25, 336) for _ in range(5))
    ranks = [rank(one) for one in verdicts([taken(body | {"target_hours": h}) for h in targets])]
    assert ranks == sorted(ranks, reverse=True)


@BOUNDED
@given(draws)
def test_conditions_stand_exactly_where_the_verdict_is_conditional(draw: random.Random) -> None:
    answer = answered(random_requests.request(draw))
    assert bool(answer.conditions) == (answer.verdict == "conditional")
    assert all(condition.strip() for condition in answer.conditions)


@BOUNDED
@given(draws)
def test_the_readings_stand_in_their_order_without_load_control(draw: random.Random) -> None:
    """More use, an older battery and less charge never last longer; the three hours bound them."""
    body = uncontrolled(draw)
    answer = answered(body)
    found = {(r.use, r.capacity, r.start == "full"): r.hours_to_dark for r in answer.readings}
    uses, ages, starts = ("low", "typical", "high"), ("now", "end_of_warranty"), (True, False)
    for (use, age, start), longest in found.items():
        for other, shortest in found.items():
            at_least_as_hard = (
                uses.index(other[0]) >= uses.index(use)
                and ages.index(other[1]) >= ages.index(age)
                and starts.index(other[2]) >= starts.index(start)
            )
            assert not at_least_as_hard or shortest <= longest + SLACK
    assert answer.hours_low <= answer.hours_typical + SLACK
    assert answer.hours_typical <= answer.hours_high + SLACK


UNIT_TEXTS: list[tuple[str, Any, Any]] = [
    # field of the battery, row or request; bare number in its stated unit; the same with a unit
    ("energy", {"kind": "usable", "kwh": 12}, {"kind": "usable", "kwh": "12000 Wh"}),
    ("energy", {"kind": "nominal", "kwh": 13.5}, {"kind": "nominal", "kwh": "13.5 kWh"}),
    ("continuous_kw", 5, "5000 W"),
    ("charge_kw", 3.3, "3300 W"),
    ("reserve_percent", 60, "60 %"),
    ("floor_percent", 5, "5 percent"),
    ("ambient", 41, "5 degC"),
    ("ambient", 95, "35 degC"),
    (
        "losses",
        {"kind": "round_trip", "idle_watts": 40},
        {"kind": "round_trip", "idle_watts": "0.04 kW"},
    ),
    ("watts", 150, "0.15 kW"),
    ("hours_per_day", 1.5, "90 min"),
    ("target_hours", 24, "24 h"),
    ("target_hours", 24, "1440 min"),
    ("target_hours", 48, "2 d"),
]


@pytest.mark.parametrize("field, number, text", UNIT_TEXTS, ids=lambda value: str(value))
def test_a_text_with_a_unit_is_the_bare_number(field: str, number: Any, text: Any) -> None:
    """The answers are the same to the byte."""

    def body(value: Any) -> Body:
        if field in ("watts", "hours_per_day"):
            return known([load(150) | {field: value}], target_hours=24)
        if field == "target_hours":
            return known([load(150)], target_hours=value)
        return known([load(150)], {field: value}, target_hours=24)

    assert sent(body(text)) == sent(body(number))


BARE_CONTROL = {"comfort_shed_percent": 0, "normal_shed_percent": 0, "hysteresis_percent": 10}
HALF_CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 50, "hysteresis_percent": 10}
NORMAL_4_KW = load(3900, tier="normal")

EXCEPTIONS: list[tuple[str, Body, Body, float, float]] = [
    # what, request, the same with more, hours to dark of each: typical, now, from the start charge
    # 4.9 kW on 5 kW: 10 / 4.9 h. 0.2 kW more and the normal tier is dropped: 10 / 1.2 h.
    (
        "more load lengthens where a tier is dropped for it",
        known([load(1000), NORMAL_4_KW], load_control=BARE_CONTROL),
        known([load(1200), NORMAL_4_KW], load_control=BARE_CONTROL),
        10 / 4.9,
        10 / 1.2,
    ),
    # 5 kW carry the critical load alone; 7.5 kW carry both.
    (
        "more power shortens where it keeps a tier on",
        known([load(1200), NORMAL_4_KW], load_control=BARE_CONTROL),
        known([load(1200), NORMAL_4_KW], {"continuous_kw": 7.5}, load_control=BARE_CONTROL),
        10 / 1.2,
        10 / 5.1,
    ),
    # 3 kWh at 1.2 kW; a second unit carries the normal tier, too: 6 kWh at 5.1 kW.
    (
        "more units shorten where they keep a tier on",
        known([load(1200), NORMAL_4_KW], {"reserve_percent": 30}, load_control=BARE_CONTROL),
        known(
            [load(1200), NORMAL_4_KW],
            {"reserve_percent": 30, "count": 2},
            load_control=BARE_CONTROL,
        ),
        3 / 1.2,
        6 / 5.1,
    ),
    # More normal load is shed sooner, so it shortens critical by less, never lengthens it:
    # 5 / 1.5 + 5 / 0.5 against 5 / 2.5 + 5 / 0.5.
    (
        "more load of a shed tier shortens to its shedding only",
        known([load(500), load(1000, tier="normal")], load_control=HALF_CONTROL),
        known([load(500), load(2000, tier="normal")], load_control=HALF_CONTROL),
        5 / 1.5 + 10,
        5 / 2.5 + 10,
    ),
    # In proportion, 5 kW serve 5 kW of 8; 8 kW serve all.
    (
        "more power shortens where the excess alone went unserved",
        known([load(8000)], power_limit_rule="proportional"),
        known([load(8000)], {"continuous_kw": 8}, power_limit_rule="proportional"),
        10 / 5,
        10 / 8,
    ),
]


@pytest.mark.parametrize(
    "what, body, more, before, after", EXCEPTIONS, ids=[case[0] for case in EXCEPTIONS]
)
def test_known_exceptions(what: str, body: Body, more: Body, before: float, after: float) -> None:
    name = "typical/now/start"
    assert reading(answered(body), name).hours_to_dark == pytest.approx(before, abs=1e-9), what
    assert reading(answered(more), name).hours_to_dark == pytest.approx(after, abs=1e-9), what
