"""The anchors of a unit hold the printed force, between its printed bounds."""

from __future__ import annotations

import numpy as np
import pytest

from service.checks.clearance.seismic_anchorage import anchor_force, needs_no_calculation
from service.codes.siting_anchorage import anchorage_factors

POUND, POUND_FORCE = 0.45359237, 4.4482216152605
FACTORS = anchorage_factors()

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


# lb | centre [in] | stands | exempt. Source: ASCE 7-16 13.1.4, from memory: 400 lb and 4 ft
# standing, 20 lb otherwise; equality is exempt.
EXEMPT = (
    (400, 48, True, True),
    (401, 48, True, False),
    (400, 49, True, False),
    (400, np.nan, True, False),
    (300, 20, False, False),
    (20, 70, False, True),
    (21, 70, False, False),
    (np.nan, 20, True, False),
)


@pytest.mark.parametrize("lb, centre, stands, exempt", EXEMPT)
def test_light_or_low_units_need_no_calculation(
    lb: float, centre: float, stands: bool, exempt: bool
) -> None:
    found = needs_no_calculation(
        lb * POUND,
        centre * 0.0254,
        stands,
        FACTORS.standing_mass,
        FACTORS.standing_centre,
        FACTORS.hanging_mass,
    )
    assert bool(found) is exempt
