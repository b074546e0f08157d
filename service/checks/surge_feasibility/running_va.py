"""What loads and motors draw once they run, and how they hang on the legs."""

from __future__ import annotations

import numpy as np

from service.checks.surge_feasibility.evidence import motor_evidence, rated_volts
from service.checks.surge_feasibility.leg_amps import BOTH_LEGS, LEG_1, LEG_2, LEG_UNKNOWN
from service.checks.surge_feasibility.request import RunningLoad
from service.facts import Motor
from service.published.motors import motor_kind

CONNECTIONS = {"both_legs": BOTH_LEGS, "leg_1": LEG_1, "leg_2": LEG_2, "one_leg": LEG_UNKNOWN}
#: Of a running load where none is stated [1]. Standing: common practice, no source.
POWER_FACTOR = 0.97


def load_va(load: RunningLoad) -> complex:
    """Return the power of a running load [W + j var]."""
    factor = POWER_FACTOR if load.power_factor is None else load.power_factor
    return complex(load.watts, load.watts * float(np.tan(np.arccos(factor))))


def motor_va(motor: Motor) -> complex:
    """Return the power of a motor that runs [W + j var]; 0 where nothing is known of it."""
    if motor.kind == "drive_fed":
        return complex(rated_volts(motor) * (motor.rated_load_a or 0.0))
    found = motor_evidence(motor)
    if found is None:
        return 0j
    factor = motor_kind(motor.kind).running_power_factor
    return complex(found.volts * found.rated * (factor + 1j * np.sqrt(1 - factor**2)))
