"""Requests of an invented home, to vary, and their answers."""

import json
from typing import Any

from service.checks.surge_feasibility import CHECK as SURGE_FEASIBILITY
from service.checks.surge_feasibility.answer import MotorStart, SurgeFeasibilityAnswer
from service.http.answering import Answering

Body = dict[str, Any]

_ANSWERING = Answering(SURGE_FEASIBILITY)
#: Ratings of an invented small and of an invented large inverter.
SMALL: Body = {"continuous_a": 25, "surge": [{"seconds": 10, "amps": 37.5}]}
LARGE: Body = {
    "continuous_a": 40,
    "surge": [{"seconds": 0.4, "amps": 130}, {"seconds": 10, "amps": 58}],
}
COMPRESSOR: Body = {
    "id": "condenser",
    "kind": "compressor_scroll",
    "locked_rotor_a": 77,
    "rated_load_a": 14,
    "volts": 230,
    "delay": True,
    "wire": {"length": 60, "size": "10"},
}
TRANSFER: Body = {"kind": "automatic", "connected_load_va": 4000}
DEFAULTS: Body = {
    "resistance_ohm": 0.02,
    "reactance_ohm": 0.05,
    "trip_percent": 50,
    "trip_seconds": 0.16,
    "beyond_rating": "folds_back",
}


def body(*motors: Body, inverter: Body = LARGE, watts: float | None = 500, **more: Any) -> Body:
    """Return a request of which everything is known; `watts` None: nothing of what runs."""
    running = [] if watts is None else [_load(watts)]
    made = {
        "inverter": DEFAULTS | inverter,
        "motors": list(motors),
        "running": running,
        "transfer": TRANSFER,
        "confirmed_rules": ["backed-up-capacity"],
        "state": "CA",
        "permit_date": "2026-11-01",
    }
    return made | more


def _load(watts: float) -> Body:
    return {
        "name": "lights and plugs",
        "watts": watts,
        "power_factor": 0.97,
        "nature": "constant_power",
    }


def answer(made: Body) -> SurgeFeasibilityAnswer:
    """Return the answer to a request, as it comes in."""
    request, _ = _ANSWERING.take(json.dumps(made).encode())
    found: SurgeFeasibilityAnswer = SURGE_FEASIBILITY.run(request, frozenset())
    return found


def refused(made: Body) -> list[str]:
    """Return the pointers at which a request is refused."""
    from service.http.problem import Problem

    try:
        _ANSWERING.take(json.dumps(made).encode())
    except Problem as problem:
        return [error.pointer for error in problem.errors]
    return []


def only(made: Body) -> MotorStart:
    """Return the one motor of the answer to a request."""
    (motor,) = answer(made).motors
    return motor
