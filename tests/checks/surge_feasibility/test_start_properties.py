"""What must hold of any start: more load, weaker sources, longer wires never help."""

import numpy as np
import pytest

from service.checks.surge_feasibility.judged_start import Known, judge, largest_share_beside
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.remedies import (
    equalised,
    with_conductor,
    with_share_beside,
    with_soft_starter,
    with_units,
)
from service.checks.surge_feasibility.start_case import StartCase, beside
from service.checks.surge_feasibility.start_outcome import (
    COUNTED_FOLDED,
    FOLDS_BACK,
    LIGHTS_DIP,
    NOT_STARTED,
    STARTS,
    TRIPS,
    UNKNOWN,
)
from tests.checks.surge_feasibility.reference_starts import lanes

REPEATS = 12
#: Loads of unknown leg at both corners, against their usual spread.
WORSE_AND_EVEN = np.array([2.0, 1.0, 1.2]) / 1.2


def random_starts(seed: int) -> StartCase:
    """The reference motors, each with sizes, ratings, wires and loads of its own."""
    rng = np.random.default_rng(seed)
    case = beside(*[lanes()] * REPEATS)
    count = len(case.rated_volts)

    def by(low: float, high: float) -> np.ndarray:
        return np.exp(rng.uniform(np.log(low), np.log(high), count))

    power = by(100, 8000) * (1 + 0.3j)
    kind = rng.random(count) < 0.5
    size = by(0.5, 2)
    return case._replace(
        locked_amps=case.locked_amps * size * by(0.9, 1.2),
        rated_amps=case.rated_amps * size,
        rating_amps=case.rating_amps * by(0.4, 4)[:, None],
        circuit_impedance=case.circuit_impedance * by(0.2, 5),
        source_impedance=case.source_impedance * by(1, 6),
        beside_impedance=np.where(kind, power, 0),
        beside_power=np.where(kind, 0, power),
        corner_impedance=(np.where(kind, power, 0)[:, None] * WORSE_AND_EVEN).astype(complex),
        corner_power=(np.where(kind, 0, power)[:, None] * WORSE_AND_EVEN).astype(complex),
    )


def known(case: StartCase, beyond: int = UNKNOWN) -> Known:
    count = len(case.rated_volts)
    return Known(
        case.locked_amps * 0.9,
        case.locked_amps * 1.1,
        case.rated_amps * 0.95,
        case.rated_amps * 1.05,
        np.zeros(count, bool),
        np.zeros(count, bool),
        np.full(count, beyond),
        np.ones(count),
        np.ones(count),
    )


def limits(case: StartCase) -> VoltageLimits:
    return VoltageLimits(
        *(np.full(len(case.rated_volts), x) for x in (0.5, 0.16, 0.55, 0.017, 0.9, 0.0))
    )


def words(case: StartCase, beyond: int = UNKNOWN) -> np.ndarray:
    with np.errstate(all="ignore"):
        found = judge({"it": case}, limits(case), known(case, beyond))["it"]
    nominal = found[1].nominal
    for name, member in zip(nominal._fields, nominal, strict=True):
        if name not in {"started", "course"}:
            assert np.isfinite(np.asarray(member, float)).all(), name
    return found[0].word


CASE = random_starts(1)
BARE = words(CASE)
ONE = np.ones(len(BARE))
NEVER_HELPS = {
    "more load beside": with_share_beside(CASE, 1.3),
    "a longer wire": with_conductor(CASE, 1.5),
    "lower ratings": CASE._replace(rating_amps=CASE.rating_amps * 0.8),
    "pressure not equalised": CASE._replace(
        load=CASE.load._replace(pressure_at_start=CASE.load.pressure_at_start + 0.2)
    ),
}
NEVER_HARMS = {
    "half the load beside": with_share_beside(CASE, 0.5),
    "a larger wire": with_conductor(CASE, 0.6),
    "a second unit": with_units(
        CASE, np.ones(len(BARE)), np.full(len(BARE), 2), np.ones(len(BARE))
    ),
    "a delay": equalised(CASE),
}


def test_the_random_starts_come_to_everything() -> None:
    assert set(BARE) == {0, 1, 2, 3, 4}


@pytest.mark.parametrize("what", NEVER_HELPS)
def test_never_turns_a_failure_into_a_start(what: str) -> None:
    assert not ((BARE < LIGHTS_DIP) & (words(NEVER_HELPS[what]) >= LIGHTS_DIP)).any()


@pytest.mark.parametrize("what", NEVER_HARMS)
def test_never_turns_a_start_into_a_failure(what: str) -> None:
    assert not ((BARE >= LIGHTS_DIP) & (words(NEVER_HARMS[what]) < LIGHTS_DIP)).any()


def test_larger_locked_rotor_amps_never_help() -> None:
    """At the same torque per volt and the same running amps, as the paper check sees it."""
    more = CASE._replace(locked_amps=CASE.locked_amps * 1.1)
    assert not ((BARE < LIGHTS_DIP) & (words(more) >= LIGHTS_DIP)).any()


def test_what_a_source_does_beyond_its_ratings_only_widens_what_is_said() -> None:
    """Folding back that is counted on is never worse than not known, tripping never better."""
    folds, trips = words(CASE, COUNTED_FOLDED), words(CASE, TRIPS)
    assert (folds >= BARE)[BARE >= 2].all()
    assert (trips <= BARE).all()
    assert (folds > BARE).any()
    assert (trips < BARE).any()


def test_a_source_that_is_said_to_fold_back_starts_nothing_more() -> None:
    assert (words(CASE, FOLDS_BACK) == BARE).all()


def test_the_largest_load_beside_starts_and_a_little_more_does_not() -> None:
    with np.errstate(all="ignore"):
        share = largest_share_beside(CASE, limits(CASE), known(CASE))
    some = (share >= 0) & (share < 1)
    assert some.any()
    assert (words(with_share_beside(CASE, np.maximum(share, 0)))[share >= 0] >= LIGHTS_DIP).all()
    assert (words(with_share_beside(CASE, share + 1 / 64))[some] < LIGHTS_DIP).all()
    assert (words(with_share_beside(CASE, 0.0))[share < 0] < LIGHTS_DIP).all()


def test_a_soft_starter_never_lets_more_through_than_it_says() -> None:
    case = with_soft_starter(CASE, 0.4)
    with np.errstate(all="ignore"):
        found = judge({"it": case}, limits(case), known(case))["it"][1].nominal
    early = found.course.time[:, 0] < case.soft_ramp - 1e-9
    held = found.course.motor_amps.max(axis=1) <= 0.4 * case.locked_amps * (1 + 1e-9)
    assert held[early].all()


def test_nothing_starts_without_amps() -> None:
    assert (words(CASE._replace(rating_amps=CASE.rating_amps * 1e-3)) == NOT_STARTED).all()


def test_a_stiff_source_starts_what_starts_at_all() -> None:
    """On a source without impedance or bounds only what is too heavy for the motor stays."""
    stiff = CASE._replace(
        rating_amps=np.full_like(CASE.rating_amps, 1e6),
        source_impedance=CASE.source_impedance * 0,
        circuit_impedance=CASE.circuit_impedance * 0,
        soft_current=np.full(len(BARE), np.inf),
    )
    heavy = CASE.load.pressure_at_start > 0
    assert (words(stiff) == STARTS)[~heavy].all()
