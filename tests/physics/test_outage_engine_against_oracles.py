"""The outage engine against an independent exact reference and against a general ODE solver."""

import math
import random
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from service.physics.outage_engine import OutageRun, simulate_outage
from tests.oracles.outage_event_reference import Course, Home, Interval, follow

KWH = 3.6e6  # J
HOUR = 3600.0  # s
CODES = {"shed": 1, "restore": 2, "empty": 3, "full": 4, "restart": 5}

Scenario = tuple[list[Interval], Home]


def exact(draw: random.Random, low: float, high: float, parts: int) -> Fraction:
    """Draw a number between two bounds that is a whole number of parts."""
    return Fraction(draw.randint(round(low * parts), round(high * parts)), parts)


def scenario(draw: random.Random, parts: int, plain: bool) -> Scenario:
    """Draw an outage; the fewer parts to a unit, the more events fall on one instant."""

    def some(low: float, high: float) -> Fraction:
        return exact(draw, low, high, parts)

    def maybe(share: float, value: Fraction) -> Fraction:
        return value if draw.random() < share else Fraction(0)

    capacity = some(4, 16)
    floor = maybe(0.5, some(0, 1))
    shed = [draw.choice([floor, capacity, some(1, 4), some(1, 4), some(2, 4)]) for _ in range(2)]
    band = [Fraction(draw.randint(5, 60), 100) * capacity for _ in range(2)]
    if draw.random() < 0.3:
        shed[1], band[1] = shed[0], band[0]
    intervals: list[Interval] = []
    for _ in range(20):
        loads = [some(0.25, 2), maybe(0.7, some(0, 2)), maybe(0.7, some(0, 3))]
        hours = some(0.25, 5) if draw.random() < 0.8 else Fraction(0)
        intervals.append((hours, loads, maybe(0.45, some(0, 7)), maybe(0.08, some(1, 4))))
    home = Home(
        capacity=capacity,
        start=draw.choice([capacity, capacity, some(0, 4), floor]),
        floor=floor,
        fixed=maybe(0.7, some(0.01, 0.25)),
        linear=Fraction(1) if plain else Fraction(draw.randint(100, 120), 100),
        square=Fraction(0) if plain else maybe(0.5, Fraction(draw.randint(1, 40), 1000)),
        charge_efficiency=Fraction(1) if plain else Fraction(draw.randint(80, 100), 100),
        discharge_limit=draw.choice([None, some(1.5, 5), some(0, 2)]),
        charge_limit=draw.choice([None, some(0, 4), some(1, 4)]),
        tiers=[(s, s + b) for s, b in zip(shed, band, strict=True)],
        proportional=draw.random() < 0.4,
        black_start=draw.choice([None, Fraction(0), some(0, 3)]),
        delay=draw.choice([Fraction(0), Fraction(1, 12), some(0, 3)]),
        excludes=True,
    )
    return intervals, home


def column(values: list[Any], scale: float = 1.0) -> NDArray[np.float64]:
    return np.array([math.inf if v is None else float(v) * scale for v in values])


def run_engine(scenarios: list[Scenario]) -> OutageRun:
    """Run a batch in which every lane has intervals of its own."""
    homes = [home for _, home in scenarios]
    steps = list(zip(*(intervals for intervals, _ in scenarios), strict=True))
    classes = range(len(steps[0][0][1]))
    tiers = range(len(homes[0].tiers))
    return simulate_outage(
        duration=np.array([column([lane[0] for lane in row], HOUR) for row in steps]),
        load=np.array(
            [[column([lane[1][k] for lane in row], 1e3) for k in classes] for row in steps]
        ),
        source=np.array([column([lane[2] for lane in row], 1e3) for row in steps]),
        generator=np.array([column([lane[3] for lane in row], 1e3) for row in steps]),
        capacity=column([h.capacity for h in homes], KWH),
        start_energy=column([h.start for h in homes], KWH),
        floor=column([h.floor for h in homes], KWH),
        discharge_fixed=column([h.fixed for h in homes], 1e3),
        discharge_linear=column([h.linear for h in homes]),
        discharge_square=column([h.square for h in homes], 1e-3),
        charge_efficiency=column([h.charge_efficiency for h in homes]),
        discharge_limit=column([h.discharge_limit for h in homes], 1e3),
        charge_limit=column([h.charge_limit for h in homes], 1e3),
        shed_at=np.array([column([h.tiers[k][0] for h in homes], KWH) for k in tiers]),
        restore_at=np.array([column([h.tiers[k][1] for h in homes], KWH) for k in tiers]),
        power_limit_rule=np.array([int(h.proportional) for h in homes]),
        black_start_power=column([h.black_start for h in homes], 1e3),
        black_start_delay=column([h.delay for h in homes], HOUR),
        generator_excludes_source=homes[0].excludes,
        trace=True,
    )


