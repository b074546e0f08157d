"""Starts against an independent calculation that integrates the same motors by Runge-Kutta."""

import numpy as np
import pytest

from service.checks.surge_feasibility.nominal_start import Start, start
from service.checks.surge_feasibility.start_outcome import UNKNOWN, outcome
from tests.checks.surge_feasibility.reference_starts import CASES, CORNERS, lanes, limits

WORDS = [
    "does not start",
    "starts but cannot be carried",
    "uncertain",
    "starts, lights dip",
    "starts",
]


@pytest.fixture(scope="module")
def found() -> dict[str, Start]:
    with np.errstate(all="ignore"):
        return {corner: start(lanes(corner), limits()) for corner in CORNERS}


@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("index", range(len(CASES)), ids=[case["case"][:2] for case in CASES])
def test_outcome(found: dict[str, Start], index: int, corner: str) -> None:
    """Every case comes to the same, at the nominal values and at both corners."""
    words = outcome(found[corner], limits(), np.full(len(CASES), UNKNOWN))
    assert WORDS[words[index]] == CASES[index][corner]


@pytest.mark.parametrize("index", range(len(CASES)), ids=[case["case"][:2] for case in CASES])
def test_numbers(found: dict[str, Start], index: int) -> None:
    """Start time to 5 %, volts to 0.01, amps to 1 %, time at the ceiling to 10 ms."""
    one, case = found["verdict"], CASES[index]
    if case["start_s"] is None:
        assert np.isinf(one.started[index])
    else:
        assert one.started[index] == pytest.approx(case["start_s"], rel=0.05)
        assert one.running_bus[index] == pytest.approx(case["running"]["v"], abs=0.01)
    assert one.least_bus[index] == pytest.approx(case["vmin_bus_pu"], abs=0.01)
    if case["vmin_motor_pu"] is not None:
        assert one.least_motor_volts[index] == pytest.approx(case["vmin_motor_pu"], abs=0.01)
    assert one.most_amps[index] == pytest.approx(case["i_peak_A"], rel=0.01)
    assert one.most_motor_amps[index] == pytest.approx(case["i_motor_peak_A"], rel=0.01)
    # The reference reads a peak only where its integrator stopped, so it may lie a little under it.
    assert -0.01 < one.most_va[index] / (case["kva_peak"] * 1e3) - 1 < 0.02
    assert one.ceiling_seconds[index] == pytest.approx(case["t_at_limit_s"], abs=0.01)


@pytest.mark.parametrize("index", range(len(CASES)), ids=[case["case"][:2] for case in CASES])
def test_a_lane_alone_is_the_lane_in_the_batch(found: dict[str, Start], index: int) -> None:
    """One start answered alone and beside others agrees in every number."""
    with np.errstate(all="ignore"):
        alone = start(lanes(only=slice(index, index + 1)), limits(1))
    for name in set(Start._fields) - {"course"}:
        one, many = getattr(alone, name)[0], getattr(found["verdict"], name)[index]
        np.testing.assert_allclose(one, many, rtol=1e-9, atol=1e-12, err_msg=name)
