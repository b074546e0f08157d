"""From a request and a source to starts: every motor a lane, and what runs beside it."""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.beside_motor import beside_motor, legs
from service.checks.surge_feasibility.evidence import USUAL_WIRE, MotorEvidence, motor_evidence
from service.checks.surge_feasibility.judged_start import Known
from service.checks.surge_feasibility.leg_amps import UNKNOWN_SHARE
from service.checks.surge_feasibility.motor_load import MotorLoad
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.remedies import SOFT_BOOST, SOFT_RAMP
from service.checks.surge_feasibility.request import RunningLoad, SurgeFeasibilityRequest
from service.checks.surge_feasibility.running_va import circuit_volts, load_va, motor_va
from service.checks.surge_feasibility.softened import could_be_softened
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
    first, shed : ndarray of complex, shape (L, 3, 4)
        What hangs beside it in the order that asks least: what runs and the motors before it, and
        those motors alone with life support. Of constant impedance, of constant power, all of it on
        both legs; at nominal values, at both corners, at the pessimistic one with the usual spread
        [W + j var].
    """

    units: Floats
    sharing: Floats
    pressed: Floats
    soft: NDArray[np.bool_]
    first: Complexes
    shed: Complexes


class Starts(NamedTuple):
    """The motors of a request that can be solved: their places in it, and their lanes.

    `watts` is what stands beside each on its bus, without counting a leg twice [W].
    """

    places: list[int]
    evidence: list[MotorEvidence]
    case: StartCase
    known: Known
    limits: VoltageLimits
    changes: Changes
    watts: list[float]


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
    others = [range(len(request.motors))] * count
    before = [[at for at, rank in enumerate(order) if rank < order[place]] for place, _, _ in found]
    where = [(place, motor) for place, motor, _ in found]
    beside = _all_beside(request, source, where, others)
    volts = _array([circuit_volts(motor) for motor in motors])
    amps = np.tile(_array(list(source.amps)), (count, 1))
    seconds = np.tile(_array(list(source.seconds)), (count, 1))
    # On one leg no more is counted of the ratings than of the continuous amps.
    on_leg = volts < source.volts
    amps[on_leg] *= source.leg / source.continuous
    amps[:, -1] = np.minimum(source.leg, amps[:, -1])
    legs_apart = source.leg < source.continuous
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
        rating_seconds=seconds,
        rating_amps=amps,
        beside_impedance=beside[:, 0, 0],
        beside_power=beside[:, 1, 0],
        beside_watts=beside[:, 2, 0].real,
        corner_impedance=beside[:, 0, 1:],
        corner_power=beside[:, 1, 1:],
        corner_watts=beside[:, 2, 1:].real,
        soft_current=_array([_soft(motor) for motor in motors]),
        soft_boost=_array([_boost(motor) for motor in motors]),
        soft_ramp=np.full(count, SOFT_RAMP),
        start_limit=np.full(count, _START_LIMIT),
        wire_credit=np.ones(count, bool),
    )
    known = Known(
        _array([one.low for one in evidence]),
        _array([one.high for one in evidence]),
        _array([one.rated_low for one in evidence]),
        _array([one.rated_high for one in evidence]),
        np.array([one.guessed for one in evidence]),
        # What a leg gives above its continuous amps nobody prints.
        # What a generator beside it adds to a start neither.
        source.unrated | (on_leg & legs_apart) | (source.joined > 0),
        np.full(count, source.beyond),
        np.full(count, source.softest[0]),
        np.full(count, source.softest[1]),
    )
    changes = Changes(
        np.full(count, source.units),
        np.full(count, source.sharing),
        _array([kind.pressure_unequalised for kind in kinds]),
        np.array([could_be_softened(motor) for motor in motors]),
        _all_beside(request, source, where, before),
        _all_beside(request, source, where, before, shed=True),
    )
    places = [place for place, _ in where]
    watts = [_watts(request, source, place, motor) for place, motor in where]
    return Starts(places, evidence, case, known, _limits(source, motors), changes, watts)


def _reached(motor: Motor, source: Source) -> bool:
    """Return whether the source has the motor's volts at all."""
    return source.volts >= circuit_volts(motor)


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


def _wire(motor: Motor) -> complex:
    wire = motor.wire or USUAL_WIRE
    return 2 * wire.length / 1000.0 * conductor_impedance(wire.size, wire.material)


def _all_beside(
    request: SurgeFeasibilityRequest,
    source: Source,
    where: list[tuple[int, Motor]],
    others: Sequence[Sequence[int]],
    *,
    shed: bool = False,
) -> Complexes:
    """Return what hangs beside each motor, shape (L, 3, 4): what runs, and some of the motors.

    `others`: places of the motors that run already, for each; after an interruption all
    thermostats call. `shed`: what runs is off, but for life support, which nobody switches off.
    """
    running = [load for load in request.running or [] if load.life_support or not shed]
    impedance = legs([(load_va(r), r.circuit) for r in running if r.nature == "constant_impedance"])
    steady = [(load_va(r), r.circuit) for r in running if r.nature != "constant_impedance"]
    ends = [motor_va(motor) for motor in request.motors]
    one_bus = source.volts < 240.0
    watts = sum(load.watts for load in running)
    found = np.empty((len(where), 3, 4), complex)
    for lane, (place, motor) in enumerate(where):
        beside = [at for at in others[lane] if at != place]
        for end, va in enumerate((_NOMINAL, _HIGH, _LOW) if beside else (_NOMINAL,)):
            motors = [(va(ends[at]), request.motors[at].circuit) for at in beside]
            power = legs([*steady, *motors])
            counted = beside_motor(
                motor.circuit,
                impedance,
                power,
                one_leg_only=one_bus,
                share=_usual_share(running, motors),
            )
            found[lane, :2, end:3] = counted[:, end:]
            found[lane, 2, end:] = watts + sum(va.real for va, _ in motors)
            if end <= 1:
                # The usual spread, with the other motors at their high end.
                found[lane, :2, 3] = counted[:, 0]
                found[lane, 2, 3] = found[lane, 2, end]
    return found


def _usual_share(running: list[RunningLoad], motors: Sequence[tuple[complex, str]]) -> float:
    """Return the share of what is on an unknown leg that the heavier one usually has [1]."""
    machines = [abs(va) for va, on in motors if on == "one_leg"]
    total = sum(machines) + sum(load.watts for load in running if load.circuit == "one_leg")
    # A machine is not divided.
    return max(UNKNOWN_SHARE, max(machines) / total) if machines and total else UNKNOWN_SHARE


#: Ends of the motors beside at nominal values, at the pessimistic corner and at the optimistic one.
_NOMINAL, _HIGH, _LOW = (attrgetter(name) for name in ("nominal", "high", "low"))


def _watts(request: SurgeFeasibilityRequest, source: Source, place: int, motor: Motor) -> float:
    """Return what may stand beside a motor on its bus [W]: half of what is on both legs, for one.

    What is on an unknown leg may be on its own.
    """
    loads = [(load.watts, load.circuit) for load in request.running or []]
    loads += [
        (motor_va(other).nominal.real, other.circuit)
        for at, other in enumerate(request.motors)
        if at != place
    ]
    if source.volts < 240.0 or motor.circuit == "both_legs":
        return sum(watts for watts, _ in loads)
    own = (motor.circuit, "one_leg", *(("leg_1", "leg_2") if motor.circuit == "one_leg" else ()))
    return sum(
        watts * (0.5 if on == "both_legs" else 1.0)
        for watts, on in loads
        if on in (*own, "both_legs")
    )
