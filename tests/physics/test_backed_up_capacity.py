"""The capacity behind a transfer, by hand and in lanes."""

import numpy as np
import pytest

from service.physics.backed_up_capacity import SHORT, SUFFICIENT, UNKNOWN, backed_up_capacity

# Source, connected, set-point [VA], automatic, connected known, managed; required, headroom, code.
# Source: derived by hand from the rule.
CASES = [
    (9600, 9000, 0, True, True, False, 9000, 600, SUFFICIENT),
    (9600, 9600, 0, True, True, False, 9600, 0, SUFFICIENT),
    (9600, 9601, 0, True, True, False, 9601, -1, SHORT),
    (9600, 24000, 0, True, True, False, 24000, -14400, SHORT),
    (9600, 24000, 9000, True, True, True, 9000, 600, SUFFICIENT),
    (9600, 24000, 9700, True, True, True, 9700, -100, SHORT),
    (9600, 8000, 20000, True, True, True, 8000, 1600, SUFFICIENT),
    (9600, 0, 9000, True, False, True, 9000, 600, SUFFICIENT),
    (9600, 0, 12000, True, False, True, 0, 0, UNKNOWN),
    (9600, 0, 0, True, False, False, 0, 0, UNKNOWN),
    (9600, 5000, 0, False, True, False, 5000, 4600, SUFFICIENT),
    (9600, 11000, 0, False, True, False, 11000, -1400, SHORT),
    (9600, 11000, 5000, False, True, True, 11000, -1400, SHORT),
    (9600, 0, 5000, False, False, True, 0, 0, UNKNOWN),
    (9600, 0, 0, False, False, False, 0, 0, UNKNOWN),
    (0, 0, 0, True, True, False, 0, 0, SUFFICIENT),
]


@pytest.mark.parametrize("source,connected,limit,acts,known,held,required,headroom,code", CASES)
def test_by_hand(
    source: float,
    connected: float,
    limit: float,
    acts: bool,
    known: bool,
    held: bool,
    required: float,
    headroom: float,
    code: int,
) -> None:
    found = backed_up_capacity(source, connected, limit, acts, connected_known=known, managed=held)
    assert found.required_va == required
    assert found.headroom_va == headroom
    assert found.code == code


def test_lanes_are_those_of_one_at_a_time() -> None:
    source, connected, limit, acts, known, held, required, headroom, code = np.array(CASES).T
    found = backed_up_capacity(source, connected, limit, acts, connected_known=known, managed=held)
    np.testing.assert_array_equal(found.required_va, required)
    np.testing.assert_array_equal(found.headroom_va, headroom)
    np.testing.assert_array_equal(found.code, code)


def test_a_sum_of_loads_is_no_short_source_by_its_last_bit() -> None:
    loads = [100.4] * 3
    assert sum(loads) > 301.2
    assert backed_up_capacity(301.2, sum(loads), 0.0, True).code == SUFFICIENT


def test_more_source_never_makes_it_short() -> None:
    sources = np.linspace(0.0, 20e3, 101)
    codes = backed_up_capacity(sources, 9e3, 0.0, True).code
    assert codes[0] == SHORT
    assert codes[-1] == SUFFICIENT
    assert np.all(np.diff(codes) <= 0)


def test_inputs_broadcast() -> None:
    found = backed_up_capacity(np.full((4, 1), 5e3), np.full(3, 6e3), 0.0, True)
    assert found.code.shape == found.required_va.shape == found.headroom_va.shape == (4, 3)
