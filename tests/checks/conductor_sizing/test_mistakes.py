"""Mistakes that are often made when conductors are sized, each shown not to be made here."""

import numpy as np
import pytest

from service.checks.conductor_sizing.conditions_of_use import (
    NOT_PERMITTED,
    SHORT_PART_EXCEPTED,
    TOO_HOT,
    conditions_of_use,
)
from service.checks.conductor_sizing.constraints import PARALLEL
from service.checks.conductor_sizing.current_carrying import (
    LIKE_A_PHASE,
    NO_NEUTRAL,
    NONLINEAR_WYE,
    UNBALANCE_ALONE,
    current_carrying,
)
from service.checks.conductor_sizing.design_current import array_current, design_current
from service.checks.conductor_sizing.dwelling_service import dwelling_service
from service.checks.conductor_sizing.equipment_ground import WITHOUT_DISTANCE, WITHOUT_FACTORS
from service.checks.conductor_sizing.next_size_rule import (
    BY_AMPACITY,
    BY_NEXT_SIZE,
    UNPROTECTED,
    protection,
)
from service.checks.conductor_sizing.overcurrent_device import (
    ABOVE_NAMEPLATE,
    ABOVE_STANDARD,
    FITS,
    NAMEPLATE_UNKNOWN,
    overcurrent_device,
)
from service.checks.conductor_sizing.raceway_fill import (
    NO_SECTION,
    may_jam,
    most_equal_conductors,
    raceway_fill,
)
from service.checks.conductor_sizing.rooftop import rooftop_ambient
from service.checks.conductor_sizing.sizing import NONE_FITS
from service.checks.conductor_sizing.terminal_ampacity import (
    COLUMN_60,
    COLUMN_75,
    COLUMN_90,
    UNMARKED,
    terminal_column,
)
from service.checks.conductor_sizing.voltage_drop import (
    ONE_WAY,
    THERE_AND_BACK,
    approximate_drop,
)
from tests.checks.conductor_sizing.circuits import TABLES, circuit, named, segments, sized
from tests.checks.conductor_sizing.table_arrays import (
    CONDUIT,
    EMT,
    FILL,
    IN,
    PVC80,
    RATINGS,
    ZERO_CELSIUS,
    at,
    column,
)

NEAR = [(10.0, 30.0, 2, COLUMN_90)]
COPPER = np.array([0])


def test_the_90_degree_column_is_never_the_final_ampacity() -> None:
    found = sized(amps=100.0, parts=NEAR, marking=[COLUMN_90, COLUMN_90])
    assert found.column == COLUMN_75
    assert named(found.size) == ["1"]  # 130 A; at 90 degC 2 AWG would have 130 A too


def test_factors_start_from_the_column_of_the_insulation() -> None:
    parts = [(10.0, 40.0, 2, COLUMN_90)]
    assert sized(parts=parts).conditions.ampacity[0, at("6")] == pytest.approx(75 * 0.91)


def test_125_percent_and_factors_are_never_applied_together() -> None:
    # 8 AWG at 90 degC: 55 A x 0.91 = 50 A carry the 48 A themselves, not 60 A.
    found = sized(parts=[(10.0, 40.0, 2, COLUMN_90)])
    assert named(found.smallest[0, 1]) == ["8"]


def test_125_percent_is_taken_once_of_the_sum_of_two_sources() -> None:
    assert design_current(45.8 + 33.65).raised_amps == pytest.approx(99.3125)
    assert array_current(10.0, 2).raised_amps == pytest.approx(2 * 10 * 1.5625)


def test_unmarked_terminals_take_60_degrees_up_to_100_a() -> None:
    marking = np.array([[UNMARKED, COLUMN_75]] * 3)
    assert list(terminal_column(marking, [100.0, 110.0, 60.0])) == [0, 1, 0]
    assert list(terminal_column(np.array([[COLUMN_60, COLUMN_75]]), 200.0)) == [COLUMN_60]
    assert named(sized(parts=NEAR, marking=[UNMARKED, COLUMN_75]).size) == ["4"]
    assert named(sized(parts=NEAR).size) == ["6"]


def test_nm_cable_is_capped_at_60_degrees_behind_any_terminal() -> None:
    assert named(sized(parts=NEAR, cable_column=COLUMN_60).size) == ["4"]


@pytest.mark.parametrize(
    "size,material,rating",
    [("14", 0, 15), ("12", 0, 20), ("10", 0, 30), ("12", 1, 15), ("10", 1, 25)],
)
def test_small_conductors_are_capped(size: str, material: int, rating: int) -> None:
    above = RATINGS[np.searchsorted(RATINGS, rating) + 1]
    found = sized(
        2,
        amps=np.array([rating, above]) / 1.25,
        material=material,
        parts=NEAR,
        next_size=True,
        limit=np.inf,
    )
    assert list(found.smallest[:, 3]) == [at(size), at(size) + 1]


