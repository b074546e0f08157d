"""The part-load curve of an inverter, by itself and in the outage engine."""

import pytest

from service.physics.part_load import discharge_coefficients, schmid_coefficients
from tests.physics.one_outage import in_hours, outage

# Part of rated power, efficiency with 92 % at 10 % and 94 % at 100 %, with 90 % and 95 %. Source:
# derived, the curve of `schmid_coefficients` worked out to four decimals.
PART_LOAD = [
    (0.01, 0.5511, 0.4832),
    (0.02, 0.7102, 0.6513),
    (0.05, 0.8580, 0.8224),
    (0.10, 0.9200, 0.9000),
    (0.20, 0.9507, 0.9418),
    (0.30, 0.9580, 0.9540),
    (0.40, 0.9591, 0.9583),
    (0.50, 0.9577, 0.9594),
    (0.75, 0.9500, 0.9563),
    (1.00, 0.9400, 0.9500),
]


@pytest.mark.parametrize("part,first,second", PART_LOAD)
def test_part_load_curve(part: float, first: float, second: float) -> None:
    """A 5 kW inverter beside lossless cells has the efficiency of the curve."""
    p0, k = schmid_coefficients([0.92, 0.90], [0.94, 0.95])
    fixed, linear, square = discharge_coefficients(5000.0, p0, k, 1.0)
    power = part * 5000.0
    efficiency = power / (fixed + linear * power + square * power**2)
    assert efficiency == pytest.approx([first, second], abs=5e-5)


def test_part_load_curve_in_the_engine() -> None:
    """Cells of 95 % behind the curve: the loss of the cells is on top of the inverter's."""
    p0, k = (float(c) for c in schmid_coefficients(0.92, 0.94))
    fixed, linear, square = (float(c) for c in discharge_coefficients(5000.0, p0, k, 0.95))
    run = outage([(48, [0.5], 0, 0)], fixed=fixed / 1e3, linear=linear, square=square * 1e3)
    draw = (0.5 + 5 * (p0 + k * 0.01)) / 0.95
    assert in_hours(run.first_loss) == pytest.approx(10 / draw, rel=1e-12)
