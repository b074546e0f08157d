"""How a motor runs up: followed from node to node of its curves, each stretch solved exactly."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.motor_load import MotorLoad, torque_of_pressure
from service.checks.surge_feasibility.speed_curves import SpeedCurves

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

_FREQUENCY = 60.0  # Hz
#: Part of the pressure's turns that one stretch may take, since its pressure is held the while.
_TURNS_A_STRETCH = 0.15
#: A balance of torques nearer than this is rest [1/s].
_REST = 1e-9


class RunUp(NamedTuple):
    """What was passed: stretches along axis 0, lanes along axis 1.

    Attributes
    ----------
    time, speed : ndarray, shape (S + 1, L)
        At the ends of the stretches [s], [1].
    phase : ndarray of int, shape (S, L)
        Phase of each stretch.
    started : ndarray, shape (L,)
        When the motor reached its speed [s]; infinite: it did not.
    ended : ndarray of bool, shape (L,)
        False where the march was cut off before its time.
    """

    time: Floats
    speed: Floats
    phase: Ints
    started: Floats
    ended: Bools


def run_up(curves: SpeedCurves, load: MotorLoad, poles: Floats, limit: Floats) -> RunUp:
    """Follow every motor until it has started or its time is over.

    Parameters
    ----------
    curves : SpeedCurves
        Of L lanes.
    load : MotorLoad
        What the motors drive.
    poles : ndarray, shape (L,)
        Of the motors.
    limit : ndarray, shape (L,)
        Time a start may take [s].

    Returns
    -------
    RunUp

    Notes
    -----
    In a stretch the acceleration is linear in the speed, ``dn/dt = a + b (n - n0)``, so that the
    time to the next node is ``ln((a + b dn) / a) / b`` and a balance of torques is approached,
    never passed. A stretch ends at a node, with a phase, or where the pressure has changed.
    Source: derived.
    """
    lanes, phases, nodes = curves.acceleration.shape
    # Flat, since reading by one index is quicker than by three.
    first = np.arange(lanes) * nodes
    at_node = curves.acceleration.ravel()
    speeds_at = curves.speed.ravel()
    with np.errstate(invalid="ignore"):
        slopes = (
            np.diff(curves.acceleration, axis=2, append=0.0).ravel()
            / np.repeat(
                np.diff(curves.speed, axis=1, append=np.inf)[:, None], phases, axis=1
            ).ravel()
        )
    ends = np.concatenate([curves.begins[:, 1:], np.full((lanes, 1), np.inf)], axis=1)
    ends = np.minimum(ends, limit[:, None])
    turns_a_second = 2 * _FREQUENCY / poles
    builds_up = load.pressure != load.pressure_at_start
    most_turns = np.where(builds_up, _TURNS_A_STRETCH * load.pressure_turns, np.inf)
    time, speed, turns, turned = np.zeros((4, lanes))
    cell, phase = np.zeros((2, lanes), int)
    started = np.full(lanes, np.inf)
    times, speeds, passed = [time], [speed], []
    longest = 4 * nodes + phases + int(np.max(limit * turns_a_second / most_turns, initial=0.0))
    running = np.ones(lanes, bool)
    for _ in range(longest):
        low, high = speeds_at.take(first + cell), speeds_at.take(first + cell + 1)
        here = first * phases + phase * nodes + cell
        at_low, slope = at_node.take(here), slopes.take(here)
        # That of the middle of a stretch as long as the one before.
        pressure = curves.gain * torque_of_pressure(load, turns + turned / 2)
        now = at_low - pressure + slope * (speed - low)
        now = np.where((np.abs(now) < _REST) | ((speed <= 0) & (now < 0)), 0.0, now)
        rising = now > 0
        # At a node a motor that slows down belongs to the stretch below it.
        below = (now < 0) & (speed <= low) & (cell > 0)
        goal = np.where(rising, high, low)
        to_goal = _time_to(now, slope, goal - speed)
        end = ends.take(first // nodes * phases + phase)
        to_phase = end - time
        to_turns = most_turns / np.maximum(turns_a_second * speed, 1e-12)
        step = np.minimum(np.minimum(to_goal, to_phase), to_turns)
        step = np.where(running & ~below, np.maximum(step, 0.0), 0.0)
        arrives = running & ~below & (to_goal <= np.minimum(to_phase, to_turns))
        gained = np.where(arrives, goal - speed, now * _reach(slope, step))
        turned = turns_a_second * (speed + gained / 2) * step
        turns = turns + turned
        passed.append(phase)
        over = running & ~below & ~arrives & (to_phase <= to_turns)
        time = np.where(over, end, time + step)
        speed = np.where(arrives, goal, np.maximum(speed + gained, 0.0))
        times.append(time)
        speeds.append(speed)
        top = arrives & rising & (cell == nodes - 2)
        started = np.where(top, time, started)
        cell = cell + (arrives & rising & ~top) - below - (arrives & ~rising & (cell > 0))
        running = running & ~top & ~(over & (time >= limit))
        phase = np.where(over & running, phase + 1, phase)
        if not running.any():
            break
    return RunUp(np.array(times), np.array(speeds), np.array(passed), started, ~running)


def _time_to(now: Floats, slope: Floats, distance: Floats) -> Floats:
    """Return the time in which the speed changes by so much [s]; infinite: it never does."""
    then = now + slope * distance
    reached = (now * then > 0) | ((distance == 0) & (now != 0))
    straight = np.abs(slope * distance) < 1e-9 * np.abs(now)
    bent = np.log(np.where(reached, then / np.where(now == 0, 1.0, now), 1.0)) / slope
    time = np.where(straight, distance / np.where(now == 0, 1.0, now), bent)
    return np.where(reached, time, np.inf)


def _reach(slope: Floats, step: Floats) -> Floats:
    """Return the change of speed in a time, for an acceleration of 1 [s]."""
    x = slope * step
    return np.where(np.abs(x) < 1e-9, step, np.expm1(x) / np.where(slope == 0, 1.0, slope))
