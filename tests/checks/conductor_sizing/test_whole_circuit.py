"""A whole circuit worked by hand: 48 A continuous, 240 V, 40 degC, 150 ft in PVC, 2 percent."""

import numpy as np
import pytest

from service.checks.conductor_sizing.ac_resistance import LARGER_OF_BOTH, ac_resistance
from service.checks.conductor_sizing.circuit_drop import circuit_reach
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, DropTargets
from service.checks.conductor_sizing.constraints import (
    CONDITIONS,
    DROP,
    PROTECTION,
    SMALL_CONDUCTOR,
    TERMINALS,
)
from service.checks.conductor_sizing.equipment_ground import (
    AS_PHASE,
    BEYOND_TABLE,
    BY_TABLE,
    INCREASED,
    NO_PHASES,
    equipment_ground,
)
from service.checks.conductor_sizing.overcurrent_device import FITS
from service.checks.conductor_sizing.raceway_fill import raceway_fill
from service.checks.conductor_sizing.sizing import NO_DEVICE, NONE_FITS, SIZED, sizing
from tests.checks.conductor_sizing.circuits import FT, TABLES, circuit, named, sized
from tests.checks.conductor_sizing.table_arrays import (
    AL,
    BY_SIZE,
    CMIL,
    CONDUIT,
    CU,
    FILL,
    IMPEDANCE,
    PER_KFT,
    SIZES,
    TRADE_SIZES,
    at,
    column,
)

PARTS = [(150.0, 40.0, 2, 2)]
# Source of the expected values: by hand from the printed tables, e.g. 2 x 150 ft x 48 A x
# 0.31 ohm/kft = 4.464 V; 41,740 / 26,240 x 10,380 = 16,511.5 cmil, 1.5 cmil more than 8 AWG.


def test_copper_and_aluminum() -> None:
    dc = column(1, 2, IMPEDANCE)[:, np.newaxis] * np.ones((1, 3, 1))
    ac = column(5, 10, IMPEDANCE).reshape(2, 3, len(SIZES))
    resistance = ac_resistance(dc, ac, CMIL <= 83690, LARGER_OF_BOTH) * PER_KFT
    lanes = circuit(2, material=np.array([CU, AL]), ground_material=CU, parts=PARTS)
    found = sizing(lanes, TABLES._replace(resistance=resistance))
    assert list(found.device.rating) == [60, 60]
    assert list(found.device.code) == [FITS, FITS]
    assert named(found.size) == ["4", "2"]
    assert list(found.governing) == [DROP, DROP]
    assert found.drop[:, 0] / 240 == pytest.approx([0.0186, 0.0192], abs=1e-4)
    # 75 A x 0.91 and 65 A at 75 degC both carry the device's 60 A: 6 AWG, and 4 AWG aluminum.
    assert named(found.smallest[0]) == ["6", "8", "6", "8", "14", "14", "4"]
    assert named(found.smallest[1]) == ["4", "6", "4", "8", "14", "14", "2"]
    assert named(found.ground.table_size) == ["10", "10"]
    assert list(found.ground.code) == [INCREASED, INCREASED]
    assert found.ground.needed_area == pytest.approx([16511.5, 16502.6], abs=0.05)
    assert named(found.ground.size) == ["6", "8"]
    assert list(found.ground.marginal) == [True, False]


def test_an_aluminum_ground_misses_a_size_by_rounding_too() -> None:
    found = sized(material=AL, ground_material=AL, parts=PARTS)
    assert found.ground.needed_area == pytest.approx([26248.3], abs=0.05)
    assert named(found.ground.size) == ["4"]
    assert found.ground.marginal.all()


@pytest.mark.parametrize("ground", ["8", "6"])
def test_its_raceway(ground: str) -> None:
    thhn = column(11, 11, BY_SIZE)[0]
    kinds = np.arange(5)[:, np.newaxis]
    areas = np.tile([thhn[at("4")], thhn[at(ground)]], (5, 1))
    found = raceway_fill(areas, np.tile([3, 1], (5, 1)), kinds, column(2, 6, CONDUIT), FILL)
    sizes = [TRADE_SIZES[size] for size in found.trade_size]
    assert sizes == ["1", "1", "1-1/4", "1", "1"]


def test_a_short_run_keeps_the_ground_of_the_table() -> None:
    found = sized(parts=[(40.0, 40.0, 2, 2)])
    assert named(found.size) == ["6"]
    assert found.governing == TERMINALS
    assert found.ground.code == BY_TABLE
    assert named(found.ground.size) == ["10"]
    assert found.ampacity == pytest.approx([65.0])


