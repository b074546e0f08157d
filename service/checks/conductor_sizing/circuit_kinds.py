"""What each kind of circuit brings with it: its rules and what stands in where nothing is said."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.conductor_sizing.neutral import (
    NOT_NEEDED,
    SENSING_ALONE,
    UNBALANCE,
    UNBALANCE_AND_SOURCE,
)

NEUTRALS = {
    "none": NOT_NEEDED,
    "sensing": SENSING_ALONE,
    "unbalance": UNBALANCE,
    "unbalance_and_source": UNBALANCE_AND_SOURCE,
}


class CircuitKind(NamedTuple):
    """A kind of circuit.

    Attributes
    ----------
    label : str
        In words.
    source : bool
        Whether it feeds into the service, so that its drop is a rise of the volts at the source.
    next_size : bool
        Whether the next standard breaker above the ampacity may be used, NEC 240.4(B).
    neutral : str
        What a neutral is pulled for where nothing is said.
    near, far : str
        What it begins and ends at, in words.
    nameplate : bool
        Whether a nameplate bounds its breaker.
    target : float
        Most drop or rise along the whole path [1]. Standing: common practice, no source: 2 % for
        what feeds in; 3 % for loads is the informational note of NEC 210.19 and 215.2.
    """

    label: str
    source: bool
    next_size: bool
    neutral: str
    target: float
    near: str
    far: str
    nameplate: bool


KINDS = {
    "storage_output": CircuitKind(
        "output of the storage", True, False, "unbalance", 0.02, "the battery", "the panel", True
    ),
    "inverter_output": CircuitKind(
        "output of the inverter", True, True, "unbalance", 0.02, "the inverter", "the panel", True
    ),
    "pv_output": CircuitKind(
        "output of the solar inverter",
        True,
        True,
        "none",
        0.02,
        "the solar inverter",
        "the panel",
        True,
    ),
    "pv_source": CircuitKind(
        "solar source circuit", False, True, "none", 0.02, "the modules", "the inverter", True
    ),
    "generator_input": CircuitKind(
        "input from the generator",
        False,
        True,
        "unbalance",
        0.03,
        "the generator",
        "its transfer equipment",
        True,
    ),
    "backup_feeder": CircuitKind(
        "feeder to the backup panel",
        False,
        True,
        "unbalance",
        0.03,
        "the feeder's breaker",
        "the backup panel",
        False,
    ),
    "building_feeder": CircuitKind(
        "feeder to a detached building",
        False,
        True,
        "unbalance",
        0.03,
        "the feeder's breaker",
        "the building's panel",
        False,
    ),
    "motor_branch": CircuitKind(
        "motor branch circuit", False, True, "none", 0.03, "the panel", "the motor", True
    ),
    "control_cable": CircuitKind(
        "control cable",
        False,
        True,
        "none",
        0.03,
        "the one device",
        "the other device",
        False,
    ),
}
