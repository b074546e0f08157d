"""A unit leaves the way from an escape opening wide enough."""

from __future__ import annotations

import pytest

from service.checks.clearance.egress_way import egress_way
from service.codes.siting_rules import siting_length

INCH = 0.0254
WIDTH = siting_length("escape-court-width")
HEIGHT = siting_length("egress-height")

# clear, reach, bottom [in] | left, margin, deepest reach [in] | holds | narrow before. Source: IRC
# R310.1, 36 in, and IFC 1028.4.1, 84 in, by hand: a unit 10 in deep on 1 in of stand-off reaches
# 11 in; 60 - 11 = 49, 48 - 11 = 37, 48 - 15 = 33; the deepest reach is 48 - 36 = 12 in.
CASES = (
    (60, 11, 18, 49, 13, 24, True, False),
    (48, 11, 18, 37, 1, 12, True, False),
    (48, 12, 18, 36, 0, 12, True, False),
    (48, 15, 18, 33, -3, 12, False, False),
    (48, 15, 84, 48, 12, 12, True, False),  # wholly above the clear height
    (48, 15, 83.9, 33, -3, 12, False, False),
    (35, 11, 18, 24, -12, 0, False, True),
    (35, 11, 90, 35, -1, 0, False, True),
)


@pytest.mark.parametrize("clear, reach, bottom, left, margin, deepest, holds, narrow", CASES)
def test_the_way_past_a_unit_is_what_it_leaves(
    clear: float, reach: float, bottom: float, left: float, margin: float, deepest: float,
    holds: bool, narrow: bool,
) -> None:  # fmt: skip
    found = egress_way(clear * INCH, reach * INCH, bottom * INCH, WIDTH, HEIGHT)
    assert found.before == pytest.approx(clear * INCH, abs=1e-9)
    assert found.after == pytest.approx(left * INCH, abs=1e-9)
    assert found.margin == pytest.approx(margin * INCH, abs=1e-9)
    assert found.deepest_reach == pytest.approx(deepest * INCH, abs=1e-9)
    assert bool(found.holds) is holds
    assert bool(found.narrow_before) is narrow


def test_every_answer_has_the_shape_of_all_inputs() -> None:
    found = egress_way(60 * INCH, [11 * INCH, 25 * INCH], 18 * INCH, WIDTH, HEIGHT)
    assert found.before.shape == found.after.shape == (2,)
    assert found.holds.tolist() == [True, False]
