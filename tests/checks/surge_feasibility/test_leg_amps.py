"""Amps of legs and neutral: published, by hand, and against a solved circuit."""

import numpy as np
import pytest
from numpy.typing import NDArray

from service.checks.surge_feasibility.leg_amps import (
    BOTH_LEGS,
    EVEN,
    LEG_1,
    LEG_2,
    LEG_UNKNOWN,
    ONE_LEG,
    UNEVEN,
    LegAmps,
    leg_amps,
)

Load = tuple[complex, int]
Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Ints = NDArray[np.int64]


def one(*loads: Load, share: float = 0.60) -> LegAmps:
    va, connection = zip(*loads, strict=True)
    return leg_amps(np.array([va], np.complex128), np.array([connection]), share)


# Loads of a 30 A 120/240 V source, with 20 A more on one leg. Source: manual of a transformer for
# such sources, page 4: 30 x 120 + 10 x 120 = 4.8 kVA, 67 % of 7.2 kVA. Standing: secondary.
UNBALANCED = [
    [(3600, LEG_1), (1200, LEG_2)],
    [(1200, LEG_1), (3600, LEG_2)],
    [(2400, BOTH_LEGS), (2400, LEG_1)],
    [(2400, BOTH_LEGS), (2400, LEG_2)],
    [(2400, BOTH_LEGS), (2400, LEG_2), (0, LEG_UNKNOWN)],
]


@pytest.mark.parametrize("loads", UNBALANCED)
def test_published_unbalance(loads: list[Load]) -> None:
    found = one(*loads)
    assert found.most == pytest.approx([30.0])
    assert found.likely == pytest.approx([30.0])
    assert found.neutral == pytest.approx(np.full((1, 3), 20.0))
    carried = 120 * (found.leg_1 + found.leg_2)
    assert carried == pytest.approx(np.full((1, 3), 4800.0))
    assert carried[0, EVEN] / (2 * 30 * 120) == pytest.approx(0.67, abs=0.005)


# Loads, then leg 1, leg 2 and neutral with the unknown loads even, 60/40, on one leg. Source: by
# hand, S / 240 on both legs and S / 120 on one; in phase the neutral is the difference.
BY_HAND = [
    ([(0, LEG_UNKNOWN)], (0, 0, 0), (0, 0, 0), (0, 0, 0)),
    ([(4800, BOTH_LEGS)], (20, 20, 0), (20, 20, 0), (20, 20, 0)),
    ([(1200, LEG_UNKNOWN)], (5, 5, 0), (6, 4, 2), (10, 0, 10)),
    ([(1200, LEG_UNKNOWN), (240, LEG_2)], (5, 7, 2), (4, 8, 4), (0, 12, 12)),
    ([(1200, LEG_UNKNOWN), (240, LEG_1)], (7, 5, 2), (8, 4, 4), (12, 0, 12)),
    ([(600, LEG_UNKNOWN), (600, LEG_UNKNOWN), (2400, 0)], (15, 15, 0), (16, 14, 2), (20, 10, 10)),
    ([(1200, LEG_UNKNOWN), (9600, 0), (600, 1)], (50, 45, 5), (51, 44, 7), (55, 40, 15)),
    ([(1200j, LEG_UNKNOWN), (1200, LEG_1)], (125**0.5, 5, 10), None, (200**0.5, 0, 200**0.5)),
    ([(1200, LEG_1), (1200j, LEG_2)], (10, 10, 200**0.5), None, (10, 10, 200**0.5)),
]


@pytest.mark.parametrize("loads,even,uneven,one_leg", BY_HAND)
def test_by_hand(
    loads: list[Load],
    even: tuple[float, ...],
    uneven: tuple[float, ...] | None,
    one_leg: tuple[float, ...],
) -> None:
    found = one(*loads)
    for column, expected in ((EVEN, even), (UNEVEN, uneven), (ONE_LEG, one_leg)):
        if expected is not None:
            amps = (found.leg_1[0, column], found.leg_2[0, column], found.neutral[0, column])
            assert amps == pytest.approx(expected)
    assert found.most == pytest.approx([max(one_leg[:2])])


def test_a_leading_load_draws_the_unknown_ones_to_the_other_leg() -> None:
    """Unknown vars cancel those of the heavier leg, so the lighter one becomes the worse."""
    found = one((1200 - 1200j, LEG_1), (1440, LEG_2), (1200j, LEG_UNKNOWN))
    assert found.leg_1[0, ONE_LEG] == pytest.approx(200**0.5)
    assert found.leg_2[0, ONE_LEG] == pytest.approx(244**0.5)
    assert found.most == pytest.approx([244**0.5])


def random_loads(seed: int, lanes: int = 200, most: int = 9) -> tuple[Complexes, Ints]:
    rng = np.random.default_rng(seed)
    angle = rng.uniform(-0.6, 1.2, (lanes, most))
    va = rng.uniform(20.0, 4000.0, (lanes, most)) * np.exp(1j * angle)
    va[rng.random((lanes, most)) < 0.2] = 0
    return va, rng.integers(0, 4, (lanes, most))


