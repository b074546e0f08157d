"""The pass for a battery that only runs down, held to the engine and to hand arithmetic."""

import numpy as np
import pytest
from numpy.random import Generator, default_rng

from service.physics.outage_engine import PROPORTIONAL, simulate_outage
from service.physics.run_down import RunDown, run_down

HOUR, KWH = 3600.0, 3.6e6


def _case(random: Generator, lanes: int, intervals: int) -> dict[str, np.ndarray]:
    """Draw lanes with idle draw, part-load losses, limits and intervals of no length."""
    capacity = random.uniform(1.0, 40.0, lanes) * KWH
    return {
        "duration": random.choice([0.0, 0.5, 1.0, 3.0], (intervals, lanes)) * HOUR,
        "load": random.choice([0.0, 200.0, 900.0, 4000.0], (intervals, lanes)),
        "capacity": capacity,
        "start_energy": capacity * random.choice([0.0, 0.2, 0.7, 1.0], lanes),
        "floor": capacity * random.choice([0.0, 0.1], lanes),
        "fixed": random.choice([0.0, 40.0, 300.0], lanes),
        "linear": random.uniform(1.0, 1.2, lanes),
        "square": random.choice([0.0, 1e-5], lanes),
        "limit": random.choice([500.0, 3000.0, 1e12], lanes),
    }


@pytest.mark.parametrize("seed", range(12))
def test_it_answers_what_the_engine_answers(seed: int) -> None:
    case = _case(default_rng(seed), lanes=60, intervals=25)
    found = run_down(**case)
    run = simulate_outage(
        duration=case["duration"],
        load=case["load"][:, np.newaxis, :],
        capacity=case["capacity"],
        start_energy=case["start_energy"],
        floor=case["floor"],
        discharge_fixed=case["fixed"],
        discharge_linear=case["linear"],
        discharge_square=case["square"],
        charge_efficiency=np.ones(60),
        discharge_limit=case["limit"],
        charge_limit=case["limit"],
        power_limit_rule=PROPORTIONAL,
    )
    down = np.where(run.first_down_seen, run.first_down, np.inf)
    limited = np.where(run.first_power_limit_seen, run.first_power_limit, np.inf)
    np.testing.assert_allclose(found.down, down, rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(found.limited, limited, rtol=1e-9, atol=1e-6)
    np.testing.assert_allclose(found.served, run.served.sum(axis=0), rtol=1e-9, atol=1e-3)
    np.testing.assert_allclose(found.loss, run.conversion_loss, rtol=1e-9, atol=1e-3)
    np.testing.assert_allclose(found.end_energy, run.end_energy, rtol=1e-9, atol=1e-3)


def _one(
    kwh: float, load: list[float], hours: float = 1.0, fixed: float = 0.0, limit: float = 1e12
) -> RunDown:
    one = np.ones(1)
    return run_down(
        duration=np.full((len(load), 1), hours * HOUR),
        load=np.array(load)[:, np.newaxis],
        capacity=kwh * KWH * one,
        start_energy=kwh * KWH * one,
        floor=0.0 * one,
        fixed=fixed * one,
        linear=one,
        square=0.0 * one,
        limit=limit * one,
    )


# Hand arithmetic: energy [kWh], load of each hour [W], draw at no load [W] -> hours until the loss.
CASES = [
    (2.0, [1000.0] * 4, 0.0, 2.0),  # 2 / 1
    (2.5, [1000.0] * 4, 0.0, 2.5),  # half of the third hour
    (3.0, [1000.0, 500.0, 3000.0], 0.0, 2.5),  # 1 + 0.5, then 1.5 of 3
    (2.0, [0.0] * 60, 40.0, 50.0),  # 2000 / 40: idle alone
    (4.0, [1000.0] * 4, 0.0, np.inf),  # lasts exactly to the end: not lost in it
    (0.0, [0.0] * 2, 0.0, 0.0),  # nothing stored
]


@pytest.mark.parametrize("kwh, load, fixed, hours", CASES)
def test_hours_follow_from_hand_arithmetic(
    kwh: float, load: list[float], fixed: float, hours: float
) -> None:
    assert _one(kwh, load, fixed=fixed).down[0] / HOUR == pytest.approx(hours, rel=1e-12)


def test_the_limit_is_met_when_the_load_first_passes_it_and_never_in_the_dark() -> None:
    assert _one(10.0, [100.0, 3000.0], limit=2000.0).limited[0] == HOUR
    assert _one(0.05, [100.0, 3000.0], limit=2000.0).limited[0] == np.inf
