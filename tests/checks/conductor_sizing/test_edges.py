"""Edges: last bits, parts without length, and rules that only bite together."""

import numpy as np
import pytest

from service.checks.conductor_sizing.conditions_of_use import (
    LOWEST,
    SHORT_PART_EXCEPTED,
    ConditionsOfUse,
    conditions_of_use,
)
from service.checks.conductor_sizing.detached_building import OTHER_ELECTRODE, electrode_conductor
from service.checks.conductor_sizing.distance_breaks import distance_breaks
from service.checks.conductor_sizing.dwelling_service import dwelling_service
from service.checks.conductor_sizing.equipment_ground import equipment_ground
from service.checks.conductor_sizing.parallel_sets import fewest_sets
from service.checks.conductor_sizing.raceway_fill import NONE_FITS, raceway_fill
from service.checks.conductor_sizing.rooftop import rooftop_ambient
from service.checks.conductor_sizing.sizing import NO_DEVICE
from service.checks.conductor_sizing.terminal_ampacity import (
    COLUMN_75,
    COLUMN_90,
    terminal_column,
)
from tests.checks.conductor_sizing.circuits import TABLES, Part, named, segments, sized
from tests.checks.conductor_sizing.table_arrays import CMIL, CONDUIT, FILL, at, column

LAST_BIT = 1 + 1e-13
COPPER = np.array([0])
NEAR = [(10.0, 30.0, 2, COLUMN_90)]


def under(*parts: Part) -> ConditionsOfUse:
    return conditions_of_use(segments(list(parts)), TABLES.factors, TABLES.ampacity, COPPER)


def test_a_terminal_marked_90_counts_as_75_whatever_the_cable() -> None:
    assert terminal_column(np.array([[COLUMN_90, COLUMN_90]]), 60.0, COLUMN_90) == COLUMN_75


def test_a_roof_adds_60_degrees_fahrenheit() -> None:
    assert rooftop_ambient(305.15, 0.0, True, 0.02) == pytest.approx(305.15 + 60 * 5 / 9)


def test_a_last_bit_above_a_band_lies_in_it() -> None:
    assert under((10.0, 40.0 + 1e-9, 2, COLUMN_90)).factor == pytest.approx(0.91)


def test_a_run_of_unknown_length_has_no_short_part() -> None:
    found = under((0.0, 50.0, 2, COLUMN_90), (0.0, 30.0, 2, COLUMN_90))
    assert found.ampacity[0, at("6")] == pytest.approx(75 * 0.82)
    assert found.code == LOWEST
    assert under((0.0, 30.0, 2, COLUMN_90), (0.0, 71.0, 2, COLUMN_75)).ampacity[0, at("6")] == 0


def test_a_part_without_length_is_none() -> None:
    plain = under((50.0, 30.0, 2, COLUMN_90), (50.0, 30.0, 2, COLUMN_75))
    for padding in ((0.0, 90.0, 2, COLUMN_90), (0.0, 30.0, 2, -1), (0.0, 60.0, 40, COLUMN_75)):
        padded = under((50.0, 30.0, 2, COLUMN_90), (50.0, 30.0, 2, COLUMN_75), padding)
        np.testing.assert_array_equal(padded.ampacity, plain.ampacity)
        assert padded.code == plain.code == LOWEST


def test_two_short_parts_are_added_up() -> None:
    mild, hot = (5.0, 40.0, 2, COLUMN_90), (6.0, 50.0, 2, COLUMN_90)
    found = under((200.0, 30.0, 2, COLUMN_90), mild, hot)
    # 11 ft are too long to leave out; the 6 ft of the hotter part alone are not.
    assert found.ampacity[0, at("6")] == pytest.approx(75 * 0.91)
    assert found.code == SHORT_PART_EXCEPTED


