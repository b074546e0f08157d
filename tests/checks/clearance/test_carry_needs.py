"""So many people carry the heaviest piece, with the help that rolls there."""

from __future__ import annotations

import numpy as np
import pytest

from service.checks.clearance.carry_needs import CarryNeeds, carry_needs
from service.codes.siting_carry import carry_bands

POUND = 0.45359237
BANDS = carry_bands()


def needs(mass: float, steps: int, slope: float, people: int) -> CarryNeeds:
    return carry_needs(
        mass * POUND,
        steps,
        slope,
        people,
        [band.up_to for band in BANDS],
        [band.persons for band in BANDS],
        [band.persons_on_steps for band in BANDS],
        [np.nan if band.slope is None else band.slope for band in BANDS],
    )


# lb | steps | slope | people | band | needed | rolls | enough. Source: table siting_carry, common
# practice: bands to 50, 100, 150, 200 and 350 lb; help rolls up to 1 in 12; equality is inside.
NEEDS = (
    (50, 0, 0, 1, "one", 1, False, True),
    (50.1, 0, 0, 1, "two", 2, False, False),
    (100, 3, 0, 2, "two", 3, False, False),
    (100, 0, 0.2, 2, "two", 2, False, True),  # nothing is rolled, so the slope changes nothing
    (120, 0, 0, 2, "cart", 2, True, True),
    (120, 1, 0, 2, "cart", 3, False, False),
    (120, 0, 1 / 12, 2, "cart", 2, True, True),
    (120, 0, 1 / 10, 2, "cart", 3, False, False),
    (300, 0, 0, 2, "lift", 2, True, True),
    (300, 1, 0, 4, "lift", 6, False, False),
    (500, 0, 0, 3, "machine", 3, True, True),
    (np.nan, 0, 0, 2, "machine", 3, True, False),  # an unknown mass is the heaviest
)


@pytest.mark.parametrize("mass, steps, slope, people, band, persons, rolls, enough", NEEDS)
def test_the_band_of_the_piece_says_how_many_people_carry_it(
    mass: float, steps: int, slope: float, people: int,
    band: str, persons: int, rolls: bool, enough: bool,
) -> None:  # fmt: skip
    found = needs(mass, steps, slope, people)
    assert BANDS[int(found.band)].id == band
    assert int(found.persons) == persons
    assert (bool(found.rolls), bool(found.enough)) == (rolls, enough)
