"""The largest constant load: against the outage engine, and at its ends."""

import math

import numpy as np
import pytest

from service.physics.constant_load import largest_constant_load
from tests.physics.one_outage import HOUR, KWH, Step, in_hours, outage


@pytest.mark.parametrize("square", [0.0, 0.02])
@pytest.mark.parametrize("hours", [1.0, 9.7, 24.0])
def test_largest_constant_load_lasts_exactly(square: float, hours: float) -> None:
    """The load of the closed form empties the battery at its horizon, neither sooner nor later."""
    watts = float(
        largest_constant_load(10 * KWH, hours * HOUR, 30.0, 1 / 0.94, square / 1e3, math.inf)
    )
    steps: list[Step] = [(hours + 5, [watts / 1e3], 0, 0)]
    run = outage(steps, fixed=0.03, linear=1 / 0.94, square=square)
    assert in_hours(run.first_loss) == pytest.approx(hours, rel=1e-12)


def test_largest_constant_load_stops_at_the_inverter_and_at_nothing() -> None:
    """Power limits it from above; a draw at no load that takes everything leaves 0."""
    energy = np.array([10 * KWH, 0.1 * KWH])
    load = largest_constant_load(energy, HOUR, [30.0, 200.0], 1.0, 0.0, 5000.0)
    assert load.tolist() == [5000.0, 0.0]
