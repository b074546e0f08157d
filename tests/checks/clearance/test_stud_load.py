"""A unit finds so many studs, and each carries its share."""

from __future__ import annotations

import numpy as np
import pytest

from service.checks.clearance.stud_load import stud_load

INCH, POUND = 0.0254, 0.45359237

# width, spacing, edge [in] | fewest | most. Source: by hand; studs at 0, 16, 32, ... in and a width
# slid along them: 26 in holds 16 alone from 7 to 33, and 16 and 32 from 8 to 34.
STUDS = (
    (26, 16, 0, 1, 2),
    (26, 24, 0, 1, 2),
    (14, 16, 0, 0, 1),
    (16, 16, 0, 1, 2),
    (32, 16, 0, 2, 3),
    (48, 16, 1, 2, 3),  # 46 in between the edges
    (1, 16, 1, 0, 0),  # nothing between the edges
    (26, np.inf, 0, 0, 1),
)


@pytest.mark.parametrize("width, spacing, edge, fewest, most", STUDS)
def test_a_width_finds_the_whole_spacings_that_it_spans_or_one_stud_more(
    width: float, spacing: float, edge: float, fewest: int, most: int
) -> None:
    found = stud_load(width * INCH, spacing * INCH, 100.0, 100.0, edge * INCH)
    assert (int(found.fewest), int(found.most)) == (fewest, most)


@pytest.mark.parametrize("width", np.arange(2.0, 70.0, 3.3).tolist())
def test_sliding_a_width_along_a_row_of_studs_finds_no_other_numbers(width: float) -> None:
    studs = np.arange(0, 400, 16)
    starts = np.arange(100, 116, 0.01) + 0.005
    counts = {int(np.sum((studs >= x) & (studs <= x + width))) for x in starts}
    found = stud_load(width * INCH, 16 * INCH, 100.0, 100.0)
    assert counts == set(range(int(found.fewest), int(found.most) + 1))


# width [in] | mass, allowed [lb] | each [lb] | needed | holds | can hold. Source: by hand, studs at
# 16 in: 32 in finds 2 or 3, 26 in finds 1 or 2; 300 lb at 150 lb a stud take 2.
LOADS = (
    (32, 300, 150, 150, 2, True, True),
    (26, 300, 150, 300, 2, False, True),
    (26, 301, 150, 301, 3, False, False),
    (14, 50, 150, np.inf, 1, False, True),
    (32, 100, 150, 50, 1, True, True),
)


@pytest.mark.parametrize("width, mass, allowed, each, needed, holds, can", LOADS)
def test_the_mass_is_shared_among_the_fewest_studs(
    width: float, mass: float, allowed: float, each: float, needed: int, holds: bool, can: bool
) -> None:
    found = stud_load(width * INCH, 16 * INCH, mass * POUND, allowed * POUND)
    assert found.mass_each / POUND == pytest.approx(each, rel=1e-9)
    assert int(found.studs_needed) == needed
    assert (bool(found.holds), bool(found.can_hold)) == (holds, can)
