"""The outage engine on cases with a closed form."""

import csv
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from service.physics.outage_engine import EventBudgetExceeded, OutageRun
from service.physics.outage_rounds import Rounds
from service.physics.part_load import schmid_coefficients
from tests.physics.one_outage import Step, in_hours, in_kwh, outage

TABLE = Path(__file__).parents[1] / "reference" / "analytic_cases.csv"

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
    (
        "A17",
        6.0 / (0.25 * 0.6 + 0.05),
        lambda: in_hours(outage(FRIDGE, capacity=6.0).first_loss),
        1e-12,
    ),
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


def test_a_run_beyond_the_event_budget_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    """The guard ends a run that takes more rounds than its bound, instead of hanging."""
    monkeypatch.setattr(Rounds, "event_bound", lambda self: -1)
    monkeypatch.setattr(Rounds, "_advance", lambda self: None)
    with pytest.raises(EventBudgetExceeded, match="No end after"):
        outage([(1, [1.0], 0, 0)])
