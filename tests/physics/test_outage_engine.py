"""The outage engine on cases with a closed form, and at each of its rules."""

import csv
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from service.physics.constant_load import largest_constant_load
from service.physics.outage_engine import EventBudgetExceeded, OutageRun, simulate_outage
from service.physics.outage_rounds import Rounds
from service.physics.part_load import discharge_coefficients, schmid_coefficients

KWH = 3.6e6  # J
HOUR = 3600.0  # s
TABLE = Path(__file__).parents[1] / "reference" / "analytic_cases.csv"

Step = tuple[float, list[float], float, float]  # hours, kW by class, source kW, generator kW


def outage(steps: list[Step], **changes: Any) -> OutageRun:
    """Run one lane, stated in kWh, kW and hours: 10 kWh, lossless and unlimited unless changed."""
    home: dict[str, Any] = {
        **{"capacity": 10.0, "floor": 0.0, "fixed": 0.0, "linear": 1.0, "square": 0.0},
        **{"efficiency": 1.0, "limit": math.inf, "charge_limit": math.inf, "shed": None},
        **{"restore": None, "rule": 0, "black_start": None, "delay": 0.0, "excludes": True},
        **{"trace": False},
        **changes,
    }
    black_start = home["black_start"]
    hours, loads, source, generator = zip(*steps, strict=True)
    return simulate_outage(
        duration=np.array(hours) * HOUR,
        load=np.array(loads)[:, :, np.newaxis] * 1e3,
        source=np.array(source)[:, np.newaxis] * 1e3 if any(source) else None,
        generator=np.array(generator)[:, np.newaxis] * 1e3 if any(generator) else None,
        capacity=[home["capacity"] * KWH],
        start_energy=[home.get("start", home["capacity"]) * KWH],
        floor=[home["floor"] * KWH],
        discharge_fixed=[home["fixed"] * 1e3],
        discharge_linear=[home["linear"]],
        discharge_square=[home["square"] / 1e3],
        charge_efficiency=[home["efficiency"]],
        discharge_limit=[home["limit"] * 1e3],
        charge_limit=[home["charge_limit"] * 1e3],
        shed_at=None if home["shed"] is None else np.array(home["shed"])[:, np.newaxis] * KWH,
        restore_at=None if home["shed"] is None else np.array(home["restore"])[:, np.newaxis] * KWH,
        power_limit_rule=home["rule"],
        black_start_power=None if black_start is None else [black_start * 1e3],
        black_start_delay=[home["delay"] * HOUR],
        generator_excludes_source=home["excludes"],
        trace=home["trace"],
    )


def in_hours(time: Any) -> float:
    return float(np.ravel(time)[0]) / HOUR


def in_kwh(energy: Any) -> float:
    return float(np.sum(energy)) / KWH


ED = math.sqrt(0.90)
ES = math.sqrt(0.88)
NIGHT_DAY_NIGHT: list[Step] = [(7, [0.8], 0, 0), (8, [0.8], 3.3, 0), (40, [0.8], 0, 0)]
DARK_THEN_SUN: list[Step] = [(12, [1.0], 0, 0), (12, [1.0], 3.0, 0)]
FRIDGE: list[Step] = [(0.25, [0.65], 0, 0), (0.75, [0.05], 0, 0)] * 60
RAMP: list[Step] = [(0.02, [0.5 + 0.1 * 0.02 * (i + 0.5)], 0, 0) for i in range(600)]
P0, K = (float(c) for c in schmid_coefficients(0.92, 0.94))
E7 = 10 - 7 * 0.8 / ES  # kWh left at 07:00 in A07
FULL = 7 + (10 - E7) / (ES * 2.5)
FULL_SLOW = 7 + (10 - E7) / (ES * 1.5)


def tiers(hours: float) -> OutageRun:
    """A06: 0.4 kW critical, 0.8 normal, 2.0 comfort, shed at 25 and 50 %."""
    steps: list[Step] = [(hours, [0.4, 0.8, 2.0], 0, 0)]
    return outage(steps, capacity=20.0, linear=1 / 0.96, shed=[5.0, 10.0], restore=[6.0, 11.0])