def happenings(run: OutageRun, lane: int) -> list[tuple[int, int]]:
    codes = [(int(e[lane]), int(k[lane])) for e, k in zip(run.trace_event, run.trace_tier, strict=True)]
    return [(code, tier) for code, tier in codes if code in CODES.values()]


def times(run: OutageRun, lane: int) -> list[tuple[float, bool, str]]:
    """First times of a lane, whether they were seen, and their names."""
    rows = [
        (run.first_loss, run.first_loss_seen, "first loss"),
        (run.first_power_limit, run.first_power_limit_seen, "first power limit"),
        (run.full_first, run.full_first_seen, "first full"),
    ]
    for k in range(len(run.tier_first_off)):
        rows += [
            (run.tier_first_off_energy[k], run.tier_first_off_energy_seen[k], f"energy {k}"),
            (run.tier_first_off_power[k], run.tier_first_off_power_seen[k], f"power {k}"),
        ]
    return [(float(time[lane]), bool(seen[lane]), name) for time, seen, name in rows]


def expected_times(course: Course) -> list[Any]:
    expected = [course.first_loss, course.first_power_limit, course.full_first]
    pairs = zip(course.first_off_energy, course.first_off_power, strict=True)
    return expected + [time for pair in pairs for time in pair]


def energies(run: OutageRun, lane: int) -> list[float]:
    scalars = [run.source_used, run.curtailed, run.lost_source, run.generator_used]
    scalars += [run.conversion_loss, run.end_energy, run.min_energy]
    return [float(a[lane]) for a in scalars] + [
        float(a[k, lane]) for a in (run.served, run.unserved) for k in range(len(run.served))
    ]


def expected_energies(course: Course) -> list[Any]:
    scalars = [course.source_used, course.curtailed, course.lost_source, course.generator_used]
    scalars += [course.loss, course.end, course.least]
    return [*scalars, *course.served, *course.unserved]


def assert_same(run: OutageRun, lane: int, course: Course) -> None:
    tiers = [(CODES[name], k + 1 if k >= 0 else -1) for _, name, k in course.happenings]
    assert happenings(run, lane) == tiers
    for (time, seen, name), expected in zip(times(run, lane), expected_times(course), strict=True):
        assert seen == (expected is not None), name
        if expected is not None:
            assert time == pytest.approx(float(expected) * HOUR, rel=1e-9, abs=1e-5), name
    in_joules = [float(e) * KWH for e in expected_energies(course)]
    assert energies(run, lane) == pytest.approx(in_joules, rel=1e-9, abs=3.6e-3)
    assert run.down_time[lane] == pytest.approx(float(course.down_time) * HOUR, rel=1e-9, abs=1e-5)
    limited = float(course.limited_time) * HOUR
    assert run.power_limited_time[lane] == pytest.approx(limited, rel=1e-9, abs=1e-5)
    assert run.restarts[lane] == course.restarts
    assert run.overload[lane] == course.overload
    assert run.events[lane] == len(course.happenings)


@pytest.mark.parametrize("excludes", [True, False])
@pytest.mark.parametrize("parts,plain", [(100, False), (4, True), (2, True)])
def test_random_outages_match_the_exact_reference(parts: int, plain: bool, excludes: bool) -> None:
    """Every event, time and energy agrees, also where several events fall on one instant."""
    draw = random.Random(f"{parts} {plain} {excludes}")
    scenarios = [scenario(draw, parts, plain) for _ in range(120)]
    for _, home in scenarios:
        home.excludes = excludes
    run = run_engine(scenarios)
    for lane, (intervals, home) in enumerate(scenarios):
        assert_same(run, lane, follow(intervals, home))
