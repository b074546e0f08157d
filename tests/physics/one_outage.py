"""One outage in kWh, kW and hours, the units in which its tests are stated."""

import math
from typing import Any

import numpy as np

from service.physics.outage_engine import OutageRun, simulate_outage

KWH = 3.6e6  # J
HOUR = 3600.0  # s

Step = tuple[float, list[float], float, float]  # hours, kW by class, source kW, generator kW


LOSSLESS: dict[str, Any] = {
    "capacity": 10.0,
    "floor": 0.0,
    "fixed": 0.0,
    "linear": 1.0,
    "square": 0.0,
    "efficiency": 1.0,
    "limit": math.inf,
    "charge_limit": math.inf,
    "shed": None,
    "restore": None,
    "rule": 0,
    "black_start": None,
    "delay": 0.0,
    "excludes": True,
    "trace": False,
}


def outage(steps: list[Step], **changes: Any) -> OutageRun:
    """Run one lane, stated in kWh, kW and hours: 10 kWh, lossless and unlimited unless changed."""
    home = LOSSLESS | changes
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
