"""What runs beside each motor as all start again: by hand and one motor at a time."""

import numpy as np
import pytest

from service.checks.surge_feasibility.restart_order import RestartOrder, restart_order

# Running loads [VA], amps as they start, the steady loads; beside each in the worst and in the
# recommended order, and the rank. No amps: absent. Source: by hand.
CASES = [
    ([3000], [90], 500, [500], [500], [0]),
    ([3000, 700], [90, 30], 500, [1200, 3500], [500, 3500], [0, 1]),
    ([700, 3000], [30, 90], 500, [3500, 1200], [3500, 500], [1, 0]),
    ([700, 3000], [90, 30], 0, [3000, 700], [0, 700], [0, 1]),
    ([100, 200, 400], [10, 30, 20], 1000, [1600, 1500, 1300], [1600, 1000, 1200], [2, 0, 1]),
    ([100, 200, 400], [10, 10, 10], 1000, [1600, 1500, 1300], [1000, 1100, 1300], [0, 1, 2]),
    ([100, 200, 400], [10, None, 20], 1000, [1400, 0, 1100], [1400, 0, 1000], [1, 2, 0]),
    ([100, 200, 400], [None, None, 20], 1000, [0, 0, 1000], [0, 0, 1000], [1, 2, 0]),
    ([100, 200], [None, None], 1000, [0, 0], [0, 0], [0, 1]),
    ([3 + 4j, 5 + 1j], [1, 2], 7 + 2j, [12 + 3j, 10 + 6j], [12 + 3j, 7 + 2j], [1, 0]),
]


@pytest.mark.parametrize("running,amps,steady,worst,recommended,rank", CASES)
def test_by_hand(
    running: list[complex],
    amps: list[float | None],
    steady: complex,
    worst: list[complex],
    recommended: list[complex],
    rank: list[int],
) -> None:
    found = restart_order(
        np.array([running], np.complex128),
        np.array([[a is not None for a in amps]]),
        np.array([[0.0 if a is None else a for a in amps]]),
        np.array([steady], np.complex128),
    )
    np.testing.assert_array_equal(found.beside_worst, [worst])
    np.testing.assert_array_equal(found.beside_recommended, [recommended])
    np.testing.assert_array_equal(found.rank, [rank])


LANES, MOTORS = 300, 6


def drawn(seed: int) -> tuple[RestartOrder, list[np.ndarray]]:
    rng = np.random.default_rng(seed)
    va = rng.uniform(100, 4000, (LANES, MOTORS)) * np.exp(1j * rng.uniform(0, 1, (LANES, MOTORS)))
    present = rng.random((LANES, MOTORS)) < 0.7
    amps = rng.integers(5, 15, (LANES, MOTORS)).astype(np.float64)
    steady = rng.uniform(0, 3000, LANES).astype(np.complex128)
    return restart_order(va, present, amps, steady), [va, present, amps, steady]


@pytest.mark.parametrize("seed", range(3))
def test_lanes_are_those_of_one_motor_at_a_time(seed: int) -> None:
    found, (va, present, amps, steady) = drawn(seed)
    for lane in range(LANES):
        there = [m for m in range(MOTORS) if present[lane, m]]
        running = steady[lane]
        for place, m in enumerate(sorted(there, key=lambda m: (-amps[lane, m], m))):
            assert found.rank[lane, m] == place
            assert found.beside_recommended[lane, m] == pytest.approx(running)
            running += va[lane, m]
        for m in there:
            assert found.beside_worst[lane, m] == pytest.approx(running - va[lane, m])


@pytest.mark.parametrize("seed", range(3))
def test_what_holds_of_any_motors(seed: int) -> None:
    found, (_, present, _, steady) = drawn(seed)
    np.testing.assert_array_equal(np.sort(found.rank, axis=1), np.tile(range(MOTORS), (LANES, 1)))
    assert np.all(found.beside_recommended.real <= found.beside_worst.real + 1e-9)
    first = present & (found.rank == 0)
    alone = np.broadcast_to(steady[:, np.newaxis], first.shape)
    np.testing.assert_array_equal(found.beside_recommended[first], alone[first])
    last = present & (found.rank == present.sum(axis=1, keepdims=True) - 1)
    np.testing.assert_allclose(found.beside_recommended[last], found.beside_worst[last])
    assert np.all(found.beside_worst[~present] == 0)
    assert np.all(found.beside_recommended[~present] == 0)
