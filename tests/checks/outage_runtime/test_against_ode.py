"""One request against a general ODE solver, a curved inverter and a load that follows the hours."""

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from tests.checks.outage_runtime.asking import answered, known, reading

#: Watts of each hour: low at night, a hump in the evening.
WATTS = [400 + 900 * math.exp(-(((hour - 19.5) / 3) ** 2)) for hour in range(24)]
CURVE = {
    "kind": "part_load",
    "rated_kw": 4,
    "efficiency_at_10_percent": 0.91,
    "efficiency_at_rated": 0.945,
    "cell_efficiency": 0.97,
}
KWH, START, FLOOR = 24.0, 0.9, 0.04


def input_power(kilowatt: float) -> float:
    """Power into two inverters of 4 kW for power out [kW], by the curve through both points."""
    rated, low, full = 8.0, 1 / 0.91, 1 / 0.945
    part = kilowatt / rated
    constant = (10 * low - full - 9) / 99
    return rated * (part + constant + (full - constant - 1) * part**2)


def by_ode(start_hour: float, factor: float) -> float:
    """Return the hours to the floor; solved hour by hour, for the load jumps at full hours."""

    def at_floor(_: float, energy: NDArray[np.float64]) -> float:
        return float(energy[0]) - KWH * FLOOR

    at_floor.terminal = True  # type: ignore[attr-defined]  # how the solver is told to stop there
    time, energy = 0.0, KWH * START
    while True:
        clock = start_hour + time
        draw = input_power(WATTS[int(clock) % 24] * factor / 1e3) / 0.97
        leg = solve_ivp(
            lambda _, __, draw=draw: [-draw],
            (time, time + math.floor(clock) + 1 - clock),
            [energy],
            events=at_floor,
            rtol=1e-10,
            atol=1e-12,
        )
        time, energy = float(leg.t[-1]), float(leg.y[0, -1])
        if leg.t_events[0].size:
            return time


@pytest.mark.parametrize("use, factor", [("low", 0.8), ("typical", 1.0), ("high", 1.2)])
def test_a_day_profile_through_a_part_load_curve(use: str, factor: float) -> None:
    unit = {"energy": {"kind": "usable", "kwh": KWH / 2}, "count": 2, "losses": CURVE}
    charge = {"start_charge_percent": 100 * START, "floor_percent": 100 * FLOOR}
    body = known([], unit | charge, start_hour=17.25)
    body["use"] = {"kind": "day_profile", "critical": WATTS}
    hours = reading(answered(body), f"{use}/now/start").hours_to_dark
    assert hours == pytest.approx(by_ode(17.25, factor), abs=1e-7)
    assert 20 < hours < 48
