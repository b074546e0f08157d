"""Sags that electronics ride through and volts that stall a compressor, as others print them."""

import math

import numpy as np
import pytest

from service.checks.surge_feasibility.motor_circuit import (
    MotorCircuit,
    motor_circuit,
    torque_at_rated_volts,
)
from service.checks.surge_feasibility.motor_verdict import deep_dip
from service.published.motors import motor_kind
from tests.checks.surge_feasibility.one_start import (
    one_start,
    solved,
)

# A regional utility council's stalled air conditioner: R = 0.114, X = 0.124 pu, by hand 5.94 times
# the rated amps at power factor 0.68. As quoted by others. Standing: secondary.
STALL = 1 / (0.114 + 0.124j)


@pytest.mark.parametrize("kind", ["compressor_scroll", "compressor_reciprocating"])
def test_defaults_of_compressors_against_published_stall_parameters(kind: str) -> None:
    row = motor_kind(kind)
    assert row.lra_over_rla == pytest.approx(abs(STALL), rel=0.02)
    assert row.locked_rotor_power_factor == pytest.approx(STALL.real / abs(STALL), abs=0.03)


@pytest.mark.parametrize("kind", ["compressor_scroll", "compressor_reciprocating"])
def test_a_compressor_stalls_between_45_and_70_percent_of_its_volts(kind: str) -> None:
    """Where its greatest torque, by volts squared, is its load's. Source: sets like the above."""
    row = motor_kind(kind)
    circuit = MotorCircuit._make(
        member[:, None]
        for member in motor_circuit(
            *(
                np.array([value])
                for value in (
                    1.0,
                    row.lra_over_rla,
                    row.locked_rotor_power_factor,
                    1.0,
                    row.running_power_factor,
                    row.rated_slip,
                )
            )
        )
    )
    slip, locked, out = (
        np.array([[value]])
        for value in (row.rated_slip, row.locked_rotor_torque, row.start_winding_out)
    )
    speeds = np.linspace(0.5, 1 - row.rated_slip, 400)[None]
    most = torque_at_rated_volts(circuit, speeds, slip, locked, out).max()
    assert 0.45 <= math.sqrt((row.constant + row.pressure) / most) <= 0.70


# Sag of the volts [1], how long [s], whether information technology must ride through it. Source:
# ITI (CBEMA) curve 2000, as quoted by two handbooks: no volts up to 20 ms, 70 % up to half a
# second, 90 % for ever; 80 % up to 10 s from memory, not verified. No volts are put as 1 %.
RIDES_THROUGH = [
    (0.01, 0.019, True),
    (0.01, 0.021, False),
    (0.69, 0.021, False),
    (0.71, 0.49, True),
    (0.71, 0.51, False),
    (0.79, 0.51, False),
    (0.81, 9.9, True),
    (0.81, 10.1, False),
    (0.89, 10.1, False),
    (0.91, 600.0, True),
]


@pytest.mark.parametrize("volts, seconds, rides_through", RIDES_THROUGH)
def test_a_sag_that_electronics_may_not_ride_through_is_deep(
    volts: float, seconds: float, rides_through: bool
) -> None:
    """Never called harmless; and what they ride through is harmless if above 90 % or brief."""
    found = solved(one_start())
    lasting = found.course.time / found.course.time.max() * seconds
    flat = np.full_like(found.course.bus, 240 * volts)
    sagging = found._replace(
        course=found.course._replace(time=lasting, bus=flat), least_bus=np.array([volts])
    )
    deep = deep_dip(sagging, 0)
    assert deep or rides_through
    if volts > 0.9:
        assert not deep
