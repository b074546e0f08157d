"""One start solved: run up against the ceiling, and held against the printed ratings."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.bus_voltage import Beside, bus_voltage
from service.checks.surge_feasibility.motor_circuit import MotorCircuit, admittance, motor_circuit
from service.checks.surge_feasibility.run_up import run_up
from service.checks.surge_feasibility.speed_curves import speed_curves
from service.checks.surge_feasibility.start_case import (
    StartCase,
    beside,
    same_lanes,
    some_lanes,
    unlimited,
)
from service.checks.surge_feasibility.start_measures import (
    Course,
    course,
    lanes_of,
    longest_below,
    time_above,
)

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

#: Time above the highest printed amps that is put up with [s]: rounding of a stretch.
_NO_TIME = 1e-6
#: Amps that differ by less are the same [1]: rounding.
_SAME = 1e-9


class VoltageLimits(NamedTuple):
    """Limits of the bus, shape (L,) each, in parts of the source's volts [1] and in seconds.

    Attributes
    ----------
    trip, trip_seconds : ndarray
        Below this for longer the inverter shuts down.
    dropout, dropout_seconds : ndarray
        Below this for longer a contactor may let go.
    floor : ndarray
        Below this lights dip.
    motor_floor : ndarray
        Least volts at the motor, in parts of its rated ones; 0: no rule.
    """

    trip: Floats
    trip_seconds: Floats
    dropout: Floats
    dropout_seconds: Floats
    floor: Floats
    motor_floor: Floats


class Start(NamedTuple):
    """What became of each start, shape (L,) unless said.

    Attributes
    ----------
    started : ndarray
        When it had started [s]; infinite: it did not.
    last_speed : ndarray
        Where it ended [1].
    least_bus, least_motor_volts : ndarray
        Lowest volts on the way, in parts of the source's and the motor's volts [1].
    most_amps, most_motor_amps, most_va, most_watts : ndarray
        Highest of source, motor, source and source [A, A, VA, W]; the watts without a ceiling.
    start_amps : ndarray
        At standstill, of a source without a ceiling, with what runs beside [A].
    ceiling_seconds, trip_seconds, dropout_seconds : ndarray
        Time at the ceiling, longest below the trip and below the drop-out [s].
    running_amps, running_bus : ndarray
        Once it runs [A], [1].
    carried : ndarray of bool
        Whether the source carries it then, at its last rating.
    above_rating : ndarray, shape (L, K)
        Time above each printed rating on an unlimited source [s].
    within_ratings : ndarray of bool
        Whether those times are as printed.
    fits, solved : ndarray of bool
        False where the nameplate contradicts itself, or no voltage was found.
    course : Course
        The start against time.
    """

    started: Floats
    last_speed: Floats
    least_bus: Floats
    least_motor_volts: Floats
    most_amps: Floats
    most_motor_amps: Floats
    most_va: Floats
    most_watts: Floats
    start_amps: Floats
    ceiling_seconds: Floats
    trip_seconds: Floats
    dropout_seconds: Floats
    running_amps: Floats
    running_bus: Floats
    carried: Bools
    above_rating: Floats
    within_ratings: Bools
    fits: Bools
    solved: Bools
    course: Course

    def lanes(self, lanes: slice | NDArray[np.int64]) -> Start:
        """Return some lanes."""
        members: dict[str, Any] = self._asdict()
        del members["course"]
        members = {name: member[lanes] for name, member in members.items()}
        return Start(**members, course=lanes_of(self.course, lanes))


def start(case: StartCase, limits: VoltageLimits) -> Start:
    """Solve every start.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    limits : VoltageLimits
        Of the bus, shape (L,) [1, s].

    Returns
    -------
    Start

    Notes
    -----
    Quasi-steady phasors with the speed as the one state: no first-cycle offset, no voltage loop of
    the inverter, no saturation, one motor at a time. The ratings are held against the currents of
    the same start on an unlimited source, since a source may fold back or trip: time above the
    first rating none, above the next no longer than the one before it is printed for. Lanes that
    are the same in everything are solved once.
    Source: derived; NEMA MG 1-2011 condensed, 12.44 for torque and volts.
    """
    first, place = same_lanes(case, limits)
    if len(first) == len(place):
        return _start(case, limits)
    return _start(some_lanes(case, first), VoltageLimits._make(m[first] for m in limits)).lanes(
        place
    )


def _start(case: StartCase, limits: VoltageLimits) -> Start:
    circuit = motor_circuit(
        case.rated_volts,
        case.locked_amps,
        case.locked_power_factor,
        case.rated_amps,
        case.rated_power_factor,
        case.rated_slip,
    )
    # On its ratings and on an unlimited source at once: twice the lanes cost less than two marches.
    both = beside(case, unlimited(case))
    whole, times, ends, watts = _followed(both, MotorCircuit._make(np.tile(m, 2) for m in circuit))
    count = len(case.rated_volts)
    found, free = lanes_of(whole, slice(count)), lanes_of(whole, slice(count, None))
    started, ended = times[:count], ends[:count]
    above = np.stack([time_above(free, free.amps, a) for a in case.rating_amps.T], axis=1)
    allowed = np.concatenate(
        [np.full((len(above), 1), _NO_TIME), case.rating_seconds[:, :-1]], axis=1
    )
    volts = case.source_volts
    bus = found.bus / volts
    tripped = longest_below(found, bus, limits.trip)
    dropped = longest_below(found, bus, limits.dropout)
    running, over = _running(case, circuit)
    least = bus.min(axis=(0, 1))
    within = np.asarray((above <= allowed).all(axis=1))
    return Start(
        started,
        found.speed[-1, 1],
        least,
        (found.motor_volts / case.rated_volts).min(axis=(0, 1)),
        found.amps.max(axis=(0, 1)),
        found.motor_amps.max(axis=(0, 1)),
        (found.bus * found.amps).max(axis=(0, 1)),
        watts[count:],
        free.amps[0, 0],
        time_above(found, found.over, np.zeros_like(volts)),
        tripped,
        dropped,
        running[0],
        running[1] / volts,
        ~over,
        above,
        within,
        circuit.fits,
        found.solved & ended,
        found,
    )


def _followed(case: StartCase, circuit: MotorCircuit) -> tuple[Course, Floats, Bools, Floats]:
    curves = speed_curves(case, circuit)
    run = run_up(curves, case.load, case.poles, case.start_limit)
    return course(curves, run), run.started, run.ended, curves.most_watts


def _running(case: StartCase, circuit: MotorCircuit) -> tuple[tuple[Floats, Floats], Bools]:
    """Return amps and volts once a motor runs, and whether the last rating is too little.

    The amps are those of a source without a ceiling, since below one they say nothing. At rated
    torque the slip goes against the square of the volts.
    """
    slip = case.rated_slip * np.minimum((case.rated_volts / case.source_volts) ** 2, 1.0)
    # A wire makes a motor that gives its torque take no less.
    at_bus = admittance(circuit, 1 - slip)
    found = bus_voltage(
        case.source_volts,
        case.source_impedance,
        np.full_like(case.source_volts, np.inf),
        at_bus,
        Beside(case.beside_impedance, case.beside_power),
        np.full_like(case.source_volts, np.inf),
    )
    over = ~found.solved | (found.amps > case.rating_amps[:, -1] * (1 + _SAME))
    return (found.amps, found.volts), over
