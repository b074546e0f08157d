"""What feeds the bus: inverters by amps or kW, in the heat, on one leg; generators."""

import random
import re

import msgspec
import pytest

from service.checks.surge_feasibility.source import of_generator, of_inverter, sources_of
from service.facts import GeneratorSource, Inverter
from service.findings import Verdict
from service.published.motors import locked_rotor_current
from tests.checks.surge_feasibility.requests import (
    COMPRESSOR,
    LARGE,
    Body,
    answer,
    body,
    only,
    refused,
)
from tests.checks.surge_feasibility.test_hostile_requests import extreme

FAIL, OPEN, IF, PASS = Verdict


def inverter(**more: object) -> Inverter:
    return msgspec.convert(more, Inverter)


# inverter, continuous amps, amps of a leg, ratings [A]. By hand: 1000 kW / V; 2 % a kelvin above
# 40 degC at 45 degC leaves 0.9; of 62 - 25 A a second unit adds 0.9.
INVERTERS: list[tuple[Body, float, float, list[float]]] = [
    ({"continuous_a": 25}, 25, 25, [25]),
    ({"continuous_kw": 6}, 25, 25, [25]),
    ({"continuous_kw": 6, "volts": 120}, 50, 50, [50]),
    ({"continuous_a": 25, "leg_a": 20, "count": 2}, 50, 40, [50]),
    ({"continuous_kw": 6, "surge": [{"seconds": 1, "kva": 14.88}]}, 25, 25, [62, 25]),
    (
        {
            "continuous_a": 25,
            "derating": {"ambient": 113, "above": 104, "percent_per_kelvin": 2},
            "surge": [{"seconds": 1, "amps": 62}],
        },
        22.5,
        22.5,
        [62, 22.5],
    ),
    (
        {"continuous_a": 25, "derating": {"ambient": 68, "above": 104, "percent_per_kelvin": 2}},
        25,
        25,
        [25],
    ),
    (
        {
            "continuous_a": 25,
            "count": 2,
            "surge": [{"seconds": 1, "amps": 62}],
            "surge_sharing_percent": 90,
        },
        50,
        50,
        [50 + 37 * 1.9, 50],
    ),
]


@pytest.mark.parametrize("made, continuous, leg, amps", INVERTERS)
def test_inverter(made: Body, continuous: float, leg: float, amps: list[float]) -> None:
    found = of_inverter(inverter(**made))
    assert (found.continuous, found.leg) == pytest.approx((continuous, leg))
    assert found.amps == pytest.approx(amps)


def test_kw_and_kva_answer_as_the_amps_they_are() -> None:
    kilo = {"continuous_kw": 9.6, "surge": [{"seconds": 0.4, "kva": 31.2}]}
    amps = {"continuous_a": 40, "surge": [{"seconds": 0.4, "amps": 130}]}
    assert answer(body(COMPRESSOR, inverter=kilo)) == answer(body(COMPRESSOR, inverter=amps))


def test_heat_takes_from_what_runs_and_not_from_a_printed_surge() -> None:
    hot = {"ambient": 140, "above": 104, "percent_per_kelvin": 3}
    load = [{"name": "oven", "watts": 5000, "circuit": "both_legs", "nature": "constant_power"}]
    cool = answer(body(COMPRESSOR, inverter=LARGE, running=load))
    found = answer(body(COMPRESSOR, inverter=LARGE | {"derating": hot}, running=load))
    assert cool.verdict != FAIL
    assert found.motors[0].word == "starts_but_not_carried"
    assert found.motors[0].first_rating_a == cool.motors[0].first_rating_a


REFUSED: list[tuple[Body, str]] = [
    ({}, "/inverter/continuous_a"),
    ({"continuous_a": 25, "continuous_kw": 6}, "/inverter/continuous_a"),
    ({"continuous_a": 25, "surge": [{"seconds": 1}]}, "/inverter/surge/0/amps"),
    (
        {"continuous_a": 25, "surge": [{"seconds": 1, "amps": 30, "kva": 9}]},
        "/inverter/surge/0/amps",
    ),
    ({"continuous_a": 25, "leg_a": 30}, "/inverter/leg_a"),
    (
        {"continuous_a": 25, "derating": {"ambient": 176, "above": 0, "percent_per_kelvin": 20}},
        "/inverter/derating",
    ),
]


