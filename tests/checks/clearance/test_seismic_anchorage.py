"""The anchors of a unit hold the printed force, between its printed bounds."""

from __future__ import annotations

import numpy as np
import pytest

from service.checks.clearance.seismic_anchorage import anchor_force

POUND, POUND_FORCE = 0.45359237, 4.4482216152605

# lb | SDS | z/h | ap | Rp | Ip | force, formula, least, most [lbf]. Source: ASCE 7-16 13.3.1, by
# hand: 0.4 ap SDS Wp (1 + 2 z/h) / (Rp/Ip), not below 0.3 SDS Ip Wp, not above 1.6 SDS Ip Wp.
CASES = (
    (300, 1.5, 0.0, 1.0, 2.5, 1.0, 135, 72, 135, 720),  # the least force governs
    (300, 1.5, 0.5, 1.0, 2.5, 1.0, 144, 144, 135, 720),
    (300, 1.5, 1.0, 1.0, 2.5, 1.0, 216, 216, 135, 720),
    (300, 1.5, 2.0, 1.0, 2.5, 1.0, 216, 216, 135, 720),  # no higher than the roof
    (300, 1.5, -0.1, 1.0, 2.5, 1.0, 135, 72, 135, 720),  # a basement counts as the base
    (300, 1.5, 0.0, 1.0, 2.5, 1.5, 202.5, 108, 202.5, 1080),
    (300, 1.5, 1.0, 2.5, 1.0, 1.0, 720, 1350, 135, 720),  # the most governs
    (200, 1.0, 0.5, 1.0, 2.5, 1.0, 64, 64, 60, 320),
)


@pytest.mark.parametrize("lb, sds, part, ap, rp, ip, force, formula, least, most", CASES)
def test_the_force_is_the_formula_between_its_bounds(
    lb: float, sds: float, part: float, ap: float, rp: float, ip: float,
    force: float, formula: float, least: float, most: float,
) -> None:  # fmt: skip
    found = anchor_force(lb * POUND, sds, part, ap, rp, ip)
    expected = np.array([force, formula, least, most]) * POUND_FORCE
    assert np.array(found) == pytest.approx(expected, rel=1e-9)


def test_many_units_are_worked_out_at_once() -> None:
    found = anchor_force(300 * POUND, 1.5, [0.0, 0.5], 1.0, 2.5, 1.0)
    assert found.force / POUND_FORCE == pytest.approx([135.0, 144.0], rel=1e-9)
