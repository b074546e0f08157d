"""The bottom of a unit stays above the flood, its handle within reach."""

from __future__ import annotations

import pytest

from service.checks.clearance.flood_height import flood_height
from service.checks.clearance.handle_height import handle_height
from service.codes.siting_rules import siting_length

INCH, FOOT = 0.0254, 0.3048
FREEBOARD = siting_length("flood-freeboard")
REACH = siting_length("handle-height")

# bottom [in] | ground, flood [ft] | least bottom [in] | margin [in] | holds. Source: IRC R322.1.6,
# by hand: flood 100 ft and 1 ft make 101 ft, 36 in above ground at 98 ft; equality holds.
FLOODS = (
    (36, 98, 100, 36, 0, True),
    (35, 98, 100, 36, -1, False),
    (48, 98, 100, 36, 12, True),
    (6, 105, 100, 0, 54, True),
    (12, 100, 100, 12, 0, True),
    (11.9, 100, 100, 12, -0.1, False),
)


@pytest.mark.parametrize("bottom, ground, flood, least, margin, holds", FLOODS)
def test_the_bottom_is_not_below_the_flood_and_its_freeboard(
    bottom: float, ground: float, flood: float, least: float, margin: float, holds: bool
) -> None:
    found = flood_height(bottom * INCH, ground * FOOT, flood * FOOT, FREEBOARD)
    assert found.required == pytest.approx((flood + 1) * FOOT, abs=1e-9)
    assert found.least_above_ground == pytest.approx(least * INCH, abs=1e-9)
    assert found.margin == pytest.approx(margin * INCH, abs=1e-9)
    assert bool(found.holds) is holds


# bottom, handle above it [in] | height | highest bottom | margin [in] | holds. Source: NEC 404.8,
# 79 in, by hand; the third is the upper of two units of 40 in, 36 in apart, from 18 in.
HANDLES = (
    (18, 36, 54, 43, 25, True),
    (39, 40, 79, 39, 0, True),
    (94, 40, 134, 39, -55, False),
    (39.1, 40, 79.1, 39, -0.1, False),
    (0, 90, 90, -11, -11, False),
)


@pytest.mark.parametrize("bottom, handle, height, highest, margin, holds", HANDLES)
def test_a_handle_is_no_higher_than_a_person_reaches(
    bottom: float, handle: float, height: float, highest: float, margin: float, holds: bool
) -> None:
    found = handle_height(bottom * INCH, handle * INCH, REACH)
    assert found.height == pytest.approx(height * INCH, abs=1e-9)
    assert found.highest_bottom == pytest.approx(highest * INCH, abs=1e-9)
    assert found.margin == pytest.approx(margin * INCH, abs=1e-9)
    assert bool(found.holds) is holds
