"""Neutral, cover, detached building, electrode conductor and number of sets, by hand."""

import numpy as np
import pytest

from service.checks.conductor_sizing.burial import (
    DEEP_ENOUGH,
    DEPTH_UNKNOWN,
    DIRECT_BURIAL,
    GROUND_FAULT_PROTECTED,
    METAL_CONDUIT,
    NONMETALLIC_CONDUIT,
    NOT_PERMITTED,
    TOO_SHALLOW,
    branch_column_applies,
    burial,
)
from service.checks.conductor_sizing.detached_building import (
    CONCRETE_ENCASED,
    MORE_CIRCUITS,
    ONE_CIRCUIT,
    ONE_FAMILY_DWELLING,
    OTHER_ELECTRODE,
    ROD,
    TWO_CIRCUITS,
    detached_building,
    electrode_conductor,
)
from service.checks.conductor_sizing.insulation_column import insulation_column, is_wet
from service.checks.conductor_sizing.neutral import (
    NOT_NEEDED,
    SENSING_ALONE,
    UNBALANCE,
    UNBALANCE_AND_SOURCE,
    neutral,
    neutral_amps,
)
from service.checks.conductor_sizing.parallel_sets import fewest_sets
from service.checks.conductor_sizing.segment_factors import NO_COLUMN
from tests.checks.conductor_sizing.circuits import TABLES, named
from tests.checks.conductor_sizing.table_arrays import CMIL, IN, at

USES = np.array([NOT_NEEDED, SENSING_ALONE, UNBALANCE, UNBALANCE_AND_SOURCE])


def neutrals(unbalance: float, source: float, ground_cmil: float, sets: int = 1) -> list[str]:
    amps = neutral_amps(USES, unbalance, source) / sets
    seventy_five = np.tile(TABLES.ampacity[0, 1], (4, 1))
    permitted = np.tile(TABLES.parallel_size | (sets == 1), (4, 1))
    area = np.tile(CMIL, (4, 1))
    return named(neutral(USES, amps, seventy_five, area, np.full(4, ground_cmil), permitted))


def test_a_neutral_carries_its_unbalance_and_is_no_smaller_than_the_ground() -> None:
    # 40 A: 8 AWG; with 30 A more: 4 AWG, as 6 AWG has 65 A.
    assert neutrals(40.0, 30.0, CMIL[at("10")]) == ["none", "10", "8", "4"]
    assert neutrals(10.0, 0.0, CMIL[at("6")]) == ["none", "6", "6", "6"]


def test_a_neutral_of_several_sets_is_as_large_as_sets_must_be() -> None:
    assert neutrals(100.0, 0.0, CMIL[at("3")], sets=2)[2:] == ["1/0", "1/0"]


def test_no_neutral_suffices_for_too_many_amps() -> None:
    assert neutrals(5000.0, 0.0, CMIL[at("10")])[2] == "none"


# Table 300.5(A): three of its places, four of its columns [in].
COVER = np.array([[24, 6, 18, 12], [np.nan, 0, 0, 0], [18, 18, 18, 12]]) * IN


@pytest.mark.parametrize(
    "place,column,inches,known,code",
    [
        (0, NONMETALLIC_CONDUIT, 18.0, True, DEEP_ENOUGH),
        (0, NONMETALLIC_CONDUIT, 17.9, True, TOO_SHALLOW),
        (0, METAL_CONDUIT, 6.0, True, DEEP_ENOUGH),
        (0, DIRECT_BURIAL, 18.0, True, TOO_SHALLOW),
        (2, GROUND_FAULT_PROTECTED, 12.0, True, DEEP_ENOUGH),
        (0, NONMETALLIC_CONDUIT, 99.0, False, DEPTH_UNKNOWN),
        (1, DIRECT_BURIAL, 99.0, True, NOT_PERMITTED),
        (1, DIRECT_BURIAL, 99.0, False, NOT_PERMITTED),
    ],
)
def test_cover(place: int, column: int, inches: float, known: bool, code: int) -> None:
    found = burial(np.array([place]), np.array([column]), COVER, inches * IN, known)
    assert found.code == code
    assert found.cover == np.nan_to_num(COVER[place, column])


def test_the_column_of_protected_branch_circuits_is_not_for_240_v() -> None:
    volts, amps = [120.0, 240.0, 120.0, 120.0], [20.0, 20.0, 30.0, 20.0]
    found = branch_column_applies(volts, amps, True, [True, True, True, False])
    assert found.tolist() == [True, False, False, False]


def test_the_disconnect_of_a_building_by_what_it_serves() -> None:
    serves = [ONE_CIRCUIT, TWO_CIRCUITS, MORE_CIRCUITS, ONE_FAMILY_DWELLING]
    found = detached_building(serves, 60.0, 1, False, True)
    assert found.least_disconnect.tolist() == [15, 30, 60, 100]
    assert found.disconnect_suffices.tolist() == [True, True, True, False]


def test_an_electrode_is_spared_by_one_branch_circuit_with_a_ground_alone() -> None:
    found = detached_building(ONE_CIRCUIT, 60.0, [1, 1, 1, 2], [1, 0, 1, 1], [1, 1, 0, 1])
    assert found.electrode_needed.tolist() == [False, True, True, True]
    assert found.second_supply.tolist() == [False, False, False, True]


def test_the_electrode_conductor_follows_the_feeder_up_to_the_cap_of_the_electrode() -> None:
    # Table 250.66, copper: up to 2, 1/0, 3/0, 350, 600, 1100 kcmil: 8, 6, 4, 2, 1/0, 2/0, 3/0.
    area_to = np.array([66360, 105600, 167800, 350000, 600000, 1100000, np.inf])
    sizes = np.array([at(s) for s in ("8", "6", "4", "2", "1/0", "2/0", "3/0")])
    largest = np.array([at("6"), at("4"), at("3/0")])
    phases = np.array([CMIL[at("2")], CMIL[at("1")], CMIL[at("3/0")], CMIL[at("3/0")], 2.2e6])
    electrode = np.array([ROD, ROD, OTHER_ELECTRODE, ROD, OTHER_ELECTRODE])
    found = electrode_conductor(phases, area_to, sizes, electrode, largest)
    assert named(found) == ["8", "6", "4", "6", "3/0"]
    encased = electrode_conductor(
        phases[-1:], area_to, sizes, np.array([CONCRETE_ENCASED]), largest
    )
    assert named(encased) == ["4"]


def test_as_few_sets_as_carry_the_amps() -> None:
    assert fewest_sets([10.0, 380.0, 380.1, 760.0], 380.0).tolist() == [1, 1, 2, 2]


def test_thhn_has_no_column_where_it_is_wet() -> None:
    # Dry and wet of THHN, THWN, THWN-2 and XHHW.
    columns = np.array([[2, NO_COLUMN], [1, 1], [2, 2], [2, 1]])
    wet = is_wet([False, True, False], [False, False, True])
    assert wet.tolist() == [False, True, True]
    assert insulation_column(0, wet, columns).tolist() == [2, NO_COLUMN, NO_COLUMN]
    assert insulation_column([1, 2, 3], True, columns).tolist() == [1, 2, 1]
