"""Drop of a run against a second power flow of others, its results pinned."""

import numpy as np
import pytest

from service.checks.conductor_sizing.voltage_drop import drop_parts, exact_drop

#: Amps, power factor, ohm/kft along and across, feet, drop [V]. Source: pandapower 3.5.6, Newton's
#: method to 1e-12 MVA, a stiff source of 240 V from line to neutral, a line of both conductors, a
#: balanced load of constant current. Run apart, since it brings eleven packages; the impedances are
#: of NEC Chapter 9, Tables 8 and 9.
CASES = [
    (48, 1.0, 0.31, 0.048, 150, 4.464995330069073),
    (80, 0.85, 0.16, 0.046, 220, 5.64543690690023),
    (28, 0.8, 0.78, 0.052, 90, 3.311829946408773),
    (150, 0.95, 0.077, 0.042, 300, 7.768047654598931),
]


@pytest.mark.parametrize("amps, factor, ohm, reactance, feet, drop", CASES)
def test_drop(
    amps: float, factor: float, ohm: float, reactance: float, feet: float, drop: float
) -> None:
    """Within 0.1 %, at the power factor of the load."""
    along, across = drop_parts(
        np.array([amps]), np.array([ohm]), np.array([reactance]), factor, 2.0
    )
    found = exact_drop(240.0, False, along * feet / 1000, across * feet / 1000)
    assert float(found[0]) == pytest.approx(drop, rel=1e-3)