@pytest.mark.parametrize("made, pointer", REFUSED)
def test_refused(made: Body, pointer: str) -> None:
    assert refused(body() | {"inverter": made}) == [pointer]


def test_without_any_source_it_is_refused() -> None:
    made = body(COMPRESSOR)
    del made["inverter"]
    assert refused(made) == ["/inverter"]


# horsepower of a well pump, kVA that a pump motor maker's table asks for externally regulated
# generators, dip at most 35 %. Source: manual of a maker of submersible pump motors. Standing:
# published.
PUMPS = [(0.5, 2.5), (1, 5.0), (2, 9.4), (3, 12.5), (5, 18.8)]


@pytest.mark.parametrize("horsepower, kva", PUMPS)
def test_a_generator_of_the_printed_size_is_near_its_dip(horsepower: float, kva: float) -> None:
    """With the reactance taken where none is stated the dip lies between 28 and 40 %."""
    pump = {
        "id": "well",
        "kind": "well_pump",
        "locked_rotor_a": locked_rotor_current(horsepower, 230),
        "volts": 230,
        "wire": {"length": 0},
    }
    made = body(pump, running=[]) | {"generator": {"rated_kw": kva, "connection": None}}
    del made["inverter"]
    motor = only(made)
    assert motor.least_bus_percent is not None
    assert 60 < motor.least_bus_percent < 72


def alone(kilowatts: float, *motors: Body, **more: object) -> Body:
    """Return a request that a generator carries alone."""
    made = body(*motors, running=[]) | {"generator": {"rated_kw": kilowatts, **more}}
    del made["inverter"]
    return made


def test_a_larger_or_stiffer_generator_never_worsens_a_start() -> None:
    worst = [FAIL, OPEN, IF, PASS]
    sizes = [worst.index(only(alone(k, COMPRESSOR)).verdict) for k in (5, 8, 12, 20, 40, 80)]
    assert sizes == sorted(sizes)
    assert sizes[0] < sizes[-1] == worst.index(PASS)
    stiff = [
        only(alone(16, COMPRESSOR, transient_reactance_percent=x)).least_bus_percent
        for x in (40, 25, 15, 8)
    ]
    assert stiff == sorted(stiff)  # type: ignore[type-var]  # solved, so none is None


def test_a_dip_of_more_than_thirty_percent_is_no_pass() -> None:
    motor = only(alone(9, COMPRESSOR, transient_reactance_percent=30))
    assert motor.least_bus_percent is not None
    assert motor.least_bus_percent < 70
    assert motor.word == "uncertain"


def test_a_generator_of_unknown_reactance_is_taken_at_both_ends() -> None:
    stated = [only(alone(14, COMPRESSOR, transient_reactance_percent=x)).word for x in (15, 25, 35)]
    assert stated == ["starts_lights_dip", "starts_lights_dip", "uncertain"]
    assert only(alone(14, COMPRESSOR)).word == "uncertain"


def test_rated_kilowatts_of_a_generator_are_held() -> None:
    load = [{"name": "oven", "watts": 9000, "circuit": "both_legs", "power_factor": 1}]
    made = alone(8) | {"running": load, "transfer": {"kind": "manual", "connected_load_va": 8000}}
    made["generator"] |= {"rated_kva": 10}
    found = {finding.rule: finding.verdict for finding in answer(made).findings}
    assert found["running-power"] is FAIL
    assert found["running-amps"] is PASS


BESIDE = {"rated_kw": 3}


def beside(connection: str | None) -> Body:
    return body(COMPRESSOR, generator=BESIDE | {"connection": connection})


def test_a_generator_on_the_inverters_input_is_not_counted() -> None:
    found, without = answer(beside("inverter_input")), answer(body(COMPRESSOR))
    assert (found.verdict, without.verdict) == (PASS, PASS)
    assert found.motors == without.motors


def test_what_a_generator_alone_does_not_start_stays_off() -> None:
    found = answer(beside("transfer_switch"))
    assert str(found.verdict) == "conditional"
    assert found.conditions == [
        "condenser stays off while the generator carries the home",
        "no more than 3 kW run while the generator carries the home",
    ]
    assert found.motors[0].verdict is PASS


