"""The order in which the motors of a request ask least: the one that takes most to start first."""

from __future__ import annotations

import numpy as np

from service.checks.surge_feasibility.evidence import motor_evidence
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.restart_order import restart_order
from service.checks.surge_feasibility.running_va import load_va, motor_va
from service.facts import Motor


def order_of(request: SurgeFeasibilityRequest) -> list[int]:
    """Return the rank of every motor: the one that takes most to start first."""
    if not request.motors:
        return []
    va = np.array([[motor_va(motor).nominal for motor in request.motors]])
    steady = np.array([sum((load_va(load) for load in request.running or []), 0j)])
    takes = np.array([[_start_va(motor) for motor in request.motors]])
    found = restart_order(va, np.ones(va.shape, bool), takes, steady)
    return [int(rank) for rank in found.rank[0]]


def _start_va(motor: Motor) -> float:
    """Return what a motor takes to start, at one basis for both voltages [VA]."""
    found = None if motor.kind == "drive_fed" else motor_evidence(motor)
    return abs(motor_va(motor).nominal) if found is None else found.nominal * found.volts