def test_the_next_size_up_is_not_for_storage_systems_and_not_above_800_a() -> None:
    # 55 A in the 60 degC column under a device of 60 A.
    assert protection(55.0, 60.0, RATINGS, True) == BY_NEXT_SIZE
    assert protection(55.0, 60.0, RATINGS, False) == UNPROTECTED
    assert protection(60.0, 60.0, RATINGS, False) == BY_AMPACITY
    assert protection(50.0, 60.0, RATINGS, True) == UNPROTECTED
    assert protection(799.0, 800.0, RATINGS, True) == BY_NEXT_SIZE
    assert protection(999.0, 1000.0, RATINGS, True) == UNPROTECTED
    # 43 A raised are 53.75 A: a device of 60 A, over 55 A of 6 AWG and 70 A of 4 AWG at 60 degC.
    found = sized(2, amps=43.0, next_size=np.array([True, False]), parts=NEAR, marking=[COLUMN_60])
    assert named(found.size) == ["6", "4"]


def test_what_counts_as_current_carrying() -> None:
    neutral = [NO_NEUTRAL, UNBALANCE_ALONE, LIKE_A_PHASE, NONLINEAR_WYE]
    assert list(current_carrying([2, 2, 2, 3], neutral)) == [2, 2, 3, 4]


def test_drop_is_of_the_amps_that_flow() -> None:
    found = sized(parts=[(150.0, 40.0, 2, 2)])
    flows = 2 * 48 * TABLES.resistance[0, 0, at("4")] * 150 * 0.3048
    assert found.drop == pytest.approx(flows, rel=1e-3)


def test_length_passes_twice_at_240_v_and_once_to_a_balanced_neutral() -> None:
    whole = approximate_drop(40.0, 0.05, 0.0, 1.0, THERE_AND_BACK) / 240
    assert whole == approximate_drop(40.0, 0.05, 0.0, 1.0, ONE_WAY) / 120


def test_impedance_at_power_factor_085_is_not_used_at_1() -> None:
    # Effective impedance 0.29 ohm/kft of 4 AWG against a resistance of 0.308.
    effective = 0.308 * 0.85 + 0.048 * (1 - 0.85**2) ** 0.5
    at_one = approximate_drop(1.0, 0.308, 0.048)
    assert effective / (at_one / 2) == pytest.approx(0.93, abs=0.01)


def test_the_ground_grows_for_distance_and_not_for_heat() -> None:
    hot = [(20.0, 55.0, 7, COLUMN_90)]
    since, before = (
        sized(parts=hot, grown_from=edition) for edition in (WITHOUT_DISTANCE, WITHOUT_FACTORS)
    )
    # 60 A behind factors of 0.76 and 0.7 ask for 112.8 A in the 90 degC column.
    assert named(since.size) == named(before.size) == ["3"]
    assert named(since.ground.size) == ["10"]
    # Grown from 6 AWG, which the terminals alone ask for: 52,620 / 26,240 x 10,380.
    assert before.ground.needed_area == pytest.approx([20815.4], abs=0.1)
    assert named(before.ground.size) == ["6"]


def test_the_ground_starts_from_the_row_of_the_device() -> None:
    assert named(sized(parts=NEAR, least_rating=100.0).ground.table_size) == ["8"]


def test_the_ground_counts_in_the_fill_and_the_tightest_section_decides() -> None:
    inside, counts = column(2, 6, CONDUIT), np.array([[3, 1]] * 3)
    areas = np.array([[0.0824, 0.0507], [0.0824, 0.0], [0.0824, 0.0507]])
    sections = np.array([[EMT, NO_SECTION], [EMT, NO_SECTION], [EMT, PVC80]])
    found = raceway_fill(areas, counts, sections, inside, FILL)
    assert list(found.trade_size) == [2, 2, 3]
    assert found.filled[0] == pytest.approx(0.2979 / 0.864)
    assert found.filled[1] == pytest.approx(0.2472 / 0.864)


def test_a_count_is_rounded_up_for_equal_conductors_alone() -> None:
    assert most_equal_conductors([5.79, 5.80, 6.0], 1.0).tolist() == [5, 6, 6]
    # Mixed sizes at 40.1 % do not fit, however near.
    one = raceway_fill(
        np.array([[0.1, 0.1465]]), np.array([[2, 1]]), np.array([[0]]), column(2, 6, CONDUIT), FILL
    )
    assert one.trade_size == [3]


def test_three_equal_conductors_may_jam() -> None:
    assert may_jam([2.7, 2.8, 3.0, 3.2, 3.3], 1.0).tolist() == [False, True, True, True, False]


@pytest.mark.parametrize("inches,adds", [(0.5, (True, True)), (0.8, (False, True)), (0.875, None)])
def test_a_roof_heats_below_the_height_of_its_edition(
    inches: float, adds: tuple[bool, bool] | None
) -> None:
    ambient = rooftop_ambient(305.15, inches * IN, True, np.array([0.75, 0.875]) * IN)
    assert tuple(ambient > 305.15) == (adds or (False, False))
    assert rooftop_ambient(305.15, 0.0, True, IN, exempt=True) == 305.15


