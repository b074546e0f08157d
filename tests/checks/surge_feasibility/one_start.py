"""One start of an invented motor on a source without impedance or bounds, to vary."""

from typing import Any

import numpy as np

from service.checks.surge_feasibility.motor_circuit import motor_circuit
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import Start, VoltageLimits, start
from service.checks.surge_feasibility.speed_curves import speed_curves
from service.checks.surge_feasibility.start_case import StartCase

#: Torques of a load that asks for nothing.
IDLE: dict[str, float] = dict.fromkeys(MotorLoad._fields, 0.0) | {"pressure_turns": 60.0}
#: A compressor of 3 tons with some 77 A of locked rotor. Invented.
MEMBERS: dict[str, Any] = {
    "rated_volts": 240.0,
    "locked_amps": 77.0,
    "rated_amps": 14.0,
    "locked_power_factor": 0.66,
    "rated_power_factor": 0.95,
    "rated_slip": 0.035,
    "poles": 2.0,
    "locked_torque": 0.35,
    "start_winding_out": 0.6,
    "inertia": 0.045,
    "efficiency": 0.85,
    "source_volts": 240.0,
    "source_impedance": 0j,
    "circuit_impedance": 0j,
    "beside_impedance": 0j,
    "beside_power": 0j,
    "soft_current": np.inf,
    "soft_boost": 1.0,
    "soft_ramp": 2.0,
    "beside_watts": 0.0,
    "corner_impedance": (0j, 0j, 0j),
    "corner_power": (0j, 0j, 0j),
    "corner_watts": (0.0, 0.0, 0.0),
    "start_limit": 3.0,
    "wire_credit": True,
}

#: Limits of the bus that are never passed.
NO_LIMITS = VoltageLimits(*(np.array([x]) for x in (0.0, 9.0, 0.0, 9.0, 0.0, 0.0)))


def one_start(
    ceiling: float = np.inf, load: dict[str, float] | None = None, **more: Any
) -> StartCase:
    """Return one lane: the motor above, some members changed, and torques of its load."""
    torques = IDLE | (load or {})
    members = {name: np.array([value]) for name, value in (MEMBERS | more).items()}
    return StartCase(
        load=MotorLoad(**{name: np.array([value]) for name, value in torques.items()}),
        rating_seconds=np.array([[np.inf]]),
        rating_amps=np.array([[ceiling]]),
        **members,
    )


def solved(case: StartCase) -> Start:
    """Return the one start, with limits of the bus that trip nothing."""
    with np.errstate(all="ignore"):
        return start(case, NO_LIMITS)


def torque_at_standstill(case: StartCase) -> float:
    """Return the torque of the motor at standstill, of an idle load, in parts of rated torque."""
    circuit = motor_circuit(
        case.rated_volts,
        case.locked_amps,
        case.locked_power_factor,
        case.rated_amps,
        case.rated_power_factor,
        case.rated_slip,
    )
    with np.errstate(all="ignore"):
        curves = speed_curves(case, circuit)
    return float(curves.acceleration[0, 0, 0] / curves.gain[0])
