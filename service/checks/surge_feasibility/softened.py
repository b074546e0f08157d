"""Whether a soft starter could be fitted to a motor."""

from __future__ import annotations

from service.facts import Motor
from service.published.motors import motor_kind


def could_be_softened(motor: Motor) -> bool:
    """Return whether a soft starter could be fitted: none is, and no start kit adds its torque."""
    bare = motor.soft_starter is None and not motor.start_capacitor_kit
    return bare and bool(motor_kind(motor.kind).soft_startable)
