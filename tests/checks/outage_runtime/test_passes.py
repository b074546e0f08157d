"""A pass stands over the whole stated range of everything that was assumed."""

import random
from functools import cache

import pytest

from service.checks.outage_runtime.verdicts import verdicts
from service.findings import Verdict
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, load, taken
from tests.checks.outage_runtime.reruns import filled, tier_of

#: Fields left open, each with a range in table outage_defaults.
OPEN = ("losses", "floor_percent", "ambient", "end_of_warranty_retention", "warranty_years")
HOURS = (0.25, 336.0)
#: Passes to be found among the random requests.
WANTED = 25


def passes(body: Body, hours: float) -> bool:
    return verdicts([taken(body | {"target_hours": hours})]) == [Verdict.PASS]


def longest_pass(body: Body) -> float | None:
    """Return the longest target that passes, to a minute; None where none or every one does."""
    low, high = HOURS
    if not passes(body, low) or passes(body, high):
        return None
    while high - low > 1 / 60:
        middle = (low + high) / 2
        low, high = (middle, high) if passes(body, middle) else (low, middle)
    return low


def wish(seed: int) -> Body:
    """Return a request that may pass: an inverter that carries all, a known charge."""
    draw = random.Random(seed)
    body = random_requests.request(draw, only_loads=True)
    for row in body["use"]["rows"]:
        row |= {"life_support": False, "tier": row.get("tier", "normal").replace("shed", "comfort")}
    unit = body["battery"]
    for name in OPEN:
        if draw.random() < 0.6:
            unit.pop(name, None)
    unit |= {"continuous_kw": 200, "split_phase": True, "reserve_percent": draw.uniform(40, 100)}
    return body


@cache
def just_passing() -> list[tuple[int, float]]:
    """Return seeds and targets of requests that pass and would not a minute later."""
    found: list[tuple[int, float]] = []
    for seed in range(5000, 5200):
        target = longest_pass(wish(seed))
        if target is not None:
            found.append((seed, target))
        if len(found) == WANTED:
            break
    return found


def test_enough_requests_pass_to_be_a_test() -> None:
    assert len(just_passing()) == WANTED
    open_ranges = [
        assumption
        for seed, target in just_passing()
        for assumption in answered(wish(seed) | {"target_hours": target}).assumptions
        if assumption.range and assumption.pointer.startswith("/battery")
    ]
    assert len(open_ranges) > 2 * WANTED


@pytest.mark.parametrize("place", range(WANTED))
def test_filling_in_any_value_of_a_range_leaves_a_pass_a_pass(place: int) -> None:
    """Each absent fact by itself, at both ends and inside; then all of them, drawn together."""
    seed, target = just_passing()[place]
    body = wish(seed) | {"target_hours": target}
    draw = random.Random(seed)
    tried, together = [], [body] * 4
    for assumption in answered(body).assumptions:
        if not assumption.range:
            continue
        values = list(assumption.range)
        low, high = values[0], values[-1]
        if isinstance(low, float) and isinstance(high, float):
            values += [draw.uniform(low, high), (low + high) / 2]
        tried += [filled(body, assumption.pointer, value) for value in values]
        together = [filled(one, assumption.pointer, draw.choice(values)) for one in together]
    assert set(verdicts([taken(one) for one in tried + together])) <= {Verdict.PASS}


@pytest.mark.parametrize("seed", range(40))
def test_what_never_passes(seed: int) -> None:
    """What is not known of unit or loads caps the verdict, and so does what hangs on them."""
    body = random_requests.request(random.Random(6000 + seed))
    unit = dict(body["battery"])
    bare = {"energy": unit["energy"] | {"kwh": 500}, "continuous_kw": 200}
    bare |= {"split_phase": True}
    easy = body | {"target_hours": 0.25, "battery": bare}
    assert answered(easy).verdict != "pass", "the reserve is not known"
    full = easy | {"battery": bare | {"reserve_percent": 100}}
    if body["use"]["kind"] != "loads":
        assert answered(full).verdict == "undetermined", "the power is not known"
        return
    rows = [row | {"life_support": False} for row in body["use"]["rows"] if tier_of(row) != "shed"]
    without = verdict_of(full, rows)
    assert without == "pass" or "load_control" in body
    assert verdict_of(full, [*rows[:-1], rows[-1] | {"life_support": True}]) == "conditional"
    assert verdict_of(full, [*rows, load(50, tier="shed")]) == "conditional"
    high = [*rows, load(50, volts=240)]
    assert verdict_of(full, high) == without
    assert verdict_of(filled(full, "/battery/split_phase", None), high) == "conditional"
    assert verdict_of(filled(full, "/battery/split_phase", False), high) == "fail"
    assert verdict_of(filled(full, "/battery/age_years", 10.1), rows) == "undetermined"


def verdict_of(body: Body, rows: list[Body]) -> str:
    return str(answered(body | {"use": {"kind": "loads", "rows": rows}}).verdict)
