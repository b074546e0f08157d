"""From a request and a source to starts: every motor a lane, and what runs beside it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.evidence import USUAL_WIRE, MotorEvidence, motor_evidence
from service.checks.surge_feasibility.judged_start import Known
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.remedies import SOFT_BOOST, SOFT_RAMP
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.running_va import load_va, motor_va
from service.checks.surge_feasibility.source import Source
from service.checks.surge_feasibility.start_case import StartCase
from service.facts import Motor
from service.published.motors import MotorKind, conductor_impedance, motor_kind

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: Volts below which lights dip [1]. Standing: derived, our choice; see NEMA MG 1, 12.44.1.
FLOOR = 0.90
#: Longest time for a start [s]. Standing: derived, our choice; motor protectors trip in seconds.
_START_LIMIT = 3.0


class Changes(NamedTuple):
    """What the tried changes need to know of each start, shape (L,).

    Attributes
    ----------
    units, sharing : ndarray
        Units of the source, and part of a unit's surge that one more adds [1].
    pressed : ndarray
        Torque against which a machine starts again at once [1].
    soft : ndarray of bool
        Whether a soft starter could be fitted.
    later : ndarray of complex
        Motors beside it that come after it in the order that asks least [W + j var].
    """

    units: Floats
    sharing: Floats
    pressed: Floats
    soft: NDArray[np.bool_]
    later: Complexes


class Starts(NamedTuple):
    """The motors of a request that can be solved: their places in it, and their lanes."""

    places: list[int]
    evidence: list[MotorEvidence]
    case: StartCase
    known: Known
    limits: VoltageLimits
    changes: Changes


def starts(request: SurgeFeasibilityRequest, source: Source, order: list[int]) -> Starts | None:
    """Return the starts of the motors that are across the line and known, None without any."""
    found: list[tuple[int, Motor, MotorEvidence]] = []
    for place, motor in enumerate(request.motors):
        known_amps = None if motor.kind == "drive_fed" else motor_evidence(motor)
        if known_amps is not None and motor.phases == 1 and _reached(motor, source):
            found.append((place, motor, known_amps))
    if not found:
        return None
    motors = [motor for _, motor, _ in found]
    evidence = [one for _, _, one in found]
    kinds = [motor_kind(motor.kind) for motor in motors]
    count = len(motors)
    beside = [_beside(request, source, place, motor) for place, motor, _ in found]
    volts = _array([_bus_volts(motor) for motor in motors])
    amps = np.tile(_array(list(source.amps)), (count, 1))
    # A single leg may carry less for long than both legs together.
    amps[:, -1] = np.where(volts < source.volts, np.minimum(source.leg, amps[:, -1]), amps[:, -1])
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
        # Behind one leg lies half of what lies behind both.
        source_impedance=np.array([source.impedance * v / source.volts for v in volts]),
        circuit_impedance=np.array([_wire(motor) for motor in motors]),
        rating_seconds=np.tile(_array(list(source.seconds)), (count, 1)),
        rating_amps=amps,
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
        np.array([one.guessed for one in evidence]),
        np.full(count, source.unrated),
        np.full(count, source.beyond),
        np.full(count, source.softest[0]),
        np.full(count, source.softest[1]),
    )
    changes = Changes(
        np.full(count, source.units),
        np.full(count, source.sharing),
        _array([kind.pressure_unequalised for kind in kinds]),
        np.array(
            [
                bool(k.soft_startable) and m.soft_starter is None
                for m, k in zip(motors, kinds, strict=True)
            ]
        ),
        np.array([_later(request, place, order) for place, _, _ in found]),
    )
    places = [place for place, _, _ in found]
    return Starts(places, evidence, case, known, _limits(source, motors), changes)


def _reached(motor: Motor, source: Source) -> bool:
    """Return whether the source has the motor's volts at all."""
    return source.volts >= _bus_volts(motor)


def _limits(source: Source, motors: list[Motor]) -> VoltageLimits:
    values = (source.trip, source.trip_seconds, source.dropout, source.dropout_seconds, FLOOR)
    of_bus = [np.full(len(motors), value) for value in values]
    least = _array([source.pump_floor if m.kind.endswith("_pump") else 0.0 for m in motors])
    return VoltageLimits._make([*of_bus, least])


def _array(values: list[float]) -> Floats:
    return np.array(values, np.float64)


def _of(motors: list[Motor], kinds: list[MotorKind], bare: str, kit: str) -> Floats:
    pairs = zip(motors, kinds, strict=True)
    return _array([getattr(kind, kit if m.start_capacitor_kit else bare) for m, kind in pairs])


def _soft(motor: Motor) -> float:
    return np.inf if motor.soft_starter is None else motor.soft_starter.current_percent / 100.0


def _boost(motor: Motor) -> float:
    """Return what a capacitor that the soft starter switches makes of the torque at standstill.

    Nothing where a start kit is fitted already, or the motor has a capacitor of its own.
    """
    fitted = motor.soft_starter is not None and motor.soft_starter.switches_start_capacitor
    bare = not motor.start_capacitor_kit and bool(motor_kind(motor.kind).soft_startable)
    return SOFT_BOOST if fitted and bare else 1.0


def _could_be_softened(motor: Motor) -> bool:
    bare = motor.soft_starter is None and not motor.start_capacitor_kit
    return bare and bool(motor_kind(motor.kind).soft_startable)


def _bus_volts(motor: Motor) -> float:
    return 240.0 if motor.circuit == "both_legs" else 120.0


def _wire(motor: Motor) -> complex:
    wire = motor.wire or USUAL_WIRE
    return 2 * wire.length / 1000.0 * conductor_impedance(wire.size, wire.material)


def _beside(
    request: SurgeFeasibilityRequest, source: Source, place: int, motor: Motor
) -> tuple[complex, complex]:
    """Return what else is on a motor's bus, of constant impedance and of constant power.

    Every other motor runs, since after an interruption all thermostats call. On the bus of one leg
    stand the loads of that leg, those of unknown leg, and half of what is on both; a source of
    120 V has one bus, and everything stands on it.
    """
    alone = source.volts < 240.0
    impedance = power = 0j
    for load in request.running or []:
        va = load_va(load) * (1.0 if alone else _share(motor, load.circuit))
        if load.nature == "constant_impedance":
            impedance += va
        else:
            power += va
    for other, beside in enumerate(request.motors):
        if other != place:
            power += motor_va(beside) * (1.0 if alone else _share(motor, beside.circuit))
    return impedance, power


def _later(request: SurgeFeasibilityRequest, place: int, order: list[int]) -> complex:
    """Return the motors beside one that come after it in the order that asks least."""
    motor = request.motors[place]
    return sum(
        (
            motor_va(other) * _share(motor, other.circuit)
            for at, other in enumerate(request.motors)
            if order[at] > order[place]
        ),
        0j,
    )


def _share(motor: Motor, circuit: str) -> float:
    if motor.circuit == "both_legs" or circuit == motor.circuit:
        return 1.0
    if circuit == "both_legs":
        return 0.5
    return 1.0 if "one_leg" in (circuit, motor.circuit) else 0.0