def test_how_a_generator_joins_is_asked_and_no_pass() -> None:
    found = answer(beside(None))
    assert str(found.verdict) == "conditional"
    asked = {question.pointer: question for question in found.questions}
    assert asked["/generator/connection"].can_change_verdict


def test_a_generator_side_by_side_adds_what_runs_and_no_start() -> None:
    sources = sources_of(
        inverter(continuous_a=25, surge=[{"seconds": 1, "amps": 60}], battery_kw=5),
        GeneratorSource(rated_kw=6, connection="parallel"),
    )
    (both,) = sources
    assert (both.amps, both.seconds[:2]) == ((60, 25, 50), (1, 10))
    assert both.continuous == 50
    assert both.battery == 11_000
    assert "side by side" in answer(beside("parallel")).conditions[-1]


def test_a_120_volt_generator_starts_no_240_volt_motor() -> None:
    found = answer(body(COMPRESSOR, generator={"rated_kw": 3, "volts": 120} | JOINS))
    assert "condenser stays off while the generator carries the home" in found.conditions


JOINS = {"connection": "transfer_switch"}


def test_a_generator_has_no_ceiling_for_the_seconds_of_a_start() -> None:
    found = of_generator(GeneratorSource(rated_kw=12, transient_reactance_percent=20))
    assert list(found.amps) == [float("inf"), 50]
    # 20 % of 240 V squared by 12 kVA.
    assert found.impedance == pytest.approx(0.96j)


def test_two_motors_on_a_generator_alone_are_finite_numbers() -> None:
    """Without a ceiling there is nothing to go beyond."""
    pump = {"id": "well", "kind": "well_pump", "horsepower": 0.5}
    made = alone(20, COMPRESSOR | {"delay": False}, pump, transient_reactance_percent=15)
    found = answer(made)
    together = next(f for f in found.findings if f.rule == "restart-together")
    assert together.actual is not None
    assert 0 < together.actual < 1000
    assert all(motor.start_amps is not None for motor in found.motors)


def test_two_equal_timers_start_in_the_same_moment_too() -> None:
    other = COMPRESSOR | {"id": "other"}
    found = answer(body(COMPRESSOR, other, inverter={"continuous_a": 60, "surge": BIG}))
    assert "restart-together" in {f.rule for f in found.findings if f.verdict is IF}


BIG = [{"seconds": 0.4, "amps": 140}, {"seconds": 10, "amps": 80}]


def test_a_soft_starters_capacitor_adds_nothing_to_a_start_kit() -> None:
    soft = {"current_percent": 30, "switches_start_capacitor": True}
    kit = COMPRESSOR | {"start_capacitor_kit": True}
    both = only(body(kit | {"soft_starter": soft}))
    plain = only(body(kit | {"soft_starter": soft | {"switches_start_capacitor": False}}))
    assert both.margins == plain.margins


def test_a_source_of_120_volts_has_one_bus() -> None:
    sump = {"id": "sump", "kind": "sump_pump", "locked_rotor_a": 30, "circuit": "leg_1"}
    source = {"continuous_a": 25, "volts": 120, "surge": [{"seconds": 5, "amps": 40}]}
    amps = []
    for circuit in ("leg_1", "leg_2", "one_leg"):
        load = [{"name": "plugs", "watts": 2000, "circuit": circuit}]
        amps.append(only(body(sump, inverter=source, running=load)).start_amps)
    assert amps[0] == amps[1] == amps[2]


@pytest.mark.parametrize("seed", range(200, 212))
def test_generators_at_the_ends_of_every_bound(seed: int) -> None:
    """Alone and beside: every number and every sentence is finite."""
    made, pick = extreme(seed), random.Random(seed)
    joins = pick.choice([None, "inverter_input", "transfer_switch", "parallel"])
    made["generator"] = {"rated_kw": pick.choice([0.5, 12, 200]), "connection": joins}
    if seed % 2:
        del made["inverter"]
    text = msgspec.json.encode(answer(made)).decode()
    assert not re.search("nan A| inf |NaN|Infinity", text)
