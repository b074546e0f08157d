"""Rules on solar beside inverters and on generators: each at its edge, and its source at work."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.findings import Finding
from service.published import generators
from service.published.loader import resolve
from tests.checks.outage_runtime.asking import Body, answered, load
from tests.checks.outage_runtime.changed_tables import changed
from tests.checks.outage_runtime.year_requests import array, cooling, dated, generator, solar


def light(**more: Any) -> Body:
    """Return 20 W on a unit of 5 kW for four hours: nothing but the rule decides."""
    return dated(rows=[load(20)], target_hours=4, **more)


def found(answer: OutageRuntimeAnswer, rule: str) -> Finding:
    (one,) = [finding for finding in answer.findings if finding.rule == rule]
    return one


def roof(inverter_kw: float | None, **more: Any) -> Body:
    return solar(array(8, inverter_kw=inverter_kw, **more))


RATIOS: list[tuple[str, Body, str]] = [
    # what, request, verdict of the rule; one unit of 5 kW, or two
    ("one to one", light(solar=roof(5.0)), "pass"),
    ("just above it", light(solar=roof(5.001)), "conditional"),
    ("one and a half", light(solar=roof(7.5)), "conditional"),
    ("just above that", light(solar=roof(7.501)), "undetermined"),
    ("two units carry twice as much", light(solar=roof(10.0), unit={"count": 2}), "pass"),
    # 8 kW of modules over 1.3 are 6.154 kW, 1.231 times 5 kW.
    ("an inverter nobody named", light(solar=roof(None)), "conditional"),
    ("power not known", light(solar=roof(1.0), unit={"continuous_kw": None}), "undetermined"),
    # The DC-coupled 8 kW do not stand on the bus; the other array's 5 kW do.
    (
        "what is DC-coupled does not count",
        light(solar=solar(array(8, inverter_kw=8, coupling="dc"), array(5, inverter_kw=5))),
        "pass",
    ),
    (
        "arrays on the bus add up",
        light(solar=solar(array(3, inverter_kw=3), array(3, inverter_kw=3))),
        "conditional",
    ),
]


def _stated(body: Body) -> Body:
    """Return the request without the fields of the unit that are None."""
    unit = {name: value for name, value in body["battery"].items() if value is not None}
    return body | {"battery": unit}


@pytest.mark.parametrize("what, body, verdict", RATIOS, ids=[row[0] for row in RATIOS])
def test_solar_inverters_against_battery_inverters(what: str, body: Body, verdict: str) -> None:
    answer = answered(_stated(body))
    finding = found(answer, "solar-to-inverter-ratio")
    assert finding.verdict == verdict, what
    ranks = ["fail", "undetermined", "conditional", "pass"]
    assert ranks.index(answer.verdict) <= ranks.index(verdict), "it holds the answer down"


def test_no_ratio_is_spoken_of_without_solar_on_the_bus() -> None:
    answer = answered(light(solar=solar(array(8, coupling="dc"))))
    assert not [one for one in answer.findings if one.rule == "solar-to-inverter-ratio"]


GATES: list[tuple[str, str, dict[str, Any], str]] = [
    # what, rule, changes of the generator, verdict of the rule
    ("5 % of distortion", "generator-distortion", {"voltage_distortion_percent": 5}, "pass"),
    (
        "just above",
        "generator-distortion",
        {"voltage_distortion_percent": 5.01},
        "conditional",
    ),
    ("10 %", "generator-distortion", {"voltage_distortion_percent": 10}, "conditional"),
    ("above 10 %", "generator-distortion", {"voltage_distortion_percent": 10.01}, "fail"),
    # ISO 8528-5, frequency droop 8, 5 and 3 %: no load at 64.8, 63.0 and 61.8 Hz against 62.
    ("class G1", "generator-frequency", {"quality_class": "g1"}, "conditional"),
    ("class G2", "generator-frequency", {"quality_class": "g2"}, "conditional"),
    ("class G3", "generator-frequency", {"quality_class": "g3"}, "pass"),
    # 5 kW, of which 0.8 may be used, are 4 kW.
    ("charges with all", "generator-size", {"usable_part": 0.8, "charge_kw": 4.01}, "conditional"),
]


def _with_generator(**more: Any) -> Body:
    return light(solar=None, climate=None, generator=generator(**more))


@pytest.mark.parametrize("what, rule, more, verdict", GATES, ids=[row[0] for row in GATES])
def test_a_generator_against_its_limits(
    what: str, rule: str, more: dict[str, Any], verdict: str
) -> None:
    answer = answered(_with_generator(**more))
    assert found(answer, rule).verdict == verdict, what
    if verdict == "fail":
        assert answer.verdict == "fail"


@pytest.mark.parametrize(
    "body",
    [light(solar=roof(6.0)), _with_generator(), light(conditioning=[cooling()], solar=None)],
    ids=["sun", "generator", "cooling"],
)
def test_every_source_of_a_finding_resolves_and_is_listed(body: Body) -> None:
    answer = answered(body)
    listed = {source.id for source in answer.sources}
    for finding in answer.findings:
        assert set(finding.sources) <= listed, finding.rule
    for source in listed:
        table, row, _ = resolve(source)
        assert row in table.rows


@pytest.mark.parametrize("body", [light(), light(conditioning=[cooling()], solar=None)])
def test_the_climate_site_stands_among_the_sources(body: Body) -> None:
    listed = {source.id for source in answered(body).sources}
    assert any(source.startswith("climate_sites/los_angeles_coast") for source in listed)


@contextmanager
def moved(table: str, row: str, **cells: str) -> Iterator[None]:
    """Let the rules on generators find other cells for the time of a test."""
    kept = (generators.generator_limit, generators.quality_class, generators.fuel_use)
    with changed(table, row, **cells):
        for one in kept:
            one.cache_clear()
        try:
            yield
        finally:
            for one in kept:
                one.cache_clear()


CELLS: list[tuple[str, Body, str, str, dict[str, str]]] = [
    # rule, request, table, row, cells that move its verdict
    (
        "solar-to-inverter-ratio",
        light(solar=roof(6.0)),
        "generator_limits",
        "solar_ratio_check",
        {"value": "1.3"},
    ),
    (
        "solar-to-inverter-ratio",
        light(solar=roof(9.0)),
        "generator_limits",
        "solar_ratio_stop",
        {"value": "2"},
    ),
    (
        "generator-distortion",
        _with_generator(voltage_distortion_percent=6),
        "generator_limits",
        "distortion_check",
        {"value": "7"},
    ),
    (
        "generator-distortion",
        _with_generator(voltage_distortion_percent=12),
        "generator_limits",
        "distortion_stop",
        {"value": "15"},
    ),
    (
        "generator-frequency",
        _with_generator(quality_class="g2"),
        "generator_limits",
        "over_frequency",
        {"value": "63.5"},
    ),
    (
        "generator-frequency",
        _with_generator(quality_class="g2"),
        "generator_quality",
        "g2",
        {"frequency_droop": "0.02"},
    ),
]


@pytest.mark.parametrize("rule, body, table, row, cells", CELLS)
def test_the_cell_that_a_finding_cites_moves_it(
    rule: str, body: Body, table: str, row: str, cells: dict[str, str]
) -> None:
    before = found(answered(body), rule)
    assert any(source.startswith(f"{table}/{row}") for source in before.sources)
    with moved(table, row, **cells):
        after = found(answered(body), rule)
    assert after.verdict != before.verdict
