"""Batches of random outages for the stepper, in SI units, and plain cases to vary."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.physics.generator_run import GeneratorRun
from service.physics.outage_steps import StepsRestart

KWH = 3.6e6  # J
HOUR = 3600.0  # s

Batch = dict[str, Any]
Floats = NDArray[np.float64]


def plain(steps: int = 24, **changes: Any) -> Batch:
    """10 kWh full at the start, lossless and unlimited, 1 kW of critical load, hourly."""
    batch: Batch = {
        "duration": np.full(steps, HOUR),
        "load": np.full((steps, 1), 1e3),
        "capacity": 10 * KWH,
        "start_energy": 10 * KWH,
        "floor": 0.0,
        "discharge_fixed": 0.0,
        "discharge_linear": 1.0,
        "discharge_square": 0.0,
        "charge_efficiency": 1.0,
        "discharge_limit": np.inf,
        "charge_limit": np.inf,
    }
    return batch | changes


def random_batch(seed: int, lanes: int, steps: int = 60, sunny: float = 0.4) -> Batch:
    """Lanes with three classes, an AC source by day, and every limit of their own."""
    rng = np.random.default_rng(seed)
    capacity = rng.uniform(6, 16, lanes) * KWH
    shed = rng.uniform(1, 4, (2, lanes)) * KWH
    full = rng.random(lanes) < 0.3
    day = rng.random((steps, 1)) < sunny
    return {
        "duration": rng.uniform(0.2, 3, steps) * HOUR * (rng.random(steps) < 0.95),
        "load": rng.uniform(0, 2e3, (steps, 3, lanes)) * (rng.random((steps, 3, lanes)) < 0.8),
        "source": rng.uniform(0, 6e3, (steps, lanes)) * day,
        "capacity": capacity,
        "start_energy": np.where(full, capacity, rng.uniform(0, 1, lanes) * capacity),
        "floor": rng.uniform(0, 1, lanes) * KWH * (rng.random(lanes) < 0.6),
        "discharge_fixed": rng.uniform(0, 200, lanes),
        "discharge_linear": rng.uniform(1, 1.2, lanes),
        "discharge_square": rng.uniform(0, 2e-5, lanes),
        "charge_efficiency": rng.uniform(0.8, 1, lanes),
        "discharge_limit": rng.uniform(1.5e3, 5e3, lanes),
        "charge_limit": rng.uniform(500, 5e3, lanes),
        "shed_at": shed,
        "restore_at": shed + rng.uniform(0.05, 0.6, (2, lanes)) * capacity,
        "power_limit_rule": rng.integers(0, 2, lanes),
    }


def with_dc_sun(batch: Batch, seed: int, restarts: bool = True) -> Batch:
    """The same with DC-coupled sun, and a DC restart in most lanes."""
    rng = np.random.default_rng(seed)
    steps, _, lanes = batch["load"].shape
    day = rng.random((steps, 1)) < 0.4
    mode = 2 * (rng.random(lanes) < 0.7) if restarts else np.zeros(lanes)
    energy = batch["floor"] + rng.uniform(0.2, 2, lanes) * KWH
    return batch | {
        "dc_source": rng.uniform(0, 6e3, (steps, lanes)) * day,
        "dc_charge_efficiency": rng.uniform(0.7, 1, lanes),
        "restart": StepsRestart(mode=mode, restart_energy=energy),
    }


def with_generator(batch: Batch, seed: int) -> Batch:
    """The same with a generator that has quiet hours and a tank that runs dry."""
    rng = np.random.default_rng(seed)
    steps, _, lanes = batch["load"].shape
    start = rng.uniform(0.5, 4, lanes) * KWH
    generator = GeneratorRun(
        power=rng.uniform(1e3, 5e3, lanes),
        start_energy=start,
        stop_energy=start + rng.uniform(1, 6, lanes) * KWH,
        allowed=rng.random((steps, lanes)) < 0.7,
        charge_limit=rng.uniform(500, 4e3, lanes),
        tank=rng.uniform(0.5, 4, lanes),
        refills=rng.integers(0, 4, lanes),
        burn_fixed=rng.uniform(0, 0.2, lanes) / HOUR,
        burn_linear=rng.uniform(0.05, 0.4, lanes) / KWH,
    )
    return batch | {"generator": generator}
