"""The reference starts as lanes of the product, with the corners they were also run at."""

import json
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.start_case import StartCase

_PATH = Path(__file__).parents[2] / "reference" / "motor_start_cases.json"
CASES: list[dict[str, Any]] = json.loads(_PATH.read_text(encoding="utf-8"))["cases"]
#: Factors on locked-rotor amps, locked-rotor torque, breakaway and inertia.
CORNERS = {
    "verdict": (1.0, 1.0, 1.0, 1.0),
    "pessimistic": (1.10, 0.75, 1.30, 1.5),
    "optimistic": (0.90, 1.25, 0.75, 0.7),
}


def lanes(corner: str = "verdict", only: slice = slice(None)) -> StartCase:
    """Return the reference cases, at a corner."""
    inputs = [case["inputs"] for case in CASES[only]]
    amps, torque, breakaway, inertia = CORNERS[corner]
    steps = [_steps(one["inv"]["steps"]) for one in inputs]
    beside = np.array([complex(one["base_w"], _reactive(one)) for one in inputs])
    by_power = np.array([one["base_kind"] == "P" for one in inputs])

    def motor(name: str) -> NDArray[np.float64]:
        return np.array([one["motor"][name] for one in inputs], float)

    def load(name: str) -> NDArray[np.float64]:
        return np.array([one["load"][name] for one in inputs], float)

    return StartCase(
        rated_volts=motor("v"),
        locked_amps=motor("lra") * amps,
        rated_amps=motor("rla"),
        locked_power_factor=motor("pf_lr"),
        rated_power_factor=motor("pf_run"),
        rated_slip=motor("slip"),
        poles=motor("poles"),
        locked_torque=motor("lrt") * torque,
        start_winding_out=motor("aux_out"),
        inertia=motor("h") * inertia,
        efficiency=motor("eff"),
        load=MotorLoad(
            load("breakaway") * breakaway,
            load("const"),
            load("square"),
            load("press"),
            load("press0"),
            load("turns"),
        ),
        source_volts=np.array([one["inv"]["v"] for one in inputs], float),
        source_impedance=np.array([complex(*one["inv"]["zs"]) for one in inputs]),
        circuit_impedance=np.array([complex(*one["zc"]) for one in inputs]),
        rating_seconds=np.array([[seconds for seconds, _ in row] for row in steps]),
        rating_amps=np.array([[amps for _, amps in row] for row in steps]),
        beside_impedance=np.where(by_power, 0, beside),
        beside_power=np.where(by_power, beside, 0),
        soft_current=np.array([one["motor"]["ss_frac"] or np.inf for one in inputs]),
        soft_boost=motor("ss_boost"),
        soft_ramp=motor("ss_ramp"),
        start_limit=np.full(len(inputs), 3.0),
        beside_watts=np.zeros(len(inputs)),
        corner_impedance=np.zeros((len(inputs), 3), complex),
        corner_power=np.zeros((len(inputs), 3), complex),
        corner_watts=np.zeros((len(inputs), 3)),
        wire_credit=np.ones(len(inputs), bool),
    )


def limits(count: int = len(CASES)) -> VoltageLimits:
    """Return the limits the reference was judged by."""
    return VoltageLimits(*(np.full(count, x) for x in (0.5, 0.16, 0.55, 0.0167, 0.80, 0.0)))


def _steps(steps: list[list[Any]], longest: int = 3) -> list[tuple[float, float]]:
    found = [(float(seconds), float(amps)) for seconds, amps in steps]
    return found + [(np.inf, found[-1][1])] * (longest - len(found))


def _reactive(one: dict[str, Any]) -> float:
    return float(one["base_w"] * np.tan(np.arccos(one["base_pf"])))