def sun(**changes: Any) -> OutageRun:
    return outage(NIGHT_DAY_NIGHT, linear=1 / ES, efficiency=ES, **changes)


def plain(load: float, **changes: Any) -> OutageRun:
    return outage([(48, [load], 0, 0)], capacity=12.0, linear=1 / ED, **changes)


def generator_day() -> OutageRun:
    """A12: the generator runs for the fraction of the day that keeps the energy even."""
    x = (0.5 / 0.95) / (0.5 / 0.95 + 0.95 * 3.5)
    day: list[Step] = [((1 - x) * 24, [0.5], 0, 0), (x * 24, [0.5], 0, 4.0)]
    return outage(day, capacity=40.0, start=20.0, linear=1 / 0.95, efficiency=0.95)


# id, closed form (derived beside it), engine, relative tolerance. An id that stands in the table
# of analytic cases is compared with it too.
CLOSED_FORMS: list[tuple[str, float, Callable[[], float], float]] = [
    ("A01", 12 * ED / 1.0, lambda: in_hours(plain(1.0).first_loss), 1e-12),
    ("A02", 12 / (1 / ED + 0.03), lambda: in_hours(plain(1.0, fixed=0.03).first_loss), 1e-12),
    ("A03", 0.8 * 12 * ED, lambda: in_hours(plain(1.0, floor=2.4).first_loss), 1e-12),
    ("A04", 6.84 * ED / 0.75, lambda: in_hours(plain(0.75, start=6.84).first_loss), 1e-12),
    ("A06", 10 * 0.96 / 3.2 + 4.8 / 1.2 + 4.8 / 0.4, lambda: in_hours(tiers(96).first_loss), 1e-12),
    ("A06b", 2.0 * (19 - 3) + 0.8 * 12, lambda: in_kwh(tiers(19).unserved), 1e-12),
    ("A07a", FULL, lambda: in_hours(sun().full_first), 1e-12),
    ("A07b", (15 - FULL) * 2.5, lambda: in_kwh(sun().curtailed), 1e-12),
    ("A07c", 15 + 10 * ES / 0.8, lambda: in_hours(sun().first_loss), 1e-12),
    ("A08", FULL_SLOW, lambda: in_hours(sun(charge_limit=1.5).full_first), 1e-12),
    (
        "A08b",
        1.0 * (FULL_SLOW - 7) + 2.5 * (15 - FULL_SLOW),
        lambda: in_kwh(sun(charge_limit=1.5).curtailed),
        1e-12,
    ),
    (
        "A11",
        (8.0 - 5.0) * 2,
        lambda: in_kwh(outage([(2, [8.0], 0, 0)], capacity=30.0, limit=5.0, rule=1).unserved),
        1e-12,
    ),
    ("A12b", 20.0, lambda: in_kwh(generator_day().end_energy), 1e-12),
    # Midpoint segments of h = 0.02 h: at most b h^2 / 8 / P = 3.4e-6 h late or early.
    (
        "A13",
        (-0.5 + math.sqrt(0.25 + 0.2 * 9.5)) / 0.1,
        lambda: in_hours(outage(RAMP, linear=1 / 0.95).first_loss),
        4e-7,
    ),
    (
        "A14",
        12.0 / (0.5 + 5.0 * (P0 + K * 0.01)),
        lambda: in_hours(
            outage(
                [(48, [0.5], 0, 0)], capacity=12.0, fixed=5 * P0, linear=1.0, square=K / 5
            ).first_loss
        ),
        1e-12,
    ),
    ("A15", 4.0 + 12.0, lambda: in_kwh(outage(DARK_THEN_SUN, capacity=8.0).unserved), 1e-12),
    (
        "A16",
        12.0 - 8.0,
        lambda: in_kwh(outage(DARK_THEN_SUN, capacity=8.0, black_start=1.2).unserved),
        1e-12,
    ),
    (
        "A16b",
        8.0,
        lambda: in_kwh(outage(DARK_THEN_SUN, capacity=8.0, black_start=1.2).end_energy),
        1e-12,
    ),
    ("A17", 6.0 / (0.25 * 0.6 + 0.05), lambda: in_hours(outage(FRIDGE, capacity=6.0).first_loss), 1e-12),
]


