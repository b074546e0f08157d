"""What holds of every outage, on cases that hypothesis draws."""

import dataclasses
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from service.physics.outage_engine import OutageRun, simulate_outage
from service.physics.outage_run import SHED
from service.physics.outage_sources import SourcedRounds
from tests.physics.one_outage import KWH, Step, in_kwh, outage

Case = dict[str, Any]
Floats = NDArray[np.float64]

ENERGY = 3.6e-3  # J, which is 1e-9 kWh
TIME = 1e-5  # s


def parts(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers between two bounds in 200 parts, so that ties and bounds are met."""
    return st.integers(0, 200).map(lambda i: low + (high - low) * i / 200)


def zero_or(low: float, high: float) -> st.SearchStrategy[float]:
    return st.one_of(st.just(0.0), parts(low, high))


def rows(draw: st.DrawFn, number: int, values: st.SearchStrategy[float]) -> list[float]:
    return draw(st.lists(values, min_size=number, max_size=number))


@st.composite
def cases(draw: st.DrawFn, sourced: bool = True) -> Case:
    """One lane with K classes over T intervals, in SI units."""
    intervals, classes = draw(st.integers(1, 7)), draw(st.integers(1, 4))
    capacity = draw(parts(1, 20)) * KWH
    floor = draw(zero_or(0, 0.3)) * capacity
    shed = [floor + draw(parts(0, 1)) * (capacity - floor) for _ in range(classes - 1)]
    band = [draw(parts(0.05, 1.2)) * capacity for _ in range(classes - 1)]
    case: Case = {
        "duration": np.array(rows(draw, intervals, zero_or(60, 30000))),
        "load": np.array([rows(draw, classes, zero_or(0, 4000)) for _ in range(intervals)]),
        "capacity": capacity,
        "start_energy": draw(st.one_of(st.just(1.0), parts(0, 1))) * capacity,
        "floor": floor,
        "discharge_fixed": draw(zero_or(1, 200)),
        "discharge_linear": draw(parts(1, 1.3)),
        "discharge_square": draw(zero_or(0, 5e-5)),
        "charge_efficiency": draw(parts(0.7, 1)),
        "discharge_limit": draw(st.one_of(st.just(np.inf), parts(0, 8000))),
        "charge_limit": draw(st.one_of(st.just(np.inf), parts(0, 5000))),
        "shed_at": np.array(shed)[:, np.newaxis],
        "restore_at": np.array(shed)[:, np.newaxis] + np.array(band)[:, np.newaxis],
        "power_limit_rule": draw(st.integers(0, 1)),
    }
    case["load"] = case["load"][:, :, np.newaxis]
    if sourced:
        for name in ("source", "generator"):
            case[name] = np.array(rows(draw, intervals, zero_or(0, 9000)))[:, np.newaxis]
        case["black_start_power"] = draw(st.one_of(st.just(np.inf), parts(0, 4000)))
        case["black_start_delay"] = draw(zero_or(0, 4000))
        case["generator_excludes_source"] = draw(st.booleans())
    return case


def numbers(run: OutageRun) -> dict[str, Any]:
    """Every array of a run by name, traces left out."""
    named = {f.name: getattr(run, f.name) for f in dataclasses.fields(run)}
    return {name: value for name, value in named.items() if isinstance(value, np.ndarray)}


def assert_same(one: OutageRun, other: OutageRun, lane: int | None = None) -> None:
    """Equal codes, and numbers to 1e-9; `lane` picks a lane of the other."""
    for name, value in numbers(one).items():
        reference = numbers(other)[name]
        reference = reference if lane is None else reference[..., [lane]]
        if value.dtype.kind == "f":
            np.testing.assert_allclose(value, reference, rtol=1e-9, atol=TIME, err_msg=name)
        else:
            np.testing.assert_array_equal(value, reference, err_msg=name)


@settings(max_examples=200)
@given(cases())
def test_energy_balance_closes_and_every_number_is_finite(case: Case) -> None:
    """What went in is what is left, what was served and what was lost; nothing is NaN."""
    run = simulate_outage(**case)
    assert all(np.isfinite(value).all() for value in numbers(run).values())
    into = case["start_energy"] + run.source_used + run.generator_used
    out = run.end_energy + run.served.sum(axis=0) + run.conversion_loss
    assert into == pytest.approx(out, rel=1e-12, abs=ENERGY)
    asked = np.sum(case["load"][:, :, 0] * case["duration"][:, np.newaxis], axis=0)
    assert (run.served + run.unserved)[:, 0] == pytest.approx(asked, rel=1e-12, abs=ENERGY)
    sun = np.sum(case["source"][:, 0] * case["duration"])
    assert run.source_used + run.curtailed + run.lost_source == pytest.approx(sun, abs=ENERGY)


@settings(max_examples=150)
@given(cases())
def test_quantities_stay_in_their_bounds(case: Case) -> None:
    """Energies between floor and capacity, times within the outage, nothing negative."""
    run = simulate_outage(**case)
    values = numbers(run)
    assert all((value >= -1e-6).all() for name, value in values.items() if name[:5] != "first")
    least = min(case["floor"], case["start_energy"]) - 1e-9 * case["capacity"]
    assert least <= run.min_energy[0] <= run.end_energy[0] <= case["capacity"] * (1 + 1e-9)
    for name, value in values.items():
        if f"{name}_seen" in values:
            assert (value <= run.end_time).all(), name
            assert (value[~values[f"{name}_seen"]] == run.end_time[0]).all(), name
    assert run.down_time[0] <= run.end_time[0] * (1 + 1e-12)


@settings(max_examples=100)
@given(cases(sourced=False), st.data())
def test_more_load_never_lasts_longer(case: Case, data: st.DataObject) -> None:
    """Without source, and unless the power limit drops tiers, more of any load ends it sooner."""
    assume(case["power_limit_rule"] == 1 or case["discharge_limit"] == np.inf)
    more = case | {"load": case["load"].copy()}
    row = data.draw(st.integers(0, len(more["duration"]) - 1))
    column = data.draw(st.integers(0, more["load"].shape[1] - 1))
    assume(column > 0 or more["load"][row, 0, 0] > 0)
    more["load"][row, column] += data.draw(parts(0, 3000))
    first, second = simulate_outage(**case), simulate_outage(**more)
    assert second.first_loss[0] <= first.first_loss[0] + TIME


@settings(max_examples=100)
@given(cases(sourced=False), parts(0, 1))
def test_more_energy_never_ends_sooner(case: Case, share: float) -> None:
    """Without source, more energy at the start keeps the critical load at least as long."""
    spare = case["capacity"] - case["start_energy"]
    more = case | {"start_energy": case["start_energy"] + share * spare}
    first, second = simulate_outage(**case), simulate_outage(**more)
    assert second.first_loss[0] >= first.first_loss[0] - TIME
    assert second.first_loss_seen[0] <= first.first_loss_seen[0]


@settings(max_examples=150)
@given(cases(), st.data())
def test_splitting_an_interval_changes_nothing(case: Case, data: st.DataObject) -> None:
    """Two intervals of the same power are one."""
    row = data.draw(st.integers(0, len(case["duration"]) - 1))
    share = data.draw(st.integers(1, 99)) / 100
    split = dict(case)
    for name in ("duration", "load", "source", "generator"):
        split[name] = np.insert(case[name], row, case[name][row], axis=0)
    split["duration"][row : row + 2] = case["duration"][row] * np.array([share, 1 - share])
    one, two = simulate_outage(**case), simulate_outage(**split)
    for name, value in numbers(one).items():
        other = numbers(two)[name]
        np.testing.assert_allclose(value, other, rtol=1e-9, atol=ENERGY, err_msg=name)


@settings(max_examples=60)
@given(cases(sourced=False))
def test_a_source_of_nothing_is_no_source(case: Case) -> None:
    """The simulation with sources and the one without agree where there is none."""
    nothing = case | {"source": np.zeros((1, 1)), "generator": np.zeros((1, 1))}
    assert_same(simulate_outage(**case), simulate_outage(**nothing))


def batch(lanes: int, sourced: bool, own_intervals: bool) -> Case:
    """Random lanes, every argument of its own."""
    draw = np.random.default_rng(20 + sourced + 2 * own_intervals)
    capacity = draw.uniform(2, 20, lanes) * KWH
    floor = capacity * draw.choice([0.0, 0.05, 0.2], lanes)
    shed = floor + (capacity - floor) * draw.uniform(0, 1, (2, lanes))
    shape = (24, lanes) if own_intervals else (24,)
    case: Case = {
        "duration": draw.choice([0.0, 900.0, 3600.0, 5000.0], shape),
        "load": draw.uniform(-500, 2000, (24, 3, lanes)).clip(0),
        "capacity": capacity,
        "start_energy": capacity * draw.choice([0.0, 0.4, 1.0], lanes, p=[0.1, 0.3, 0.6]),
        "floor": floor,
        "discharge_fixed": draw.choice([0.0, 30.0, 90.0], lanes),
        "discharge_linear": draw.uniform(1, 1.2, lanes),
        "discharge_square": draw.choice([0.0, 1e-5], lanes),
        "charge_efficiency": draw.uniform(0.8, 1, lanes),
        "discharge_limit": draw.choice([2000.0, 3500.0, np.inf], lanes),
        "charge_limit": draw.choice([1000.0, 3500.0, np.inf], lanes),
        "shed_at": shed,
        "restore_at": shed + capacity * draw.uniform(0.05, 0.4, (2, lanes)),
        "power_limit_rule": draw.integers(0, 2, lanes),
    }
    if sourced:
        case["source"] = draw.uniform(-4000, 6000, (24, lanes)).clip(0)
        case["generator"] = draw.uniform(-30000, 4000, (24, lanes)).clip(0)
        case["black_start_power"] = draw.choice([0.0, 1500.0, np.inf], lanes)
        case["black_start_delay"] = draw.choice([0.0, 300.0], lanes)
    return case


@pytest.mark.parametrize("own_intervals", [True, False])
@pytest.mark.parametrize("sourced", [True, False])
def test_a_lane_alone_is_the_lane_in_a_batch(sourced: bool, own_intervals: bool) -> None:
    """A case answered alone and inside a batch of 1,000: same codes, numbers to 1e-9."""
    case = batch(1000, sourced, own_intervals)
    whole = simulate_outage(**case)
    for lane in range(0, 1000, 23):
        alone = {
            name: value if np.shape(value)[-1:] != (1000,) else value[..., [lane]]
            for name, value in case.items()
        }
        assert_same(simulate_outage(**alone), whole, lane)


def chatter(band: float, hours: float, trace: bool = False) -> OutageRun:
    """2 kW of sun on 1 kW critical load and a tier of 2 kW, shed at 5 kWh."""
    steps: list[Step] = [(hours, [1.0, 2.0], 2.0, 0)]
    return outage(steps, start=5.0 + band, shed=[5.0], restore=[5.0 + band], trace=trace)


@pytest.mark.parametrize("band", [0.5, 0.1, 0.02])
def test_events_are_as_many_as_the_band_allows(
    band: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tier goes and comes every band of energy, and the budget is a few times that."""
    bounds: list[int] = []
    event_bound = SourcedRounds.event_bound

    def spy(rounds: SourcedRounds) -> int:
        bounds.append(event_bound(rounds))
        return bounds[-1]

    monkeypatch.setattr(SourcedRounds, "event_bound", spy)
    run = chatter(band, 24.5 * band + 24.0)
    # 1 kW down, then 1 kW up: an event every `band` hours.
    crossings = int((24.5 * band + 24.0) / band)
    assert run.events[0] == crossings
    assert crossings < bounds[0] < 20 * crossings + 40


@settings(max_examples=100)
@given(cases(), parts(0.002, 0.05), st.integers(1, 4))
def test_the_event_budget_is_out_of_reach(case: Case, band: float, days: int) -> None:
    """However narrow the bands and long the intervals: no run ends in an exceeded budget."""
    wide = case["capacity"] * band
    stress = case | {
        "duration": case["duration"] * days,
        "restore_at": case["shed_at"] + wide,
        "black_start_power": 0.0,
    }
    run = simulate_outage(**stress)
    assert run.rounds <= len(case["duration"]) + int(run.events[0])


def test_a_band_lost_in_rounding_ends_in_a_tier_that_stays_off() -> None:
    """One joule in the last place of 10 kWh is no band; without this rule it would chatter."""
    run = chatter(1e-13, 48.0, trace=True)
    assert [int(code[0]) for code in run.trace_event].count(SHED) <= 1
    assert in_kwh(run.curtailed) == pytest.approx(48.0 - 5.0)
