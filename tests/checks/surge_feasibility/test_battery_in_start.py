"""What a start asks of the batteries for a moment."""

import pytest

from service.findings import Finding, Verdict
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, Body, answer, body

FAIL, OPEN, IF, PASS = Verdict


def finding(**batteries: float) -> Finding | None:
    found = answer(body(COMPRESSOR | {"wire": {"length": 0}}, inverter=LARGE | batteries, watts=0))
    rows = [one for one in found.findings if one.rule == "battery-power-in-start"]
    return rows[0] if rows else None


def test_the_power_of_a_start_by_hand() -> None:
    """At standstill 77 A at 230 V and 0.66 take 12.7 kW at 240 V, less what the source drops.

    The pessimistic end has a tenth more amps.
    """
    one = finding(battery_kw=50)
    assert one is not None
    assert one.actual is not None
    kva = 1.1 * 77 * 240**2 / 230 / 1000
    assert 0.66 * 0.95 * kva < one.actual < 0.66 * kva


CASES: list[tuple[Body, Verdict]] = [
    ({"battery_kw": 20}, PASS),
    ({"battery_kw": 6}, OPEN),
    ({"battery_kw": 6, "battery_surge_kw": 20}, PASS),
    ({"battery_kw": 6, "battery_surge_kw": 13}, OPEN),
    ({"battery_kw": 6, "battery_surge_kw": 8}, FAIL),
]


@pytest.mark.parametrize("batteries, verdict", CASES)
def test_verdict(batteries: Body, verdict: Verdict) -> None:
    one = finding(**batteries)
    assert one is not None
    assert one.verdict is verdict


def test_nothing_stated_is_no_finding() -> None:
    assert finding() is None


def test_it_is_asked_for_where_it_decides() -> None:
    found = answer(body(COMPRESSOR, inverter=LARGE | {"battery_kw": 6}))
    assert [q.pointer for q in found.questions if q.can_change_verdict] == [
        "/inverter/battery_surge_kw"
    ]


def test_a_generator_beside_it_adds_nothing_to_a_start() -> None:
    joined = body(
        COMPRESSOR,
        inverter=LARGE | {"battery_kw": 6, "battery_surge_kw": 8},
        generator={"rated_kw": 20, "connection": "parallel"},
    )
    rows = [one for one in answer(joined).findings if one.rule == "battery-power-in-start"]
    assert rows[0].verdict is not PASS