def published() -> dict[str, float]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if line[0] != "#"]
    return {row["id"]: float(row["closed_form_or_ode"]) for row in csv.DictReader(lines)}


@pytest.mark.parametrize(
    "case,closed,engine,tolerance", CLOSED_FORMS, ids=[case for case, *_ in CLOSED_FORMS]
)
def test_closed_form(
    case: str, closed: float, engine: Callable[[], float], tolerance: float
) -> None:
    """The engine gives the closed form, and the closed form is the tabled one."""
    assert engine() == pytest.approx(closed, rel=tolerance)
    assert closed == pytest.approx(published().get(case, closed), rel=5e-9)


# Part of rated power, efficiency with 92 % at 10 % and 94 % at 100 %, with 90 % and 95 %. Source:
# derived, the curve of `schmid_coefficients` worked out to four decimals.
PART_LOAD = [
    (0.01, 0.5511, 0.4832),
    (0.02, 0.7102, 0.6513),
    (0.05, 0.8580, 0.8224),
    (0.10, 0.9200, 0.9000),
    (0.20, 0.9507, 0.9418),
    (0.30, 0.9580, 0.9540),
    (0.40, 0.9591, 0.9583),
    (0.50, 0.9577, 0.9594),
    (0.75, 0.9500, 0.9563),
    (1.00, 0.9400, 0.9500),
]


@pytest.mark.parametrize("part,first,second", PART_LOAD)
def test_part_load_curve(part: float, first: float, second: float) -> None:
    """A 5 kW inverter beside lossless cells has the efficiency of the curve."""
    p0, k = schmid_coefficients([0.92, 0.90], [0.94, 0.95])
    fixed, linear, square = discharge_coefficients(5000.0, p0, k, 1.0)
    power = part * 5000.0
    efficiency = power / (fixed + linear * power + square * power**2)
    assert efficiency == pytest.approx([first, second], abs=5e-5)


def test_part_load_curve_in_the_engine() -> None:
    """Cells of 95 % behind the curve: the loss of the cells is on top of the inverter's."""
    fixed, linear, square = (float(c) for c in discharge_coefficients(5000.0, P0, K, 0.95))
    run = outage([(48, [0.5], 0, 0)], fixed=fixed / 1e3, linear=linear, square=square * 1e3)
    draw = (0.5 + 5 * (P0 + K * 0.01)) / 0.95
    assert in_hours(run.first_loss) == pytest.approx(10 / draw, rel=1e-12)


@pytest.mark.parametrize("square", [0.0, 0.02])
@pytest.mark.parametrize("hours", [1.0, 9.7, 24.0])
def test_largest_constant_load_lasts_exactly(square: float, hours: float) -> None:
    """The load of the closed form empties the battery at its horizon, neither sooner nor later."""
    watts = float(
        largest_constant_load(10 * KWH, hours * HOUR, 30.0, 1 / 0.94, square / 1e3, math.inf)
    )
    steps: list[Step] = [(hours + 5, [watts / 1e3], 0, 0)]
    run = outage(steps, fixed=0.03, linear=1 / 0.94, square=square)
    assert in_hours(run.first_loss) == pytest.approx(hours, rel=1e-12)


def test_largest_constant_load_stops_at_the_inverter_and_at_nothing() -> None:
    """Power limits it from above; a draw at no load that takes everything leaves 0."""
    energy = np.array([10 * KWH, 0.1 * KWH])
    load = largest_constant_load(energy, HOUR, [30.0, 200.0], 1.0, 0.0, 5000.0)
    assert load.tolist() == [5000.0, 0.0]


def test_a_run_beyond_the_event_budget_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    """The guard ends a run that takes more rounds than its bound, instead of hanging."""
    monkeypatch.setattr(Rounds, "event_bound", lambda self: -1)
    monkeypatch.setattr(Rounds, "_advance", lambda self: None)
    with pytest.raises(EventBudgetExceeded, match="No end after"):
        outage([(1, [1.0], 0, 0)])
