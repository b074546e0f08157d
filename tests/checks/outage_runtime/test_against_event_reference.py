"""Random requests, every reading worked out anew by the scalar event reference."""

import random
from itertools import product

import pytest

from tests.checks.outage_runtime import random_requests, scalar_readings
from tests.checks.outage_runtime.asking import Body, answered, reading

READINGS = [
    "/".join(parts)
    for parts in product(("low", "typical", "high"), ("now", "end_of_warranty"), ("start", "full"))
]
#: Agreement asked for [h].
TOLERANCE = 1e-6


def drawn(seed: int) -> Body:
    """Return a request; every second one has load control."""
    return random_requests.request(random.Random(seed), load_control=seed % 2 == 1)


@pytest.mark.parametrize("seed", range(48))
def test_every_reading_is_that_of_the_scalar_reference(seed: int) -> None:
    """Hours to dark, of normal and of comfort loads, and what ends it, in all twelve readings."""
    body = drawn(seed)
    answer = answered(body)
    for name in READINGS:
        expected = scalar_readings.found(body, name, answer.season)
        actual = reading(answer, name)
        assert actual.hours_to_dark == pytest.approx(expected.dark, abs=TOLERANCE), name
        if actual.normal_hours is not None:
            assert actual.normal_hours == pytest.approx(expected.normal, abs=TOLERANCE), name
        if actual.comfort_hours is not None:
            assert actual.comfort_hours == pytest.approx(expected.comfort, abs=TOLERANCE), name
        assert actual.ended_by == expected.ended_by, name
        assert actual.at_least == expected.at_least, name


def test_the_random_requests_reach_every_ending_and_every_kind_of_use() -> None:
    """The comparison above is not empty: energy, power and nothing end them, tiers are shed."""
    bodies = [drawn(seed) for seed in range(48)]
    answers = [answered(body) for body in bodies]
    endings = {one.ended_by for answer in answers for one in answer.readings}
    assert endings == {"energy", "power", "nothing"}
    assert {body["use"]["kind"] for body in bodies} == {"loads", "day_profile", "monthly_kwh"}
    shed_before_dark = [
        one
        for answer in answers
        for one in answer.readings
        if one.comfort_hours is not None and 0 < one.comfort_hours < one.hours_to_dark
    ]
    assert len(shed_before_dark) >= 12
