"""How far a start stays from each of its limits."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.motor_load import standstill_torque
from service.checks.surge_feasibility.nominal_start import Start
from service.checks.surge_feasibility.starts import Starts
from service.quantities.comparison import reaches

#: What there had better be by what is needed [1]: amps of a rating by a nameplate's and by any
#: other evidence's, torque at standstill by breakaway, printed time of a rating by the time above
#: the one below it, continuous amps by running ones. Standing: derived, our choice; the last: a
#: generator manual's "limit load to 90 %", secondary.
_AMPS, _AMPS_GUESSED, _TORQUE, _TIME, _RUNNING = 1.10, 1.25, 1.25, 2.0, 1.0 / 0.9
#: Volts at the motor [1]. Standing: derived, our choice; pumps secondary, a pump motor maker's
#: table.
_VOLTS, _PUMP_VOLTS = 0.80, 0.65


def margins(made: Starts, start: Start, lane: int, *, pump: bool) -> list[an.Margin]:
    """Return the margins of a start at nominal values; none of one that was not solved.

    Source: derived, our choice of the margins.
    """
    if not (start.fits[lane] and start.solved[lane]):
        return []
    case, evidence = made.case, made.evidence[lane]
    course = start.course
    first = float(case.rating_amps[lane, 0])
    asked = float(start.start_amps[lane])
    soft = np.isfinite(case.soft_current[lane])
    boost = float(case.soft_boost[lane]) if soft else 1.0
    part = float(course.motor_amps[0, 0, lane] / case.locked_amps[lane]) ** 2
    torque = float(case.locked_torque[lane]) * boost * part
    needed = float(standstill_torque(case.load)[lane])
    continuous = float(case.rating_amps[lane, -1])
    nameplate = evidence.basis == "nameplate"
    rows: list[tuple[an.Limit, float, float]] = [
        ("surge-amps", first / asked, _AMPS if nameplate else _AMPS_GUESSED),
        ("breakaway-torque", torque / needed, _TORQUE),
        ("motor-volts", float(start.least_motor_volts[lane]), _PUMP_VOLTS if pump else _VOLTS),
        ("surge-time", _time(case.rating_seconds[lane], start.above_rating[lane]), _TIME),
        ("running-amps", continuous / float(start.running_amps[lane]), _RUNNING),
    ]
    return [
        an.Margin(
            limit=limit,
            value=value,
            wanted=wanted,
            met=bool(reaches(value, wanted, "fraction")),
        )
        for limit, value, wanted in rows
        if math.isfinite(value)
    ]


def _time(seconds: NDArray[np.float64], above: NDArray[np.float64]) -> float:
    """Return the least printed time by the time above the rating that follows it [1]."""
    # A batch fills ratings up to its longest: what lies beyond the own ones says nothing new.
    pairs = zip(seconds[:-1].tolist(), above[1 : len(seconds)].tolist(), strict=True)
    return min((s / t for s, t in pairs if math.isfinite(s) and t > 0), default=math.inf)
