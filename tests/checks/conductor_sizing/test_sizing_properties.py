"""What holds for every circuit, tried on drawn ones."""

from typing import Any

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.conductor_sizing.circuit_drop import circuit_reach
from service.checks.conductor_sizing.constraints import DROP
from service.checks.conductor_sizing.distance_breaks import distance_breaks
from service.checks.conductor_sizing.equipment_ground import WITHOUT_DISTANCE, WITHOUT_FACTORS
from service.checks.conductor_sizing.sizing import Sizing, sizing
from service.checks.conductor_sizing.voltage_drop import exact_drop
from tests.checks.conductor_sizing.circuits import FT, TABLES, Part, circuit
from tests.checks.conductor_sizing.table_arrays import SIZES

PART = st.tuples(st.floats(1, 300), st.floats(0, 60), st.integers(1, 12), st.sampled_from([1, 2]))
DRAWN = st.fixed_dictionaries(
    {
        "amps": st.floats(1, 250),
        "parts": st.lists(PART, min_size=1, max_size=4),
        "material": st.sampled_from([0, 1]),
        "wall": st.sampled_from([0, 1, 2]),
        "power_factor": st.floats(0.3, 1.0),
        "limit": st.floats(1.2, 12.0),
        "volts_at_load": st.booleans(),
        "next_size": st.booleans(),
        "sets": st.integers(1, 3),
        "marking": st.lists(st.sampled_from([-1, 0, 1]), min_size=2, max_size=2),
        "grown_from": st.sampled_from([WITHOUT_DISTANCE, WITHOUT_FACTORS]),
    }
)


def sized(**changed: Any) -> Sizing:
    return sizing(circuit(**changed), TABLES)


def rank(found: Sizing) -> int:
    """Return the size as a number that rises with need; beyond every size for none."""
    return int(found.size[0]) if found.size[0] >= 0 else len(SIZES)


@given(DRAWN, st.floats(1, 3))
def test_a_longer_run_never_takes_a_smaller_wire(drawn: dict[str, Any], factor: float) -> None:
    # All parts grow alike, so that a hot part keeps its share of the run.
    longer = [(length * factor, *rest) for length, *rest in drawn["parts"]]
    assert rank(sized(**drawn | {"parts": longer})) >= rank(sized(**drawn))


@given(DRAWN, st.floats(0, 30))
def test_a_hotter_place_never_takes_a_smaller_wire(drawn: dict[str, Any], rise: float) -> None:
    hotter: list[Part] = [(a, ambient + rise, c, d) for a, ambient, c, d in drawn["parts"]]
    assert rank(sized(**drawn | {"parts": hotter})) >= rank(sized(**drawn))


@given(DRAWN, st.floats(1, 2))
def test_a_larger_current_never_takes_a_smaller_wire(drawn: dict[str, Any], factor: float) -> None:
    # Marked terminals: those without a mark take another column above 100 A, and a wire may shrink.
    drawn |= {"marking": [1, 1]}
    small, large = sized(**drawn), sized(**drawn | {"amps": drawn["amps"] * factor})
    assert rank(large) >= rank(small)


@given(DRAWN, st.integers(0, 3))
def test_a_part_split_in_two_equal_ones_changes_nothing(drawn: dict[str, Any], which: int) -> None:
    parts: list[Part] = drawn["parts"]
    at = which % len(parts)
    length, *rest = parts[at]
    half = (length / 2, *rest)
    split = [*parts[:at], half, *parts[at + 1 :], half]
    one, two = sized(**drawn), sized(**drawn | {"parts": split})
    assert one.size == two.size
    assert one.governing == two.governing
    assert one.ground.size == two.ground.size
    np.testing.assert_allclose(one.conditions.ampacity, two.conditions.ampacity)
    np.testing.assert_allclose(one.drop, two.drop)


@given(DRAWN)
def test_the_chosen_size_meets_all_and_the_next_smaller_one_does_not(drawn: dict[str, Any]) -> None:
    found = sized(**drawn)
    if found.size[0] < 0:
        assert found.smallest[0, found.governing[0]] == -1 or found.code[0] == 2
    else:
        assert (found.smallest[0] >= 0).all()
        assert found.size[0] == found.smallest[0].max()
        assert found.smallest[0, found.governing[0]] == found.size[0]
        assert found.drop[0, 0] <= drawn["limit"] * (1 + 1e-9)


@given(DRAWN)
def test_the_ground_of_2017_is_never_smaller_than_since(drawn: dict[str, Any]) -> None:
    before, since = (
        sized(**drawn | {"grown_from": edition}) for edition in (WITHOUT_FACTORS, WITHOUT_DISTANCE)
    )
    assert before.ground.size >= since.ground.size


@settings(max_examples=40)
@given(DRAWN)
def test_reaches_are_those_of_sizing_foot_by_foot(drawn: dict[str, Any]) -> None:
    _, *rest = drawn["parts"][0]
    feet = np.arange(1, 1001)
    changed = drawn | {"parts": [[(float(one), *rest)] for one in feet]}
    every = sizing(circuit(len(feet), **changed), TABLES)
    # The run of one part has no short one: what is usable does not depend on length.
    lanes = circuit(**drawn | {"parts": [(1.0, *rest)]})
    found = circuit_reach(lanes, TABLES, sizing(lanes, TABLES).usable)
    served = found.up_to[0] >= feet[:, np.newaxis] * FT - 1e-9
    expected = np.where(served.any(axis=1), served.argmax(axis=1), -1)
    np.testing.assert_array_equal(every.size, expected)
    assert np.all(np.diff(found.up_to[0]) >= 0)


@given(
    st.floats(100, 500),
    st.booleans(),
    st.floats(0.1, 50),
    st.floats(1e-5, 1.0),
    st.floats(-1.0, 1.0),
)
def test_a_reach_meets_its_limit_exactly(
    volts: float, at_load: bool, limit: float, along: float, across: float
) -> None:
    a, c = np.array([[along]]), np.array([[across]])
    tiny = 1e-6
    found = distance_breaks(volts, at_load, limit, a, c, np.array([[True]]), tiny)
    length = found.reach
    assert exact_drop(volts, at_load, a * length, c * length) <= limit * (1 + 1e-9) + 1e-9
    more = length + 2 * tiny + 1e-9 * length
    assert exact_drop(volts, at_load, a * more, c * more) >= limit * (1 - 1e-9) - 1e-9


def test_reach_is_rounded_down_and_zero_where_a_size_is_ruled_out() -> None:
    along = np.array([[4.8 / 30.47, 4.8 / 30.48, 4.8 / 30.48, 0.0]])
    usable = np.array([[True, True, False, True]])
    found = distance_breaks(240.0, True, 4.8, along, np.zeros((1, 4)), usable)
    np.testing.assert_allclose(found.reach[0], [99 * FT, 100 * FT, 0.0, np.inf])
    np.testing.assert_allclose(found.up_to[0], [99 * FT, 100 * FT, 100 * FT, np.inf])


def test_drop_is_the_first_constraint_that_depends_on_length() -> None:
    assert sized().smallest.shape == (1, DROP + 1)