def test_a_miss_of_more_than_rounding_is_not_marginal() -> None:
    # 10,380 x 52,620 / 26,240 = 20,815 cmil: 8 AWG misses it by a fifth, 1 % is no rounding.
    areas = CMIL[[at("3"), at("6")]]
    found = equipment_ground(
        np.full(2, 60.0), areas, np.array([26240.0, 16334.0]), TABLES.ground, np.zeros(2, int)
    )
    assert found.needed_area[1] == pytest.approx(16675, abs=1)
    assert found.marginal.tolist() == [False, False]


def test_a_rating_with_a_last_bit_keeps_its_row() -> None:
    area = CMIL[[at("6")]]
    found = equipment_ground(np.array([60 * LAST_BIT]), area, area, TABLES.ground, COPPER)
    assert named(found.size) == ["10"]


@pytest.mark.parametrize("count,area,trade_size", [(1, 0.16, 0), (1, 0.162, 1), (2, 0.05, 1)])
def test_one_and_two_conductors_fill_by_their_own_rows(
    count: int, area: float, trade_size: int
) -> None:
    # 1/2 in EMT of 0.304 in2: 53 % are 0.1611, 31 % are 0.0942, 40 % are 0.1216 in2.
    inside = column(2, 6, CONDUIT)
    one = np.array([[0]])
    found = raceway_fill(np.array([[area]]), np.array([[count]]), one, inside, FILL)
    assert found.trade_size == trade_size
    over = raceway_fill(np.array([[9.0]]), np.array([[3]]), one, inside, FILL)
    assert (over.trade_size[0], over.filled[0], over.code[0]) == (-1, 0.0, NONE_FITS)


def test_nothing_reaches_a_negative_limit() -> None:
    zero, usable = np.zeros((1, 1)), np.array([[True]])
    assert distance_breaks(240.0, True, -1.0, zero, zero, usable).reach == 0
    assert distance_breaks(240.0, True, 0.0, zero, zero, usable).reach == np.inf


def test_areas_and_amps_with_a_last_bit_keep_their_row() -> None:
    ends, sizes = np.array([66360.0, np.inf]), np.array([3, 4])
    largest = np.array([9, 9, 9])
    electrode = np.array([OTHER_ELECTRODE])
    found = electrode_conductor(np.array([66360 * LAST_BIT]), ends, sizes, electrode, largest)
    assert found == 3
    assert fewest_sets(380 * LAST_BIT, 380.0) == 1


def test_the_rule_of_83_percent_ends_at_400_a() -> None:
    amps = np.array([[1000.0]])
    found = [bool(dwelling_service([one], amps, amps, True)[0, 0]) for one in (90, 100, 400, 450)]
    assert found == [False, True, True, False]


def test_the_ground_grows_from_what_every_rule_but_distance_asks_for() -> None:
    # 32 A behind 35 A: 10 AWG has the ampacity, its cap of 30 A asks for 8 AWG.
    capped = sized(amps=25.6, limit=2.4, next_size=True)
    assert named(capped.size) == ["4"]
    assert capped.ground.needed_area == pytest.approx([10380 * 41740 / 16510])
    # Two sets of 100 A: 3 AWG has the ampacity, sets ask for 1/0 AWG.
    sets = sized(amps=160.0, sets=2, limit=2.4)
    ratio = CMIL[sets.size[0]] / 105600
    assert ratio > 1
    assert sets.ground.needed_area == pytest.approx([26240 * ratio])
    # 58 A raised behind 60 A at 60 degC: the device may protect 6 AWG, its 55 A do not suffice.
    raised = sized(amps=46.4, marking=[0, 0], next_size=True, limit=2.4)
    assert named(raised.smallest[0, :3]) == ["4", "8", "6"]
    ratio = CMIL[raised.size[0]] / 41740
    assert ratio > 1
    assert raised.ground.needed_area == pytest.approx([10380 * ratio])


def test_without_a_device_there_is_no_size_however_many_sets() -> None:
    found = sized(amps=5000.0, sets=20, limit=np.inf, parts=NEAR)
    assert (found.smallest >= 0).all()
    assert (found.size[0], found.code[0]) == (-1, NO_DEVICE)