def solved(va: Complexes, to_first: Floats, across: NDArray[np.bool_]) -> Floats:
    """Amps of leg 1, leg 2 and neutral out of a three-wire source, by solving its nodes [A].

    Unknown are the volts of nodes 1, N and 2 and the amps of the three ideal sources that feed
    them. Each load is an admittance that takes its power at nominal volts; of a 120 V load a share
    lies from node 1 to N, the rest from N to 2.
    """
    lanes = va.shape[0]
    parts = [
        (0, 1, np.where(across, 0, to_first * va / 120**2)),
        (1, 2, np.where(across, 0, (1 - to_first) * va / 120**2)),
        (0, 2, np.where(across, va / 240**2, 0)),
    ]
    matrix = np.zeros((lanes, 6, 6), np.complex128)
    for at, to, load in parts:
        admittance = np.conj(load).sum(axis=1)
        for row, column, sign in ((at, at, 1), (to, to, 1), (at, to, -1), (to, at, -1)):
            matrix[:, row, column] += sign * admittance
    matrix[:, :3, 3:] = -np.eye(3)
    matrix[:, 3:, :3] = np.eye(3)
    right = np.zeros((lanes, 6, 1), np.complex128)
    right[:, 3:, 0] = [120.0, 0.0, -120.0]
    amps = np.linalg.solve(matrix, right)[:, 3:, 0]
    return np.asarray(np.abs(amps[:, [0, 2, 1]]))


@pytest.mark.parametrize("share", [0.5, 0.6, 0.75, 1.0])
@pytest.mark.parametrize("seed", range(5))
def test_against_a_solved_circuit(seed: int, share: float) -> None:
    va, connection = random_loads(seed)
    found = leg_amps(va, connection, share)
    for column, part in ((EVEN, 0.5), (UNEVEN, share), (ONE_LEG, 1.0)):
        tried = []
        for on_first in (part, 1 - part):
            to_first = np.select([connection == LEG_1, connection == LEG_2], [1.0, 0.0], on_first)
            tried.append(solved(va, to_first, connection == BOTH_LEGS))
        first_is_worse = tried[0][:, :2].max(axis=1) >= tried[1][:, :2].max(axis=1)
        expected = np.where(first_is_worse[:, np.newaxis], *tried)
        worst = expected[:, :2].max(axis=1)
        legs = np.maximum(found.leg_1[:, column], found.leg_2[:, column])
        np.testing.assert_allclose(legs, worst, rtol=1e-9, atol=1e-9)
        if part > 0.5:
            amps = np.stack([found.leg_1, found.leg_2, found.neutral], axis=-1)[:, column]
            held = np.abs(tried[0][:, :2].max(axis=1) - tried[1][:, :2].max(axis=1)) > 1e-9
            np.testing.assert_allclose(amps[held], expected[held], rtol=1e-9, atol=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_what_holds_of_any_loads(seed: int) -> None:
    va, connection = random_loads(seed)
    found = leg_amps(va, connection)
    worse = np.maximum(found.leg_1, found.leg_2)
    np.testing.assert_array_equal(found.likely, worse[:, UNEVEN])
    np.testing.assert_array_equal(found.most, worse[:, ONE_LEG])
    assert np.all(np.diff(worse, axis=1) >= -1e-9)
    mirrored = leg_amps(va, np.select([connection == 1, connection == 2], [2, 1], connection))
    np.testing.assert_allclose(mirrored.likely, found.likely)
    np.testing.assert_allclose(mirrored.most, found.most)
    in_phase = leg_amps(np.abs(va).astype(np.complex128), connection)
    difference = np.abs(in_phase.leg_1 - in_phase.leg_2)
    np.testing.assert_allclose(in_phase.neutral, difference, atol=1e-9)


def test_a_share_a_lane_and_padding() -> None:
    va, connection = random_loads(7, lanes=3)
    together = leg_amps(va, connection, np.array([0.5, 0.6, 1.0]))
    padded = np.concatenate([va, np.zeros((3, 4))], axis=1)
    kinds = np.concatenate([connection, np.full((3, 4), LEG_UNKNOWN)], axis=1)
    for lane, share in enumerate((0.5, 0.6, 1.0)):
        alone = leg_amps(padded[[lane]], kinds[[lane]], share)
        assert alone.likely[0] == pytest.approx(together.likely[lane], rel=1e-12)


def test_no_spread_gives_the_worse_leg_less_than_the_least() -> None:
    """Every spread of up to seven lagging loads of unknown leg, tried one by one."""
    rng = np.random.default_rng(5)
    for _ in range(40):
        count = int(rng.integers(2, 8))
        power = rng.uniform(100, 3000, count) * (1 + 1j * rng.uniform(0, 1, count))
        codes = rng.choice([BOTH_LEGS, LEG_1, LEG_2, LEG_UNKNOWN, LEG_UNKNOWN], count)
        found = leg_amps(power[None], codes[None])
        unknown = np.flatnonzero(codes == LEG_UNKNOWN)
        worst = []
        for spread in range(2 ** len(unknown)):
            tried = codes.copy()
            tried[unknown] = [LEG_1 if spread >> k & 1 else LEG_2 for k in range(len(unknown))]
            one = leg_amps(power[None], tried[None])
            worst.append(max(one.leg_1[0, 0], one.leg_2[0, 0]))
        assert found.least[0] <= min(worst) * (1 + 1e-12)
        assert found.most[0] >= max(worst) * (1 - 1e-12)