def test_the_governing_constraint_is_named() -> None:
    hot = sized(parts=[(40.0, 60.0, 7, 2)])
    assert hot.governing == PROTECTION
    assert sized(parts=[(40.0, 60.0, 7, 2)], next_size=True).governing == CONDITIONS
    # 25.6 A raised are 32 A: 10 AWG has 35 A at 75 degC, but stands behind 30 A at the most.
    small = sized(amps=25.6, parts=[(10.0, 30.0, 2, 2)], next_size=True)
    assert small.device.rating == 35
    assert small.governing == SMALL_CONDUCTOR
    assert named(small.size) == ["8"]


def test_nothing_fits_and_no_device_are_outcomes() -> None:
    far = sized(3, amps=np.array([48.0, 48.0, 5000.0]), limit=np.array([4.8, 1e-3, 4.8]))
    assert list(far.code) == [SIZED, NONE_FITS, NO_DEVICE]
    assert list(far.size[1:]) == [-1, -1]
    assert far.governing[1] == DROP
    assert far.smallest[1, DROP] == -1
    assert far.ampacity[1] == far.drop[1, 0] == 0
    assert far.ground.size[1] == -1
    assert far.ground.code[1] == NO_PHASES
    assert far.ground.needed_area[1] == 0


def test_a_path_that_other_parts_have_used_up_leaves_no_size() -> None:
    found = sized(3, limit=np.array([0.0, -1.0, np.inf]))
    assert list(found.code) == [NONE_FITS, NONE_FITS, SIZED]
    reach = circuit_reach(circuit(3, limit=np.array([0.0, -1.0, np.inf])), TABLES, found.usable)
    assert not reach.up_to[:2].any()
    assert reach.up_to[2, -1] == np.inf


def test_the_stricter_of_two_targets_governs() -> None:
    # 30 A at 2 % and a start of 100 A at power factor 0.4 with 3 %.
    lanes = circuit(amps=30.0)
    pairs = ([240, 240], [False, False], [4.8, 7.2], [30, 100], [1, 0.4], [2, 2])
    both = lanes._replace(targets=DropTargets(*(np.array([pair]) for pair in pairs)))
    alone = lanes._replace(targets=DropTargets(*(np.array([pair[:1]]) for pair in pairs)))
    assert named(sizing(alone, TABLES).size) == ["6"]
    found = sizing(both, TABLES)
    assert named(found.size) == ["4"]
    assert found.governing == DROP + 1
    assert found.drop.shape == (1, 2)
    reach = circuit_reach(both, TABLES, found.usable)
    assert (reach.up_to[0, [at("6"), at("4")]] / FT >= 150).tolist() == [False, True]


def test_no_lanes_are_no_trouble() -> None:
    lanes = circuit(1)
    none = CircuitLanes._make(
        type(m)._make(inner[:0] for inner in m) if isinstance(m, tuple) else m[:0] for m in lanes
    )
    assert sizing(none, TABLES).size.shape == (0,)


def test_an_equipment_ground_grows_no_larger_than_the_phases() -> None:
    # 12 AWG grown to 6 AWG behind 20 A ends at the phase itself; 14 AWG behind 20 A would pass it.
    rating, copper = np.full(3, 20.0), np.zeros(3, int)
    phase = CMIL[[at("6"), at("14"), at("10")]]
    grown_from = CMIL[[at("12"), at("14"), at("14")]]
    found = equipment_ground(rating, phase, grown_from, TABLES.ground, copper)
    assert named(found.size) == ["6", "14", "10"]
    assert list(found.code) == [INCREASED, AS_PHASE, AS_PHASE]
    beyond = equipment_ground(rating + 6000, phase, grown_from, TABLES.ground, copper)
    assert list(beyond.code) == [BEYOND_TABLE] * 3
    assert list(beyond.size) == [-1] * 3


def test_two_sets_halve_amps_and_drop_but_not_the_ground() -> None:
    two = sized(amps=320.0, sets=2, limit=np.inf, parts=[(100.0, 30.0, 2, 2)])
    assert two.device.rating == 400
    assert named(two.size) == ["3/0"]
    assert two.ampacity == pytest.approx([400.0])
    assert named(two.ground.table_size) == ["3"]
    one = sized(amps=160.0, limit=np.inf, parts=[(100.0, 30.0, 2, 2)])
    assert two.drop == pytest.approx(one.drop)


def test_the_lowest_and_the_highest_size_at_hand_hold() -> None:
    lug = sized(2, smallest=np.array([at("2"), 0]), largest=np.array([27, at("6")]))
    assert named(lug.size) == ["2", "none"]


def test_lanes_answer_as_each_alone() -> None:
    amps = np.array([12.0, 48.0, 90.0, 160.0])
    together = sized(4, amps=amps, material=AL)
    for lane, one in enumerate(amps):
        alone = sized(amps=one, material=AL)
        assert alone.size == together.size[lane]
        assert alone.governing == together.governing[lane]
        np.testing.assert_array_equal(alone.smallest[0], together.smallest[lane])
        assert alone.drop[0] == pytest.approx(together.drop[lane])
