"""The hand checks against those of an independent calculation."""

import numpy as np
import pytest

from service.checks.surge_feasibility.screens import screens
from tests.checks.surge_feasibility.reference_starts import CASES, lanes

BARE = [i for i, case in enumerate(CASES) if case["inputs"]["motor"]["ss_frac"] is None]


@pytest.mark.parametrize("index", BARE)
def test_least_amps_that_move_it(index: int) -> None:
    found = screens(lanes()).least_amps[index]
    assert found == pytest.approx(CASES[index]["screen"]["i_motor_min_to_break_away"], rel=1e-9)


def test_divider_is_a_sum_of_phasors() -> None:
    """A 3-ton compressor on a service: 3 ohm at 48.7 degrees behind 0.08 + 0.04j ohm."""
    motor = 3 * (0.66 + 1j * np.sqrt(1 - 0.66**2))
    expected = abs(motor) / abs(motor + 0.08 + 0.04j)
    assert screens(lanes()).divider[0] == pytest.approx(expected, rel=1e-9)
    assert expected > 3 / (3 + abs(0.08 + 0.04j))