def test_a_band_of_temperature_is_taken_whole() -> None:
    for celsius, factor in ((36.0, 0.91), (40.0, 0.91), (40.5, 0.87), (41.0, 0.87), (45.0, 0.87)):
        found = sized(parts=[(10.0, celsius, 2, COLUMN_90)])
        assert found.conditions.factor == pytest.approx(factor)


def test_the_rule_of_83_percent_is_not_for_the_circuit_of_a_source() -> None:
    amps = np.array([[175.0]])
    for carries_all in (True, False):
        assert dwelling_service([200.0], amps, amps, carries_all)[0, 0] == carries_all


def test_the_rule_of_83_percent_is_tried_against_heat() -> None:
    terminal, rating = np.array([[180.0]]), [200.0]
    assert dwelling_service(rating, terminal, np.array([[205 * 0.91]]), True).all()
    assert not dwelling_service(rating, terminal, np.array([[180 * 0.88]]), True).any()


def test_parallel_sets_below_1_0_are_not_used() -> None:
    found = sized(amps=160.0, sets=2, limit=np.inf, parts=NEAR)
    assert named(found.size) == ["1/0"]
    assert found.governing == PARALLEL
    assert sized(amps=160.0, sets=2, parts=NEAR, largest=at("1")).code == NONE_FITS


def test_a_device_above_the_nameplate_is_named_and_so_is_an_unknown_nameplate() -> None:
    found = overcurrent_device([48.0 * 1.25] * 4, RATINGS, [60, 50, 60, np.inf], [1, 1, 0, 1])
    assert found.rating.tolist() == [60] * 4
    assert found.code.tolist() == [FITS, ABOVE_NAMEPLATE, NAMEPLATE_UNKNOWN, FITS]
    assert overcurrent_device(6001.0, RATINGS).code == ABOVE_STANDARD
    assert overcurrent_device(60 * (1 + 1e-13), RATINGS).rating == 60
    assert overcurrent_device(60.01, RATINGS).rating == 70


def test_thhn_is_not_permitted_where_it_is_wet_and_thwn_has_75_degrees() -> None:
    def barred(*parts: tuple[float, float, int, int]) -> tuple[int, float]:
        run = segments(list(parts))
        found = conditions_of_use(run, TABLES.factors, TABLES.ampacity, COPPER)
        return int(found.code[0]), float(found.ampacity[0, at("6")])

    assert barred((99, 30, 2, COLUMN_90), (1, 30, 2, -1)) == (NOT_PERMITTED, 0.0)
    assert barred((99, 30, 2, COLUMN_75)) == (0, 65.0)
    # However short, no part may be hotter than its insulation.
    assert barred((99, 30, 2, COLUMN_75), (1, 75, 2, COLUMN_75)) == (TOO_HOT, 0.0)
    # 1 ft of wet run at 75 degC among 99 ft dry at 90.
    assert barred((99, 30, 2, COLUMN_90), (1, 30, 2, COLUMN_75)) == (SHORT_PART_EXCEPTED, 75.0)
    assert barred((89, 30, 2, COLUMN_90), (11, 30, 2, COLUMN_75)) == (0, 65.0)


@pytest.mark.parametrize(
    "hot,rest,lifted",
    [(9.7, 90.3, True), (10.0, 90.0, True), (10.1, 90.0, False), (10.1, 190.0, False)],
)
def test_a_short_hot_part_is_held_against_the_whole_run(
    hot: float, rest: float, lifted: bool
) -> None:
    found = sized(parts=[(hot, 50.0, 2, COLUMN_90), (rest, 30.0, 2, COLUMN_90)], limit=np.inf)
    assert (found.conditions.code == SHORT_PART_EXCEPTED) == lifted
    expected = 75.0 if lifted else 75 * 0.82
    assert found.conditions.ampacity[0, at("6")] == pytest.approx(expected)
    # The terminals gain nothing: 65 A at 75 degC hold.
    assert found.ampacity[0] <= 65.0


def test_the_rise_of_a_source_is_judged_and_is_more_than_half_of_a_load_s_drop() -> None:
    rise, drop = (sized(volts_at_load=end, parts=[(150.0, 40.0, 2, 2)]) for end in (True, False))
    assert rise.drop[0, 0] == pytest.approx(drop.drop[0, 0], rel=1e-3)
    assert named(sized(volts_at_load=True, limit=2.4).size) == ["1"]


def test_no_company_is_adjusted_for_in_a_nipple() -> None:
    run = segments([(1.0, 30.0, 9, COLUMN_90)], raceway_ft=2.0)
    found = conditions_of_use(run, TABLES.factors, TABLES.ampacity, COPPER)
    assert found.factor == 1.0
    longer = conditions_of_use(
        run._replace(raceway_length=run.raceway_length + 0.01),
        TABLES.factors,
        TABLES.ampacity,
        COPPER,
    )
    assert longer.factor == pytest.approx(0.7)


def test_the_lanes_of_a_circuit_are_celsius_plus_273() -> None:
    assert circuit().segments.ambient[0, 0] == pytest.approx(30 + ZERO_CELSIUS)
