"""The versions of every start that are tried: as it stands, and each remedy by itself."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.arguments import Solvable, load_va, motor_va
from service.checks.surge_feasibility.evidence import motor_evidence
from service.checks.surge_feasibility.judged_start import Judged, judge, largest_share_beside
from service.checks.surge_feasibility.nominal_start import Start
from service.checks.surge_feasibility.remedies import (
    equalised,
    with_conductor,
    with_share_beside,
    with_soft_starter,
    with_units,
)
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.restart_order import restart_order
from service.checks.surge_feasibility.start_case import StartCase
from service.checks.surge_feasibility.start_outcome import LIGHTS_DIP
from service.facts import Motor
from service.published.motors import motor_kind

Floats = NDArray[np.float64]

#: Impedance of a wire two sizes larger, as a part [1]: three sizes halve it. Standing: derived, the
#: geometric series of the American wire gauge (ASTM B258).
LARGER_WIRE = 2.0 ** (-2.0 / 3.0)

BARE = "as-it-stands"
UNEQUALISED = "not-equalised"
ALONE = "nothing-beside"
SEQUENCED = "largest-first"
SOFT = "soft-starter"
SOFT_ALONE = "soft-starter-alone"
UNIT = "one-more-unit"
WIRE = "larger-wire"


class Solved(NamedTuple):
    """Every version of every motor that can be solved, and the load each bears beside it.

    ``share`` is the part of what runs beside with which a motor starts; below 0: not even alone;
    NaN: not looked for.
    """

    of: dict[str, tuple[Judged, Start]]
    share: Floats


def solved(request: SurgeFeasibilityRequest, made: Solvable, *, shown: bool) -> Solved:
    """Return the versions of the starts of a request: those that are shown too, or the verdict's.

    The reruns of questions need no more than what the verdict is made of.
    """
    case = made.case
    motors = [request.motors[place] for place in made.places]
    count = np.full(len(motors), float(request.inverter.count))
    sharing = np.full(len(motors), (request.inverter.surge_sharing_percent or 0.0) / 100.0)
    pressed = np.array([motor_kind(motor.kind).pressure_unequalised for motor in motors])
    tried = {
        BARE: case,
        ALONE: with_share_beside(case, 0.0),
        SOFT: with_soft_starter(case),
        UNEQUALISED: equalised(case)._replace(load=case.load._replace(pressure_at_start=pressed)),
    }
    share = np.full(len(motors), np.nan)
    if not shown:
        return Solved(judge(tried, made.limits, made.known), share)
    tried |= {
        SEQUENCED: _sequenced(request, made),
        SOFT_ALONE: with_share_beside(with_soft_starter(case), 0.0),
        UNIT: with_units(case, count, count + 1, sharing),
        WIRE: with_conductor(case, LARGER_WIRE),
    }
    found = judge(tried, made.limits, made.known)
    words = {name: judged.word for name, (judged, _) in found.items()}
    open_ = (words[BARE] < LIGHTS_DIP) & (words[ALONE] >= LIGHTS_DIP)
    if open_.any():
        share = np.where(open_, largest_share_beside(case, made.limits, made.known), np.nan)
    return Solved(found, share)


def _sequenced(request: SurgeFeasibilityRequest, made: Solvable) -> StartCase:
    """Return the starts in the order that asks least: only the larger motors run already."""
    case = made.case
    order = order_of(request)
    beside: list[Any] = []
    for place in made.places:
        later = {p for p in range(len(request.motors)) if order[p] > order[place]}
        gone = sum((motor_va(request.motors[p]) for p in later), 0j)
        beside.append(gone)
    power = case.beside_power
    reduced = power - np.array(beside)
    return case._replace(beside_power=np.where(reduced.real >= 0, reduced, 0))


def _start_va(motor: Motor) -> float:
    """Return what a motor takes to start, at one basis for both voltages [VA]."""
    found = None if motor.kind == "drive_fed" else motor_evidence(motor)
    return abs(motor_va(motor)) if found is None else found.nominal * found.volts


def order_of(request: SurgeFeasibilityRequest) -> list[int]:
    """Return the rank of every motor: the one that takes most to start first."""
    if not request.motors:
        return []
    va = np.array([[motor_va(motor) for motor in request.motors]])
    steady = np.array([sum((load_va(load) for load in request.running or []), 0j)])
    starts = np.array([[_start_va(motor) for motor in request.motors]])
    found = restart_order(va, np.ones(va.shape, bool), starts, steady)
    return [int(rank) for rank in found.rank[0]]
