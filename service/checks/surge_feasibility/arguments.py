"""From a request to starts: every motor a lane, its bus, and what runs beside it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.evidence import (
    USUAL_WIRE,
    MotorEvidence,
    motor_evidence,
    rated_volts,
)
from service.checks.surge_feasibility.judged_start import Known
from service.checks.surge_feasibility.leg_amps import BOTH_LEGS, LEG_1, LEG_2, LEG_UNKNOWN
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.remedies import SOFT_BOOST, SOFT_RAMP
from service.checks.surge_feasibility.request import (
    Inverter,
    RunningLoad,
    SurgeFeasibilityRequest,
)
from service.checks.surge_feasibility.start_case import StartCase
from service.checks.surge_feasibility.start_outcome import FOLDS_BACK, TRIPS, UNKNOWN
from service.facts import Motor
from service.published.motors import MotorKind, conductor_impedance, motor_kind

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

CONNECTIONS = {"both_legs": BOTH_LEGS, "leg_1": LEG_1, "leg_2": LEG_2, "one_leg": LEG_UNKNOWN}
_BEYOND = {None: UNKNOWN, "folds_back": FOLDS_BACK, "trips": TRIPS}
#: Of a running load where none is stated [1]. Standing: common practice, no source.
POWER_FACTOR = 0.97
#: Of a unit where none is stated: resistance and reactance [ohm], volts at which it shuts down [1]
#: and after how long [s]. Standing: derived, our choice.
OUTPUT_OHM, TRIP, TRIP_SECONDS = (0.02, 0.05), 0.50, 0.16
#: Volts at which a contactor may let go [1] and after how long [s]: a cycle. Standing: common
#: practice; a regional utility council's parameter set has 0.45 to 0.55.
_DROPOUT, _DROPOUT_SECONDS = 0.55, 1.0 / 60.0
#: Volts below which lights dip [1]. Standing: derived, our choice; see NEMA MG 1, 12.44.1.
FLOOR = 0.90
#: Longest time for a start [s]. Standing: derived, our choice; motor protectors trip in seconds.
_START_LIMIT = 3.0


class Solvable(NamedTuple):
    """The motors of a request that can be solved: their places in it, evidence, starts.

    ``running`` and ``case.beside_*`` hold the steady loads on each motor's own bus [W + j var];
    ``motor_va`` what every motor of the request draws once it runs.
    """

    places: list[int]
    evidence: list[MotorEvidence]
    case: StartCase
    known: Known
    limits: VoltageLimits


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


def solvable(request: SurgeFeasibilityRequest) -> Solvable | None:
    """Return the starts of the motors that are across the line and known, None without any."""
    found: list[tuple[int, Motor, MotorEvidence]] = []
    for place, motor in enumerate(request.motors):
        known_amps = None if motor.kind == "drive_fed" else motor_evidence(motor)
        if known_amps is not None and motor.phases == 1:
            found.append((place, motor, known_amps))
    if not found:
        return None
    motors = [motor for _, motor, _ in found]
    evidence = [one for _, _, one in found]
    kinds = [motor_kind(motor.kind) for motor in motors]
    count = len(motors)
    beside = [_beside(request, place, motor) for place, motor, _ in found]
    volts = np.array([_bus_volts(motor) for motor in motors])
    case = StartCase(
        rated_volts=_array([one.volts for one in evidence]),
        locked_amps=_array([one.nominal for one in evidence]),
        rated_amps=_array([one.rated for one in evidence]),
        locked_power_factor=_of(motors, kinds, "locked_rotor_power_factor", "kit_power_factor"),
        rated_power_factor=_array([kind.running_power_factor for kind in kinds]),
        rated_slip=_array([kind.rated_slip for kind in kinds]),
        poles=_array([kind.poles for kind in kinds]),
        locked_torque=_of(motors, kinds, "locked_rotor_torque", "kit_torque"),
        start_winding_out=_of(motors, kinds, "start_winding_out", "kit_winding_out"),
        inertia=_array([kind.inertia_s for kind in kinds]),
        efficiency=_array([kind.efficiency for kind in kinds]),
        load=MotorLoad(
            breakaway=_array([kind.breakaway for kind in kinds]),
            constant=_array([kind.constant for kind in kinds]),
            square=_array([kind.square for kind in kinds]),
            pressure=_array([kind.pressure for kind in kinds]),
            pressure_at_start=np.zeros(count),
            pressure_turns=_array([kind.pressure_turns for kind in kinds]),
        ),
        source_volts=volts,
        source_impedance=np.array([_output(request.inverter, v) for v in volts]),
        circuit_impedance=np.array([_wire(motor) for motor in motors]),
        rating_seconds=np.tile(_ratings(request.inverter)[0], (count, 1)),
        rating_amps=np.tile(_ratings(request.inverter)[1], (count, 1)),
        beside_impedance=np.array([impedance for impedance, _ in beside]),
        beside_power=np.array([power for _, power in beside]),
        soft_current=_array([_soft(motor) for motor in motors]),
        soft_boost=_array([_boost(motor) for motor in motors]),
        soft_ramp=np.full(count, SOFT_RAMP),
        start_limit=np.full(count, _START_LIMIT),
    )
    known = Known(
        _array([one.low for one in evidence]),
        _array([one.high for one in evidence]),
        np.array([one.guessed for one in evidence]) | (request.inverter.surge is None),
        np.full(count, _BEYOND[request.inverter.beyond_rating]),
    )
    return Solvable(
        [place for place, _, _ in found], evidence, case, known, limits_of(request.inverter, count)
    )


def limits_of(inverter: Inverter, count: int) -> VoltageLimits:
    """Return the limits of the bus of an inverter."""
    trip = TRIP if inverter.trip_percent is None else inverter.trip_percent / 100.0
    seconds = TRIP_SECONDS if inverter.trip_seconds is None else inverter.trip_seconds
    values = (trip, seconds, _DROPOUT, _DROPOUT_SECONDS, FLOOR)
    return VoltageLimits(*(np.full(count, value) for value in values))


def _array(values: list[float]) -> Floats:
    return np.array(values, np.float64)


def _of(motors: list[Motor], kinds: list[MotorKind], bare: str, kit: str) -> Floats:
    pairs = zip(motors, kinds, strict=True)
    return _array([getattr(kind, kit if m.start_capacitor_kit else bare) for m, kind in pairs])


def _soft(motor: Motor) -> float:
    return np.inf if motor.soft_starter is None else motor.soft_starter.current_percent / 100.0


def _boost(motor: Motor) -> float:
    fitted = motor.soft_starter is not None and motor.soft_starter.switches_start_capacitor
    return SOFT_BOOST if fitted else 1.0


def _bus_volts(motor: Motor) -> float:
    return 240.0 if motor.circuit == "both_legs" else 120.0


def _output(inverter: Inverter, volts: float) -> complex:
    """Return the impedance behind a bus [ohm]: of one leg half of that behind both."""
    resistance = OUTPUT_OHM[0] if inverter.resistance_ohm is None else inverter.resistance_ohm
    reactance = OUTPUT_OHM[1] if inverter.reactance_ohm is None else inverter.reactance_ohm
    return complex(resistance, reactance) * (volts / inverter.volts) / inverter.count


def _wire(motor: Motor) -> complex:
    wire = motor.wire or USUAL_WIRE
    return 2 * wire.length / 1000.0 * conductor_impedance(wire.size, wire.material)


def _ratings(inverter: Inverter) -> tuple[list[float], list[float]]:
    """Return seconds and amps of all units: of their surge what the maker lets them share."""
    sharing = (inverter.surge_sharing_percent or 0.0) / 100.0
    units = 1 + (inverter.count - 1) * sharing
    continuous = inverter.continuous_a
    amps = [
        continuous * inverter.count + (rating.amps - continuous) * units
        for rating in inverter.surge or []
    ]
    seconds = [rating.seconds for rating in inverter.surge or []]
    return [*seconds, np.inf], [*amps, continuous * inverter.count]


def _beside(request: SurgeFeasibilityRequest, place: int, motor: Motor) -> tuple[complex, complex]:
    """Return what else is on a motor's bus, of constant impedance and of constant power.

    Every other motor runs, since after an interruption all thermostats call. On the bus of one leg
    stand the loads of that leg, those of unknown leg, and half of what is on both.
    """
    impedance = power = 0j
    for load in request.running or []:
        va = load_va(load) * _share(motor, load.circuit)
        if load.nature == "constant_impedance":
            impedance += va
        else:
            power += va
    for other, beside in enumerate(request.motors):
        if other != place:
            power += motor_va(beside) * _share(motor, beside.circuit)
    return impedance, power


def _share(motor: Motor, circuit: str) -> float:
    if motor.circuit == "both_legs" or circuit == motor.circuit:
        return 1.0
    if circuit == "both_legs":
        return 0.5
    return 1.0 if "one_leg" in (circuit, motor.circuit) else 0.0
