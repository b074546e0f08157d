"""Energy goes nowhere unseen: what is stored at the start is served, lost, or still there."""

import random

import pytest

from service.checks.outage_runtime.answer import EnergyBalance, OutageRuntimeAnswer
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, known, load, window


def balances(answer: OutageRuntimeAnswer) -> list[EnergyBalance]:
    assert isinstance(answer.energy_balance, list)
    return answer.energy_balance


def drawn(seed: int) -> Body:
    return random_requests.request(random.Random(7000 + seed))


@pytest.mark.parametrize("seed", range(40))
def test_the_balance_of_every_reading_closes(seed: int) -> None:
    answer = answered(drawn(seed), "energy_balance")
    found = {one.reading: one for one in balances(answer)}
    for reading in answer.readings:
        name = f"{reading.use}/{reading.capacity}/{reading.start}"
        if reading.ended_by == "power":
            assert name not in found, "a trip is no end that a balance describes"
            continue
        one = found[name]
        assert one.start_kwh == reading.start_kwh
        assert one.served_kwh + one.lost_kwh + one.end_kwh == pytest.approx(one.start_kwh, abs=1e-9)
        assert min(one.served_kwh, one.lost_kwh, one.end_kwh) >= -1e-9


def test_the_random_requests_bring_balances_of_every_end() -> None:
    ends = [
        one.end_kwh
        for seed in range(40)
        for one in balances(answered(drawn(seed), "energy_balance"))
    ]
    assert len(ends) > 300
    assert any(end > 1 for end in ends)
    assert any(end < 1e-9 for end in ends)


CURVE = {
    "kind": "part_load",
    "rated_kw": 5,
    "efficiency_at_10_percent": 0.92,
    "efficiency_at_rated": 0.94,
    "cell_efficiency": 1,
}
ROUND_TRIP = {"kind": "round_trip", "efficiency": 0.81, "idle_watts": 100}
CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 50, "hysteresis_percent": 10}
CASES: list[tuple[str, Body, tuple[float, float, float]]] = [
    # what, request, kWh served, lost and left; typical use, now, from the start charge
    ("lossless", known([load(1000)]), (10, 0, 0)),
    # Out at 0.9: 10 kWh / (1 / 0.9 + 0.1) kW = 8.2569 h.
    ("round trip and idle", known([load(1000)], {"losses": ROUND_TRIP}), (8.2568807, 1.7431193, 0)),
    ("part load", known([load(500)], {"losses": CURVE}), (9.2, 0.8, 0)),
    ("floor", known([load(1000)], {"floor_percent": 20}), (8, 0, 2)),
    ("never started", known([load(1000)], {"reserve_percent": 10, "floor_percent": 20}), (0, 0, 1)),
    # 168 h of 10 W.
    ("left after a week", known([load(10)]), (1.68, 0, 8.32)),
    ("one hour a day", known([load(1000, hours_per_day=1, windows=window(17, 18))]), (7, 0, 3)),
    # Comfort takes 4 kWh of the first 5, critical 1 kWh and the other 5.
    (
        "tiers",
        known([load(500), load(2000, tier="comfort")], load_control=CONTROL),
        (10, 0, 0),
    ),
    # Half of what is asked for is served until 10 kWh are gone.
    (
        "proportional",
        known([load(10_000)], power_limit_rule="proportional"),
        (10, 0, 0),
    ),
]


@pytest.mark.parametrize("what, body, parts", CASES, ids=[case[0] for case in CASES])
def test_where_the_energy_went(what: str, body: Body, parts: tuple[float, float, float]) -> None:
    names = [one.reading for one in balances(answered(body, "energy_balance"))]
    one = balances(answered(body, "energy_balance"))[names.index("typical/now/reserve")]
    assert (one.served_kwh, one.lost_kwh, one.end_kwh) == pytest.approx(parts, abs=1e-6), what


def test_the_line_of_stored_energy_falls_from_the_start_to_the_dark() -> None:
    """The series of the drawings begins at the stored energy, never rises, ends at its hours."""
    answer = answered(known([load(1000), load(400, watts_high=900)]), "series")
    assert isinstance(answer.series, list)
    ends = {"low": answer.hours_low, "typical": answer.hours_typical, "high": answer.hours_high}
    for line in answer.series:
        name = line.id.removeprefix("stored-energy/")
        assert line.y[0] == pytest.approx({"low": 8}.get(name, 10))
        assert all(later <= earlier for earlier, later in zip(line.y, line.y[1:], strict=False))
        assert line.x[-1] == pytest.approx(ends[name], abs=1e-9)
        assert line.y[-1] == pytest.approx(0, abs=1e-9)


def test_the_line_of_a_reading_that_a_trip_ends_stops_there() -> None:
    """5 kW until 20 h, then 7 kW on 6 kW: 2 hours and 10 of 100 kWh."""
    unit = {"energy": {"kind": "usable", "kwh": 100}, "continuous_kw": 6}
    rows = [load(5000), load(2000, hours_per_day=1, windows=window(20, 21))]
    answer = answered(known(rows, unit), "series")
    assert isinstance(answer.series, list)
    (line,) = [one for one in answer.series if one.id == "stored-energy/typical"]
    assert (line.x[-1], line.y[-1]) == pytest.approx((2, 90), abs=1e-9)
