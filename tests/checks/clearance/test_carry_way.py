"""The heaviest piece comes through the narrowest place, and so many people carry it."""

from __future__ import annotations

import numpy as np
import pytest

from service.checks.clearance.carry_way import CarryNeeds, carry_needs, carry_way
from service.codes.siting_carry import carry_bands
from service.codes.siting_rules import siting_length

INCH, POUND = 0.0254, 0.45359237
HANDS = siting_length("carry-hand-room")
TRUCK = siting_length("hand-truck-width")
BANDS = carry_bands()

# way width, height, truck [in] | needed, width margin, height margin [in] | passes. Source: by hand
# for a piece of 26 x 40 x 10 in: 10 + 4 = 14 in carried, a truck of 20 in is wider.
WAYS = (
    (30, 80, 0, 14, 16, 40, True),
    (30, 80, 20, 20, 10, 40, True),
    (14, 80, 0, 14, 0, 40, True),
    (12, 80, 0, 14, -2, 40, False),
    (19, 80, 20, 20, -1, 40, False),
    (30, 36, 0, 14, 16, -4, False),
    (30, 40, 0, 14, 16, 0, True),
    (30, np.inf, 0, 14, 16, np.inf, True),
)


@pytest.mark.parametrize("width, height, truck, needed, wide, high, passes", WAYS)
def test_a_piece_passes_upright_with_room_for_hands(
    width: float, height: float, truck: float, needed: float, wide: float, high: float, passes: bool
) -> None:
    piece = (26 * INCH, 40 * INCH, 10 * INCH)
    found = carry_way(width * INCH, height * INCH, piece, HANDS, truck * INCH)
    assert found.needed_width == pytest.approx(needed * INCH, abs=1e-9)
    assert found.width_margin == pytest.approx(wide * INCH, abs=1e-9)
    assert found.height_margin == pytest.approx(high * INCH, abs=1e-9)
    assert bool(found.passes) is passes


def test_the_truck_of_the_table_is_twenty_inches_wide() -> None:
    assert pytest.approx(20 * INCH, abs=1e-12) == TRUCK


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
