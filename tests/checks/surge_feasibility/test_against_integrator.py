"""Random starts against a general integrator, beside the pinned reference starts."""

import math

import numpy as np
import pytest

from service.checks.surge_feasibility.nominal_start import start
from tests.checks.surge_feasibility.test_start_properties import limits, random_starts
from tests.oracles.motor_start_reference import start_reference

CASE = random_starts(7)

with np.errstate(all="ignore"):
    FOUND = start(CASE, limits(CASE))
#: A few of the random lanes that have volts; each takes a tenth of a second to integrate.
LANES = [lane for lane in range(0, len(CASE.rated_volts), 11) if FOUND.solved[lane]]


@pytest.mark.parametrize("lane", LANES)
def test_start(lane: int) -> None:
    """Start time within 5 %, volts within 0.01, amps within 1 %: limits of the equations."""
    expected = start_reference(CASE, lane)
    found = float(FOUND.started[lane])
    if math.isinf(found) != math.isinf(expected.started):
        # Where it takes the whole time either may end a moment before the limit.
        assert min(found, expected.started) > 0.95 * CASE.start_limit[lane]
    elif math.isfinite(found):
        assert found == pytest.approx(expected.started, rel=0.05)
    assert float(FOUND.least_bus[lane]) == pytest.approx(expected.least_bus, abs=0.01)
    assert float(FOUND.most_amps[lane]) == pytest.approx(expected.most_amps, rel=0.01)
