"""Every alternative says what a rerun says that states its supposition."""

import random
import re
from collections import Counter

import pytest

from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, known, load
from tests.checks.outage_runtime.reruns import rerun_of

CONTROL = {"comfort_shed_percent": 50, "normal_shed_percent": 25, "hysteresis_percent": 10}
BIG = {"energy": {"kind": "usable", "kwh": 100}}
PINNED: list[tuple[str, Body, str, str]] = [
    # what, request, alternative, its verdict
    (
        "one more unit brings its power",
        known([load(6000, hours_per_day=1)], BIG, target_hours=4),
        "one-more-unit",
        "pass",
    ),
    (
        "left out, a load asks for no power",
        known(
            [load(500), load(6000, tier="comfort", hours_per_day=0.1)],
            BIG,
            target_hours=4,
        ),
        "comfort-left-out",
        "pass",
    ),
    (
        "critical alone needs no load control",
        known([load(500), load(2000, tier="comfort")], target_hours=12, load_control=CONTROL),
        "critical-alone",
        "pass",
    ),
    (
        "what load control gives is conditional",
        known([load(500), load(2000, tier="comfort")], target_hours=6),
        "with-load-control",
        "conditional",
    ),
    (
        "full at the start",
        known([load(500)], {"reserve_percent": 50}, target_hours=12),
        "from-full",
        "pass",
    ),
]


@pytest.mark.parametrize("what, body, name, verdict", PINNED, ids=[case[0] for case in PINNED])
def test_verdict_of_an_alternative(what: str, body: Body, name: str, verdict: str) -> None:
    (found,) = [one for one in answered(body).alternatives if one.id == name]
    assert found.verdict == verdict, what


@pytest.mark.parametrize(
    "tier, name", [("normal", "critical-alone"), ("comfort", "comfort-left-out")]
)
def test_nothing_left_to_run_is_no_pass(tier: str, name: str) -> None:
    """Where no other load is chosen, what is left is nothing: not offered, or undetermined."""
    found = answered(known([load(500, tier=tier)], target_hours=4)).alternatives
    assert {str(one.verdict) for one in found if one.id == name} <= {"undetermined"}


@pytest.mark.parametrize("seed", range(40))
def test_every_alternative_is_its_rerun(seed: int) -> None:
    """Its verdict is the rerun's, and it flips exactly where that differs from the answer's."""
    body = random_requests.request(random.Random(1000 + seed))
    answer = answered(body)
    for alternative in answer.alternatives:
        rerun = answered(rerun_of(body, alternative))
        assert alternative.verdict == rerun.verdict, alternative.id
        assert alternative.flips_verdict == (rerun.verdict != answer.verdict), alternative.id


@pytest.mark.parametrize("seed", range(20))
def test_hours_of_an_alternative_are_those_of_its_rerun(seed: int) -> None:
    """Typical use, now, from the start charge, critical loads: printed rounded down to 0.1 h."""
    drawn = random_requests.request(random.Random(2000 + seed))
    body = drawn | {"season": "summer", "target_tier": "critical"}
    for alternative in answered(body).alternatives:
        if alternative.id == "every-tier":
            continue
        printed = re.findall(r"([0-9.]+) h\b", alternative.statement)
        rerun = answered(rerun_of(body, alternative))
        for text, hours in zip(
            printed, (rerun.hours_typical, answered(body).hours_typical), strict=True
        ):
            assert 0 <= hours - float(text) + 1e-6 < 0.1 + 1e-5, alternative.id


def test_the_random_requests_bring_every_alternative() -> None:
    """Each of the nine is met often enough to be a test of it, and each flips somewhere."""
    met: Counter[str] = Counter()
    for seed in range(40):
        answer = answered(random_requests.request(random.Random(1000 + seed)))
        met.update(one.id for one in answer.alternatives)
    assert len(met) == 9
    assert min(met.values()) >= 3
