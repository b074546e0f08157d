"""What loads and motors draw once they run, and how they hang on the legs."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.checks.surge_feasibility.evidence import motor_evidence
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


class Ends(NamedTuple):
    """A load at the low end, at nominal values and at the high end [W + j var]."""

    low: complex
    nominal: complex
    high: complex


def motor_va(motor: Motor) -> Ends:
    """Return the power of a motor that runs [W + j var]; 0 where nothing is known of it.

    Notes
    -----
    Its rated-load amps at the volts of its circuit, as amps of circuits are added up.
    Source: common practice.
    """
    if motor.kind == "drive_fed":
        return Ends(*(complex(circuit_volts(motor) * (motor.rated_load_a or 0.0)),) * 3)
    found = motor_evidence(motor)
    if found is None:
        return Ends(0j, 0j, 0j)
    factor = motor_kind(motor.kind).running_power_factor
    va = circuit_volts(motor) * (factor + 1j * float(np.sqrt(1 - factor**2)))
    return Ends(*(complex(va * amps) for amps in (found.rated_low, found.rated, found.rated_high)))


def circuit_volts(motor: Motor) -> float:
    """Return the nominal volts of a motor's circuit [V]."""
    return 240.0 if motor.circuit == "both_legs" else 120.0
