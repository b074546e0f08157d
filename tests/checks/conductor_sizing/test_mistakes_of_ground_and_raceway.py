"""Mistakes often made on grounds and raceways, each shown by a whole answer not to be made."""

import pytest

from tests.checks.conductor_sizing.requests import Body, body, both

INVERTER: Body = {"kind": "inverter_output", "most_breaker_a": None, "neutral": "none"}
COOL: Body = {"place": "indoors", "ambient": 86, "way": "pvc40"}

# Amps, feet, breaker, phase and ground of copper. Source: published cases of 250.122(B) and the
# areas of Chapter 9, Table 8. 8 AWG to 6 AWG behind 40 A: 10,380 x 26,240 / 16,510 = 16,497 cmil
# are 8 AWG; the ratio rounded to 1.6 would ask for 6 AWG. 12 to 6 AWG behind 20 A: all of 6 AWG.
GROWN = [(32, 60, 40, "8", "10"), (32, 120, 40, "6", "8"), (16, 250, 20, "6", "6")]


@pytest.mark.parametrize("amps, feet, breaker, phase, ground", GROWN)
def test_mistake_11_the_ground_grows_with_the_distance_unrounded(
    amps: float, feet: float, breaker: float, phase: str, ground: str
) -> None:
    copper, _ = both(body(INVERTER | {"amps": amps}, COOL | {"length": feet}))
    assert (copper.phase, copper.ground, copper.breaker_a) == (phase, ground, breaker)


def test_mistake_11_the_ground_starts_from_the_row_of_the_breaker() -> None:
    """Behind 100 A it is of 8 AWG, whatever the amps; behind 60 A of 10 AWG."""
    for breaker, ground in ((60, "10"), (100, "8")):
        made = body({"breaker_a": breaker, "most_breaker_a": 100}, COOL | {"length": 10})
        assert both(made)[0].ground == ground


@pytest.mark.parametrize("edition", ["nec-2020", "nec-2023"])
def test_mistake_11_the_ground_does_not_grow_for_heat_and_company(edition: str) -> None:
    """32 A: 8 AWG behind 40 A where it is cool; 0.82 x 0.7 of 6 AWG are 43 A, the ground is 10."""
    hot = COOL | {"length": 10, "ambient": 120, "other_conductors": 6}
    cool, warm = (
        both(body(INVERTER | {"amps": 32}, part, edition=edition))[0]
        for part in (COOL | {"length": 10}, hot)
    )
    assert [(row.phase, row.ground) for row in (cool, warm)] == [("8", "10"), ("6", "10")]


def test_mistake_12_the_ground_takes_room_in_the_raceway() -> None:
    """Two of 4 AWG, 0.1648 in2, would go into 3/4 in EMT: 31 % of 0.533 in2 are 0.1652 in2.

    With a ground of 6 AWG, 0.2155 in2, they are 40.4 % of it, and 40 % are no 40.4: 1 in.
    """
    part: Body = {"length": 150, "place": "indoors", "ambient": 86, "way": "emt"}
    copper, _ = both(body({"neutral": "none"}, part))
    (raceway,) = copper.raceways
    assert (copper.phase, copper.ground) == ("4", "6")
    assert (raceway.trade_size, raceway.allowed_percent) == ("1", 40)
    assert raceway.filled_percent == pytest.approx(100 * 0.2155 / 0.864, abs=0.05)


# Way, trade size, its inside area [in2]. Source: Chapter 9, Tables 4 and 5: three of 4 AWG and a
# ground of 6 AWG take 0.2979 in2; 40 % of 1 in are 0.346 in2 of EMT and 0.275 in2 of Schedule 80.
WAYS = [("emt", "1", 0.864), ("pvc80", "1-1/4", 1.237)]


@pytest.mark.parametrize("way, size, area", WAYS)
def test_mistake_12_every_part_is_filled_by_its_own_area(way: str, size: str, area: float) -> None:
    part: Body = {"length": 75, "place": "indoors", "ambient": 86}
    made = body({"neutral": "unbalance_and_source", "unbalance_a": 22}, part, part | {"way": way})
    copper, _ = both(made)
    assert (copper.phase, copper.neutral, copper.ground) == ("4", "4", "6")
    raceway = copper.raceways[1]
    assert raceway.trade_size == size
    assert raceway.filled_percent == pytest.approx(100 * 0.2979 / area, abs=0.05)
